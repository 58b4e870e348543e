import { expect, it } from "vitest";
import { type BalanceAnswer, readAnswer } from "../tools/read-answer.js";
import { citation, readWorkedExamples, type TaktExample } from "../tools/read-worked-examples.js";
import { runLinepoise } from "../tools/run-linepoise.js";
import { lineOfExample } from "./line-of-example.js";

const examples = readWorkedExamples();
const oneTask = [{ id: "build", time: 1, after: [] }];

function calendarOf(given: TaktExample["given"]): Record<string, unknown> {
  const breaks = Object.fromEntries(
    given["breaks-minutes"].map((minutes, at) => [`break ${at + 1}`, `${minutes} min`]),
  );
  const shift = {
    length: `${given["shift-minutes"]} min`,
    ...(given["breaks-minutes"].length > 0 ? { breaks } : {}),
  };
  const shifts = Object.fromEntries(
    Array.from({ length: given.shifts }, (_, at) => [`shift ${at + 1}`, shift]),
  );
  return {
    shifts,
    ...(given["days-per-week"] ? { "days-per-week": given["days-per-week"] } : {}),
    ...(given["weeks-per-year"] ? { "weeks-per-year": given["weeks-per-year"] } : {}),
  };
}

/** What the tests read of `takt --json`. */
interface TaktAnswer {
  readonly calendar: { readonly shifts: readonly { readonly availableSeconds: number }[] };
  readonly unitsPerHour: number;
  readonly unitsToStart: number;
  readonly wholeUnitsToStart: number;
  readonly pace: BalanceAnswer["pace"];
}

async function taktOf(file: string): Promise<TaktAnswer> {
  const run = await runLinepoise({ args: ["takt", "line.yaml", "--json"], files: { "line.yaml": file } });
  expect(run.status, run.stderr).toBe(0);
  return JSON.parse(run.stdout) as TaktAnswer;
}

for (const { id, source, status, given, expected } of examples.takt) {
  const takt = expected["takt-seconds"];
  it(`gives a takt of ${takt} s for ${given.demand} (${citation(source)}; ${status})`, async () => {
    const file = lineOfExample(id, "s", oneTask, { demand: given.demand, calendar: calendarOf(given) });
    const { calendar, pace } = await taktOf(file);
    const available = calendar.shifts.map(({ availableSeconds }) => availableSeconds);
    expect(available).toEqual(Array(given.shifts).fill(expected["available-seconds-per-shift"]));
    expect(pace.taktSeconds).toBeCloseTo(takt, 3);
    expect(pace.lineCycleSeconds).toBe(pace.taktSeconds);
    expect(pace.stationLimitSeconds).toBe(pace.taktSeconds);
    expect((await readAnswer(file, [])).pace).toEqual(pace);
  });
}

const yearly = examples["pace-from-yearly-demand"];

for (const example of yearly.cases) {
  it(`takes uptime and repositioning off the pace of the ${example.name} (${citation(yearly.source)})`, async () => {
    const file = lineOfExample("yearly demand", "s", oneTask, {
      demand: `${example["demand-per-year"]} per year`,
      calendar: {
        shifts: { day: { length: `${example["hours-per-shift"]} h` } },
        "days-per-week": example["shifts-per-week"],
        "weeks-per-year": example["weeks-per-year"],
      },
      uptime: `${example.uptime * 100} %`,
      handling: `${example["repositioning-seconds"]} s`,
    });
    const { unitsPerHour, pace } = await taktOf(file);
    expect(unitsPerHour).toBeCloseTo(example.expected["rate-per-hour"], 4);
    expect(pace.lineCycleSeconds).toBeCloseTo(example.expected["line-cycle-minutes"] * 60, 6);
    expect(pace.stationLimitSeconds).toBeCloseTo(example.expected["service-minutes"] * 60, 6);
    expect((await readAnswer(file, [])).pace).toEqual(pace);
  });
}

it(`starts 105,219 units for 97,000 good ones (${citation(examples.scrap.source)})`, async () => {
  const { given, expected } = examples.scrap;
  const goodShare = given.scrap.reduce((share, lost) => share * (1 - lost), 1);
  expect(goodShare).toBeCloseTo(expected["rolled-yield"], 6);
  const file = lineOfExample("scrap", "s", oneTask, {
    demand: `${given["good-units"]} per year`,
    calendar: { shifts: { day: { length: "8 h" } }, "days-per-week": 5, "weeks-per-year": 50 },
    yield: `${(goodShare * 100).toFixed(4)} %`,
  });
  const { unitsToStart, wholeUnitsToStart, pace } = await taktOf(file);
  expect(unitsToStart).toBeCloseTo(expected["into-op1"], 2);
  expect(wholeUnitsToStart).toBe(expected["rounded-up"]);
  const started = given["good-units"] * (pace.taktSeconds! / pace.lineCycleSeconds);
  expect(started).toBeCloseTo(expected["into-op1"], 1);
});

const units = examples["time-units"];

for (const { seconds, written, status } of units.cases) {
  it(`reads ${written.join(" and ")} as ${seconds} s (${citation(units.source)}; ${status})`, async () => {
    const file = `tasks:\n${written.map((time, at) => `  t${at + 1}: "${time}"\n`).join("")}`;
    const { stations } = await readAnswer(file, ["--cycle", `${seconds} s`]);
    expect(stations.map((station) => station.seconds)).toEqual(written.map(() => seconds));
  });
}
