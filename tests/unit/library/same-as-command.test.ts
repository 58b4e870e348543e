import { expect, it } from "vitest";
import {
  balance,
  check,
  compare,
  exportTasks,
  importTasks,
  jsonText,
  offLine,
  order,
  parts,
  planText,
  type Refused,
  ramp,
  rebalance,
  rebalanceSeveral,
  sheets,
  show,
  simulate,
  staff,
  study,
  takt,
} from "../../../src/library.js";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { FILES, LINE_TEXT, ORDERS, READINGS, smallLine, smallPlan, TASKS } from "./small-line.js";

const line = smallLine();
const plan = smallPlan(line);

const ORDERS_FILE = { file: "trailer.orders.csv", content: ORDERS };
const TASKS_FILE = { file: "trailer.tasks.csv", content: new TextEncoder().encode(TASKS) };

/** A command line, and the same asked of the library. */
const ASKED: readonly (readonly [string, () => Promise<Parameters<typeof jsonText>[0]>])[] = [
  ["takt LINE", async () => takt(line)],
  ["takt LINE --demand 200-per-day", async () => takt(line, { demand: "200 per day" })],
  ["balance LINE", async () => (await balance(line)).result],
  [
    "balance LINE --cycle 90s --method columns --explain",
    async () => (await balance(line, { cycle: "90s", method: "columns", explain: true })).result,
  ],
  ["balance LINE --stations 3", async () => (await balance(line, { stations: 3 })).result],
  [
    "balance LINE --from PLAN --nodes 50 --no-level",
    async () => (await balance(line, { from: plan, nodes: 50, level: false })).result,
  ],
  ["balance LINE --cycle 45", async () => (await balance(line, { cycle: "45" })).result],
  ["off-line LINE --blocks lace,true", () => offLine(line, { blocks: [["lace", "true"]] })],
  ["off-line LINE --rank stations --benches 2", () => offLine(line, { rank: ["stations"], benches: 2 })],
  ["compare LINE", () => compare(line)],
  [
    "compare LINE wheels-off-line --from PLAN",
    () => compare(line, { options: ["wheels-off-line"], from: plan }),
  ],
  [
    "rebalance LINE --from PLAN --demand 240-per-day --steps 2",
    async () => (await rebalance(line, plan, { demand: "240 per day", steps: 2 })).result,
  ],
  [
    "rebalance LINE --from PLAN --max-moves 1 --keep box",
    async () => (await rebalance(line, plan, { maxMoves: 1, keep: ["box"] })).result,
  ],
  ["staff LINE --demand 200..300/50", () => staff(line, { demand: "200..300/50" })],
  ["staff LINE --demand 250..300/50 --from PLAN", () => staff(line, { demand: "250..300/50", from: plan })],
  ["check LINE PLAN", () => check(line, plan)],
  ["check LINE PLAN --demand 500-per-day", () => check(line, [plan], { demand: "500 per day" })],
  [
    "check LINE PLAN --fail-on note --against PLAN",
    () => check(line, plan, { failOn: "note", against: plan }),
  ],
  ["show LINE PLAN", () => show(line, plan)],
  ["show LINE PLAN --proof", () => show(line, plan, { proof: true })],
  [
    "simulate LINE PLAN --hours 2h --replications 3 --seed 7 --confidence 90%",
    () => simulate(line, plan, { hours: "2h", replications: 3, seed: 7, confidence: "90%" }),
  ],
  ["ramp LINE PLAN --units 40", () => ramp(line, plan, { units: 40 })],
  ["ramp LINE PLAN --units 3 --each", () => ramp(line, plan, { units: 3, each: true })],
  [
    "rebalance LINE --from PLAN --demand 240-per-day --learning",
    async () => (await rebalance(line, plan, { demand: "240 per day", learning: true })).result,
  ],
  [
    "rebalance LINE --from PLAN --demand 240,330-per-day --people-above 1",
    async () => (await rebalanceSeveral(line, plan, { demand: "240, 330 per day", peopleAbove: 1 })).result,
  ],
  ["parts LINE PLAN", async () => parts(line, plan)],
  ["parts LINE PLAN --units 30 --against PLAN", async () => parts(line, plan, { units: 30, against: plan })],
  ["sheets LINE PLAN --date Friday", async () => (await sheets(line, plan, { date: "Friday" })).result],
  [
    "order LINE --from ORDERS --questions 2 --into LINE --dry-run",
    async () => (await order(line, [ORDERS_FILE], { questions: 2 })).result,
  ],
  ["import TASKS", async () => (await importTasks(TASKS_FILE)).result],
  ["import TASKS --into LINE --dry-run", async () => (await importTasks(TASKS_FILE, { into: line })).result],
  ["export LINE", async () => (await exportTasks(line)).result],
  [
    "study READINGS --unit s --rating 110% --allowance personal-5% --allowance-of job",
    () =>
      study(READINGS, {
        file: "trailer.readings.csv",
        unit: "s",
        rating: "110%",
        allowances: ["personal 5%"],
        allowanceBase: "job",
      }),
  ],
];

