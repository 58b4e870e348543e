import { expect, it } from "vitest";
import type { Obstacle } from "../../../src/answer/balance/obstacle.js";
import { obstacleClauses } from "../../../src/report/words/obstacle-words.js";

const order = (from: string, to: string): Obstacle => ({
  kind: "rule",
  reason: { kind: "order", from, to },
  earliest: null,
});

const clauses = (...pairs: readonly string[]) =>
  obstacleClauses(null, [{ kind: "not-smallest" }, ...pairs.map((pair) => order(pair[0]!, pair[1]!))]).slice(
    1,
  );

it("precedences among the reasons that follow on each other are one reason, in whatever order they come", () => {
  expect(clauses("ab")).toEqual(["a comes before b"]);
  expect(clauses("cd", "ab", "bc")).toEqual(["a, b, c and d come in this order"]);
  expect(clauses("bc", "ab", "ad")).toEqual(["a, b and c come in this order", "a comes before d"]);
});

it("a long chain of them shows its ends and counts what is between", () => {
  expect(clauses("ab", "bc", "cd", "de", "ef", "fg")).toEqual([
    "a, b, 3 more tasks, f and g come in this order",
  ]);
});
