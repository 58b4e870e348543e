import { describe, expect, it } from "vitest";
import { staffLine } from "../../../../src/answer/staff/staff-line.js";
import type { Plan } from "../../../../src/plan/plan.js";
import { ONE_PERSON } from "../../../../src/plan/plan.js";
import { staffRosterText } from "../../../../src/report/terminal/staff-text.js";
import { readDemandRange } from "../../../../src/time/demand-range.js";
import { lineOf, numbersOf } from "../../../tools/line-of.js";

/** 900 units in 2 x 27,000 s: 60 s each; frame, fit and brake take 85 s, so 2 people. */
const lineWith = (shifts: string, more = "") =>
  lineOf(
    [
      "unit: s",
      "demand: 900 per day",
      `calendar: {shifts: {${shifts}}}`,
      `benches: {wheels: {tasks: [lace, true]${more}}}`,
      "tasks: {frame: 30, lace: 40, true: {time: 55, after: lace}, fit: {time: 20, after: [frame, true]}, brake: {time: 35, after: fit}}",
      "",
    ].join("\n"),
  );
const TWO = "early: {length: 7.5 h}, late: {length: 7.5 h}";

async function staff(
  line: ReturnType<typeof lineOf>,
  benches: Plan["benches"] = undefined,
  demands = "600..900/300",
) {
  const range = readDemandRange(demands, "day");
  if (!range.ok) throw new Error(range.problem);
  const plan: Plan = benches === undefined ? { stations: [] } : { stations: [], benches };
  return staffLine(line, range.value, {
    nodes: 10_000,
    strictLimit: false,
    checkpoint: async () => null,
    today: null,
    beside: { line, plan },
    costOf: () => null,
  });
}

const benchOf = (line: ReturnType<typeof lineOf>, places: number) => [
  { ...ONE_PERSON, id: "wheels", tasks: numbersOf(line, "lace", "true"), places },
];

describe("The roster of a working day", () => {
  it("has the people of the line in every shift, and as many a day as the row", async () => {
    const { rows } = await staff(lineWith(TWO));
    // 180 s of work: 3 people at 90 s (600 a day), 4 at 60 s (900 a day).
    expect(rows.map(({ roster }) => roster?.shifts.map(({ shift, inAll }) => [shift, inAll]))).toEqual([
      [
        ["early", 3],
        ["late", 3],
      ],
      [
        ["early", 4],
        ["late", 4],
      ],
    ]);
    expect(rows.map(({ roster }) => roster?.perDay)).toEqual([6, 8]);
    expect(rows.map(({ people }) => people?.perDay)).toEqual([6, 8]);
  });

  it("has 4 people of a bench in the one shift that it works: 4 + 4 early, 4 late, 12 a day", async () => {
    const line = lineWith(TWO, ", shifts: 1");
    const { rows } = await staff(line, benchOf(line, 4));
    expect(rows.at(-1)!.roster).toEqual({
      shifts: [
        { shift: "early", onLine: 4, repair: 0, atBenches: 4, inAll: 8 },
        { shift: "late", onLine: 4, repair: 0, atBenches: 0, inAll: 4 },
      ],
      perDay: 12,
    });
  });

  it("has a shift of its own for a bench that works longer than the line", async () => {
    const line = lineWith("early: {length: 8 h}", ", shifts: 2");
    const answer = await staff(line, benchOf(line, 3), "300..450/150");
    const [, second] = answer.rows.at(-1)!.roster!.shifts;
    expect(second).toEqual({ shift: null, onLine: 0, repair: 0, atBenches: 3, inAll: 3 });
    expect(staffRosterText(answer, { width: 80, colour: false })).toContain("shift 2");
  });

  it("is not shown where one shift has people on the line alone", async () => {
    const one = await staff(lineWith("early: {length: 8 h}"), undefined, "300..450/150");
    expect(one.rows.map(({ roster }) => roster?.shifts.length)).toEqual([1, 1]);
    expect(staffRosterText(one, { width: 80, colour: false })).toBe("");
  });
});
