import { describe, expect, it } from "vitest";
import type { BalancingOptions } from "../../../src/solve/balance.js";
import { balance } from "../../../src/solve/balance.js";
import { ratio } from "../../../src/time/ratio.js";
import { type FloorTerms, floorLine, s } from "../../tools/floor-line.js";
import { rowsOf } from "../../tools/floor-plans.js";
import { paceOf } from "../../tools/line-of.js";

/** The outcome at 60 s. */
async function balanced(rows: readonly string[], terms: FloorTerms, options: Partial<BalancingOptions> = {}) {
  const line = floorLine(rows, terms);
  const found = await balance(line, paceOf(60), {
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

describe("two sides of which the right waits for the left, at 60 s", () => {
  // On the mean 30 + 25 = 55 s fit one station; city takes 40 + 40 = 80 s there, a third more than 60 s.
  const sided = (overload: number) =>
    balanced(["a 0", "b 0 a"], {
      models: [
        { id: "city", share: ratio(1, 2) },
        { id: "cargo", share: ratio(1, 2) },
      ],
      modelOverload: ratio(overload, 100),
      tasks: {
        a: { times: [s(40), s(20)], side: "left" },
        b: { times: [s(40), s(10)], side: "right" },
      },
    });

  it("take a station each where one model may not be a third above the working time, though the mean fits one", async () => {
    expect(await sided(33)).toMatchObject({
      rows: ["S1: a/left", "S2: b/right"],
      outcome: "proved",
      least: { people: 2, stations: 2 },
    });
    expect(await sided(34)).toMatchObject({ rows: ["S1: a/left b/right by 2"], outcome: "proved" });
  });
});
