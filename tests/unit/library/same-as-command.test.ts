import { expect, it } from "vitest";
import {
  balance,
  check,
  compare,
  jsonText,
  offLine,
  planText,
  type Refused,
  rebalance,
  show,
  simulate,
  staff,
  study,
  takt,
} from "../../../src/library.js";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { FILES, LINE_TEXT, READINGS, smallLine, smallPlan } from "./small-line.js";

const line = smallLine();
const plan = smallPlan(line);

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
    .replace("LINE", "trailer.line.yaml")
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
