import { describe, expect, it } from "vitest";
import { cautionsOf } from "../../../src/report/cautions.js";
import { lineOf } from "../../tools/line-of.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

const CAUTION =
  "A balanced plan is not a safety assessment. Lifting, electrical work, machinery, chemicals and paint, brake, roller-bench and pressure tests, work pace, repetition and working hours must meet local codes and be approved by licensed or otherwise qualified people.";

/** 72 s a unit, so each of three long tasks has a station: S1 lift, S2 wire, S3 test. */
const LINE = [
  "unit: s",
  "demand: 50 per hour",
  "tasks:",
  "  lift: {time: 60, lift: 19 kg, caution: Use the hoist, on-base: true}",
  "  wire: {time: 60, caution: Live parts}",
  "  test: {time: 60, after: [lift, wire]}",
  "options: {wire-away: {off-line: [[wire]]}}",
  "",
].join("\n");
const PLAN =
  "format: linepoise-plan/1\nstations: [{id: S1, tasks: [lift]}, {id: S4, tasks: [test]}]\nbenches: [{id: B1, tasks: [wire]}]\n";
const files = { "l.yaml": LINE, "p.yaml": PLAN };

const run = async (command: string) => (await runLinepoise({ args: command.split(" "), files })).stdout;
const words = async (command: string) => (await run(command)).replace(/\s+/gu, " ");

const COMMANDS = [
  "balance l.yaml",
  "off-line l.yaml",
  "compare l.yaml",
  "check l.yaml p.yaml",
  "rebalance l.yaml --from p.yaml",
  "staff l.yaml --demand 40..50/10",
  "show l.yaml p.yaml --station S1",
  "parts l.yaml p.yaml --units 5",
];

describe("the caution", () => {
  it.each(COMMANDS)("ends what %s prints", async (command) => {
    expect((await words(command)).trimEnd().endsWith(CAUTION)).toBe(true);
  });

  it.each(COMMANDS)("is a key of the data of %s", async (command) => {
    expect(JSON.parse(await run(`${command} --json`))).toMatchObject({ caution: CAUTION });
  });

  it("stands on every sheet, in its data and in the table of parts", async () => {
    const [page, markdown, csv] = [
      await run("sheets l.yaml p.yaml"),
      await run("sheets l.yaml p.yaml --format markdown"),
      await run("parts l.yaml p.yaml --units 5 --format csv"),
    ];
    expect([
      page.split(CAUTION).length,
      markdown.split(`- ${CAUTION}\n`).length,
      csv.split(CAUTION).length,
    ]).toEqual([4, 4, 2]);
    expect(JSON.parse(await run("sheets l.yaml p.yaml --json"))).toMatchObject({ caution: CAUTION });
  });

  it("stands in the Markdown and in a row of the CSV of a comparison", async () => {
    expect(await run("compare l.yaml --format markdown")).toContain(`- ${CAUTION}\n`);
    expect(await run("compare l.yaml --format csv")).toContain(`caution,,"${CAUTION}",`);
  });
});

describe("the caution of a task", () => {
  it("names the station or bench where it is done", async () => {
    const said = await words("check l.yaml p.yaml");
    expect(said).toContain("lift at S1: lift of 19 kg; Use the hoist wire at B1: Live parts");
  });

  it("names the place in each option of a comparison", async () => {
    const said = await words("compare l.yaml");
    expect(said).toContain("wire at S2 (as it is) or B1 (wire-away): Live parts");
    const csv = await run("compare l.yaml --format csv");
    expect(csv).toContain("caution: wire,,wire at S2: Live parts,,wire at B1: Live parts,,\r\n");
  });

  it("says in a table of CSV all that the text says: people together, the lift, the words", async () => {
    const two = LINE.replace("lift: {time: 60,", "lift: {time: 60, people: 2,");
    const args = ["balance", "l.yaml", "--format", "csv"];
    const { stdout } = await runLinepoise({ args, files: { ...files, "l.yaml": two } });
    expect(stdout).toContain("caution: lift,S1: 2 people at once; lift of 19 kg; Use the hoist,");
  });

  it("is in the data with its station", async () => {
    const { plans } = JSON.parse(await run("check l.yaml p.yaml --json"));
    expect(plans[0].plan.cautions).toEqual([
      { task: "lift", stations: ["S1"], people: 1, lift: "19 kg", caution: "Use the hoist" },
      { task: "wire", stations: ["B1"], people: 1, lift: null, caution: "Live parts" },
    ]);
  });

  it("is kept where a block must not leave the line", async () => {
    const asked = await words("off-line l.yaml --blocks lift;wire");
    expect(asked).toContain("lift at S1: lift of 19 kg; Use the hoist wire at S2 or a bench: Live parts");
  });

  it("names the stations of several plans in order of the line, also where each has others", () => {
    const { tasks } = lineOf("unit: s\ntasks: {a: {time: 5, caution: Hot}, b: 5, c: 5}\n");
    const planOf = (...stations: [string, number[]][]) => ({
      tasks,
      plan: { stations: stations.map(([id, done]) => ({ id, tasks: done })) },
    });
    const where = (...works: ReturnType<typeof planOf>[]) => cautionsOf(works)[0]!.where.map(({ id }) => id);
    expect(
      where(
        planOf(["Frame", [1]], ["Paint", [0, 2]]),
        planOf(["Frame", [1]], ["Motor", [0]], ["Paint", [2]]),
      ),
    ).toEqual(["Motor", "Paint"]);
    expect(
      where(planOf(["P10", [1]], ["P40", [0, 2]]), planOf(["P10", [1]], ["P20", [2]], ["P30", [0]])),
    ).toEqual(["P30", "P40"]);
    // Plans that contradict each other.
    expect(where(planOf(["S2", [0]], ["S1", [1, 2]]), planOf(["S1", [0]], ["S2", [1, 2]]))).toEqual([
      "S1",
      "S2",
    ]);
  });
});
