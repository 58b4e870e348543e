import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

const example = (name: string) =>
  readFileSync(new URL(`../../../../examples/${name}`, import.meta.url), "utf8");

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

it("finds a plan of few moves where a search ends before any is proved; a longer one proves that 8 are the fewest", {
  timeout: LONGEST_TEST,
}, async () => {
  const [first] = await tradeOffs("140 per day", "2000");
  expect([first![0], first![3]]).toEqual([10, "found"]);
  expect(first![1]).toBeLessThanOrEqual(10);
  expect(first![2]).toBeLessThanOrEqual(8);
  expect((await tradeOffs("140 per day", "150000"))[0]).toEqual([10, 8, 8, "proved"]);
});

it("claims no proof where nothing but itself looked for plans", { timeout: LONGEST_TEST }, async () => {
  const [first] = await tradeOffs("140 per day", "2");
  expect(first![1]).toBeGreaterThanOrEqual(8);
  expect(first![3]).toBe("found");
});
