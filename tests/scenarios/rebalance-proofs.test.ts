import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

const example = new URL("../../examples/two-models.line.yaml", import.meta.url);
const files: Record<string, string> = {
  "two-models.line.yaml": readFileSync(example, "utf8"),
  "today.plan.yaml": `format: linepoise-plan/1
stations:
  - {id: S1, tasks: [load-frame, press-headset]}
  - {id: S2, tasks: [bond-plate, fit-fork]}
  - {id: S3, tasks: [fit-box, fit-wheels]}
  - {id: S4, places: 2, tasks: [fit-motor, plug-motor, bleed-brakes]}
  - {id: S5, tasks: [fit-basket, fit-battery, audit, torque-cranks]}
  - {id: S7, tasks: [test-ride]}
  - {id: S8, tasks: [rework-labels, wipe-down, box-up]}
`,
  "pairs.yaml":
    "unit: s\ntasks: {a: 50, b: {time: 50, after: a}, c: {time: 40, after: b}, d: {time: 60, after: c}}\n",
  "pairs.plan.yaml":
    "format: linepoise-plan/1\nstations: [{id: S1, tasks: [a]}, {id: S2, tasks: [b, c]}, {id: S3, tasks: [d]}]\n",
};

async function run(...args: readonly string[]): Promise<string> {
  const { stdout, status } = await runLinepoise({ args, files, terminal: 100, env: { NO_COLOR: "1" } });
  expect(status).toBe(0);
  return stdout;
}

const part = (text: string, head: string): string =>
  text.slice(text.indexOf(`${head}\n`) + head.length + 1).split("\n\n")[0]!;

const ofToday = ["two-models.line.yaml", "--from", "today.plan.yaml", "--demand"];

it.each([
  [200, 8],
  [240, 8],
  [280, 9],
])(
  "At %i a day a rebalance proves as few people as a balance: %i",
  async (demand, people) => {
    const balanced = await run("balance", "two-models.line.yaml", "--demand", `${demand} per day`, "--proof");
    const rebalanced = await run("rebalance", ...ofToday, `${demand} per day`);
    const proof = `  Proved: at least ${people} people are needed on the line`;
    expect(part(balanced, "PROOF").startsWith(proof)).toBe(true);
    expect(part(rebalanced, "PROOF").startsWith(proof)).toBe(true);
  },
  LONGEST_TEST,
);

it(
  "The fewest people within two moves are nine on the line and one for repairs, and the proof tells of the nine",
  async () => {
    const text = await run("rebalance", ...ofToday, "200 per day", "--max-moves", "2");
    expect(part(text, "MOVES AGAINST PEOPLE")).toBe(
      [
        "  people  moves  stations  proof",
        "  9           4         6  no fewer possible",
        "  10 *        2         6  no fewer possible",
        "  11          0         7  no fewer possible",
        "  * the plan below; 1 of the people is for repairs; moves: tasks whose station changes.",
      ].join("\n"),
    );
    expect(part(text, "PROOF")).toContain(
      "Proved: within 2 moves, fewer than 9 people on the line are impossible: plans with fewer take 4",
    );
  },
  LONGEST_TEST,
);

it("A row that is not proved says at least how many moves, by their name", async () => {
  const text = await run("rebalance", ...ofToday, "150 per day", "--nodes", "200");
  expect(part(text, "MOVES AGAINST PEOPLE")).toContain("  8 *         3         5  at least 1 move\n");
});

it("The sum of a bound is told for its own number of stations, not for that of the moves allowed", async () => {
  const text = await run(
    ...["rebalance", "pairs.yaml", "--from", "pairs.plan.yaml", "--cycle", "100 s", "--max-moves", "0"],
  );
  expect(part(text, "PROOF")).toBe(
    [
      "  Proved: without a move, fewer than 3 people are impossible: plans with fewer take 2 moves at the",
      "  least. With any moves and any task moved, 2 stations are enough, and fewer impossible, because",
      "  200 s of work / 100 s a station = 2, rounded up.",
    ].join("\n"),
  );
});