/** Dashes stand for the blanks of a value. */
const words = (command: string): string[] =>
  command
    .replaceAll("LINE", "trailer.line.yaml")
    .replace("ORDERS", ORDERS_FILE.file)
    .replace("TASKS", TASKS_FILE.file)
    .replaceAll("PLAN", "trailer.plan.yaml")
    .replace("READINGS", "trailer.readings.csv")
    .split(" ")
    .map((word) => word.replace("-per-day", " per day").replace("personal-", "personal "));

it.each(ASKED)("linepoise %s --json prints what the library gives, byte for byte", async (command, ask) => {
  const { stdout } = await runLinepoise({ args: [...words(command), "--json"], files: FILES });
  expect(jsonText(await ask())).toBe(stdout);
});

it("gives plans with the text that --write writes, which others read back", async () => {
  const { files } = await runLinepoise({
    args: ["balance", "trailer.line.yaml", "--write", "new.plan.yaml"],
    files: FILES,
  });
  const { plan: made } = await balance(line);
  expect(made!.text).toBe(files["new.plan.yaml"]);
  expect(planText(made!, { present: `# Agreed with the floor.\n${made!.text}` })).toBe(
    `# Agreed with the floor.\n${made!.text}`,
  );
  expect(await check(line, made!)).toMatchObject({ outcome: "fine" });
});

it("gives line files, tables and pages as the commands write them, and a line takes more than once", async () => {
  const run = async (...args: string[]) => {
    const { stdout, files } = await runLinepoise({ args, files: FILES });
    return { stdout, line: files["trailer.line.yaml"] };
  };
  const { file } = TASKS_FILE;
  for (const _ of [1, 2]) {
    const { lineText } = await importTasks(TASKS_FILE, { into: line });
    expect(lineText).toBe((await run("import", file, "--into", "trailer.line.yaml")).line);
  }
  expect((await importTasks(TASKS_FILE)).lineText).toBe((await run("import", file)).stdout);
  const ordered = await order(line, [ORDERS_FILE], { questions: 0 });
  const asked = ["--from", ORDERS_FILE.file, "--questions", "0"];
  expect(ordered.lineText).toBe(
    (await run("order", "trailer.line.yaml", ...asked, "--into", "trailer.line.yaml")).line,
  );
  const { csv, workbook } = await exportTasks(line, { decimals: "comma" });
  expect(csv).toBe((await run("export", "trailer.line.yaml", "--decimals", "comma")).stdout);
  const { result } = await importTasks({ file: "tasks.xlsx", content: workbook }, { into: line });
  expect(result).toMatchObject({ outcome: "found", into: { tasks: [] } });
  const { html } = await sheets(line, plan, { station: "S2" });
  const station = ["--station", "S2"];
  expect(html).toBe((await run("sheets", "trailer.line.yaml", "trailer.plan.yaml", ...station)).stdout);
});

it("gives a plan for each of several demands, which others take", async () => {
  const { plans } = await rebalanceSeveral(line, plan, { demand: "240, 330 per day" });
  const verdicts = plans.map(async (each, at) =>
    check(line, each!, { demand: ["240 per day", "330 per day"][at]! }),
  );
  expect((await Promise.all(verdicts)).map(({ outcome }) => outcome)).toEqual(["fine", "fine"]);
});

it("refuses a line without a pace as the command line refuses faults of a file", async () => {
  const unpaced = smallLine(LINE_TEXT.replace("demand: 300 per day\n", ""));
  const refused: Refused = {
    format: "linepoise/1",
    command: "balance",
    outcome: "refused",
    findings: [
      expect.objectContaining({
        rule: "no-pace",
        message:
          "nothing gives the pace: put `demand:` in trailer.line.yaml, or give a demand or a line cycle",
      }),
    ],
  };
  expect(await balance(unpaced)).toEqual({ result: refused, plan: null });
});

it("takes a plan to a line that has changed since by the ids of its tasks", async () => {
  const grown = smallLine(`${LINE_TEXT}  bell: {time: 5, after: box}\n`);
  const { result, plan: made } = await rebalance(grown, plan, {});
  expect(result.outcome).not.toBe("refused");
  expect(made!.stations.flatMap(({ tasks }) => tasks)).toContain("bell");
});
