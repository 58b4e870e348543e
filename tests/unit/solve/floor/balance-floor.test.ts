import { describe, expect, it } from "vitest";
import type { BalanceOptions } from "../../../../src/solve/balance.js";
import { balanceFloor } from "../../../../src/solve/floor/balance-floor.js";
import { type FloorTerms, floorLine } from "../../../tools/floor-line.js";
import { rowsOf } from "../../../tools/floor-plans.js";
import { paceOf } from "../../../tools/line-of.js";

/** The outcome at 60 s. */
async function balanced(rows: readonly string[], terms: FloorTerms, options: Partial<BalanceOptions> = {}) {
  const line = floorLine(rows, terms);
  const found = await balanceFloor(line, paceOf(60), {
    method: "best",
    nodes: 10_000,
    strictLimit: false,
    level: false,
    explain: false,
    checkpoint: () => null,
    ...options,
  });
  const { outcome, least, methods } = found;
  return { rows: found.plan && rowsOf(line, found.plan), outcome, least, methods };
}

const press = {
  tasks: { b: { equipment: ["press"] }, c: { equipment: ["press"] } },
  equipment: { press: 1 },
};
const rows = ["a 20", "b 30 a", "c 30 d", "d 10 a"];

describe("balancing a line with rules", () => {
  it("gives the best of all rankings and of the search, and what each of them came to", async () => {
    const { methods, ...found } = await balanced(rows, press);
    expect(found).toEqual({
      rows: ["S1: a d", "S2: b c"],
      outcome: "proved",
      least: { people: 2, stations: 2 },
    });
    expect(methods.at(-1)).toEqual({ method: "exact", stations: 2, people: 2 });
    // A ranking that gives b the press beside a leaves c none.
    expect(methods).toContainEqual({ method: "positional-weight", stations: null, people: null });
  });

  it("gives the plan of one ranking where that is asked for, null where it runs into a rule", async () => {
    expect(await balanced(rows, press, { method: "positional-weight" })).toMatchObject({
      rows: null,
      outcome: "stopped",
    });
    // 90 s in all are 2 stations by work content; the ranking has as many.
    const apart = { apart: [["b", "c"]] };
    expect(await balanced(rows, apart, { method: "positional-weight" })).toMatchObject({ outcome: "proved" });
  });

  it("says that no plan exists where that is proved, and that it stopped where it is not known", async () => {
    const terms = { ...press, apart: [["b", "c"]] };
    expect(await balanced(rows, terms)).toMatchObject({ rows: null, outcome: "infeasible", least: null });
    expect(await balanced(rows, terms, { nodes: 1 })).toMatchObject({ rows: null, outcome: "stopped" });
  });

  it("takes the bound of the line without its rules for one with them", async () => {
    // No two of a, b and c fit 60 s: three stations with or without a rule.
    const found = await balanced(["a 40", "b 40", "c 40"], { apart: [["a", "b"]] }, { nodes: 1 });
    expect(found).toMatchObject({ outcome: "proved", least: { people: 3, stations: 3 } });
  });
});
