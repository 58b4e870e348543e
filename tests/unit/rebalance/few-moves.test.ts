import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

const example = (name: string) => readFileSync(new URL(`../../../examples/${name}`, import.meta.url), "utf8");

/** People, moves and the proved least of moves of every row of a rebalance of the demo. */
async function tradeOffs(demand: string, nodes: string) {
  const { stdout } = await runLinepoise({
    args: ["rebalance", "line.yaml", "--from", "plan.yaml", "--demand", demand, "--nodes", nodes, "--json"],
    files: { "line.yaml": example("cargo-bike.line.yaml"), "plan.yaml": example("cargo-bike.plan.yaml") },
  });
  const answer: { tradeOffs: { people: number; cost: number; leastCost: number; outcome: string }[] } =
    JSON.parse(stdout);
  return answer.tradeOffs.map(({ people, cost, leastCost, outcome }) => [people, cost, leastCost, outcome]);
}

it("finds a plan of 8 moves, which a longer search proves to be the fewest, though this search ends before it has one", {
  timeout: LONGEST_TEST,
}, async () => {
  expect((await tradeOffs("140 per day", "50000"))[0]!.slice(0, 2)).toEqual([10, 8]);
});

it("claims no proof where nothing but itself looked for plans", { timeout: LONGEST_TEST }, async () => {
  const [first] = await tradeOffs("140 per day", "2");
  expect(first![1]).toBeGreaterThanOrEqual(8);
  expect(first![3]).toBe("found");
});
