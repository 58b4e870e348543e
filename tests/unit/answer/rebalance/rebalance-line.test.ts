import { describe, expect, it } from "vitest";
import { type Move, movesBetween } from "../../../../src/answer/rebalance/match-stations.js";
import { rebalanceLine } from "../../../../src/answer/rebalance/rebalance-line.js";
import type { Line } from "../../../../src/line/line.js";
import { type Plan, planOf } from "../../../../src/plan/plan.js";
import { idsOf, lineOf, numbersOf, paceOf, shortLine } from "../../../tools/line-of.js";
import { drawFrom, moveCase } from "../../../tools/move-cases.js";

const options = { nodes: 200_000, strictLimit: false, maxMoves: null, keep: [], checkpoint: () => null };

const rows = ["A 20", "B 30", "C 25 A", "D 40 A", "E 45 B C", "F 10", "G 10"];
const line = shortLine(rows);

function planFrom(of: Line, ...stations: readonly string[]): Plan {
  return planOf(stations.map((ids) => numbersOf(of, ...ids.split(" "))));
}

/** S1 60 s, S2 55 s, S3 55 s, S4 10 s at a cycle of 60 s. */
const today = planFrom(line, "A D", "B C", "E F", "G");

const shown = (of: Line, moves: readonly Move[]) =>
  moves.map(({ task, from, to }) => `${of.tasks[task]!.id}: ${from} -> ${to}`);

describe("four stations of 60, 55, 55 and 10 s at a new cycle of 55 s", () => {
  it("need one move, the only single one that works", async () => {
    const { chosen, changes, asItIs, balance } = await rebalanceLine(line, paceOf(55), null, today, options);
    expect(shown(line, chosen!.moves)).toEqual(["D: S1 -> S4"]);
    expect([chosen!.people, chosen!.stations, chosen!.outcome, balance.outcome]).toEqual([
      4,
      4,
      "proved",
      "proved",
    ]);
    expect(
      changes.map(({ id, gets, gives, tasks }) => [id, gets.length, gives.length, idsOf(line, tasks)]),
    ).toEqual([
      ["S1", 0, 1, ["A"]],
      ["S4", 1, 0, ["D", "G"]],
    ]);
    // The slowest takes 60 s of 55 s.
    expect(asItIs!.shareOfPace).toEqual({ num: 12n, den: 11n });
  });

  it("have no plan with four stations on the floor where the task to move is fixed, and say why", async () => {
    const fixed = lineOf(
      [
        "unit: s",
        "stations: [{id: S1}, {id: S2}, {id: S3}, {id: S4}]",
        "tasks: {A: 20, B: 30, C: {time: 25, after: A}, D: {time: 40, after: A, station: S1}, E: {time: 45, after: [B, C]}, F: 10, G: 10}",
        "",
      ].join("\n"),
    );
    const { chosen, balance } = await rebalanceLine(fixed, paceOf(55), null, today, options);
    expect(chosen).toBeNull();
    expect(balance.outcome).toBe("infeasible");
    expect(balance.findings[0]!.message).toContain(
      "D is fixed to S1 (S2 is the earliest, by the times of the work before it); A comes before D; A (20 s) + D (40 s) = 60 s against 55 s, the limit of a station",
    );
  });

  it("leave a task where it is that is to be kept, at the price of more moves", async () => {
    const keep = numbersOf(line, "D");
    const { chosen } = await rebalanceLine(line, paceOf(55), null, today, { ...options, keep });
    // A must leave S1 for a station in front of it; for four people in all, S4 is then given up, and G joins A or S1.
    expect(chosen!.moves.some(({ task }) => keep.includes(task))).toBe(false);
    const [first, second, ...others] = shown(line, chosen!.moves);
    expect([first, others]).toEqual(["A: S1 -> S5", []]);
    expect(["G: S4 -> S1", "G: S4 -> S5"]).toContain(second);
  });

  it("find nothing within no moves at all", async () => {
    const { chosen, tradeOffs } = await rebalanceLine(line, paceOf(55), null, today, {
      ...options,
      maxMoves: 0,
    });
    expect(chosen).toBeNull();
    expect(tradeOffs.map(({ people, cost }) => [people, cost])).toEqual([[4, 1]]);
  });
});

it("a task that is new to the line is placed without a move", async () => {
  const more = shortLine([...rows, "H 30 G"]);
  const { chosen, changes } = await rebalanceLine(
    more,
    paceOf(60),
    null,
    planFrom(more, "A D", "B C", "E F", "G"),
    options,
  );
  expect(chosen!.moves).toEqual([]);
  expect(
    changes.map(({ id, gets }) => [id, gets.map(({ task, from }) => [more.tasks[task]!.id, from])]),
  ).toEqual([["S4", [["H", null]]]]);
});

describe("moves between two plans", () => {
  it("are none where a station is put in front and the others are renumbered", () => {
    const after = planFrom(line, "F", "A D", "B C", "E", "G");
    // Only F moves, from the third station to the new one in front.
    expect(shown(line, movesBetween(line, today, after))).toEqual(["F: S3 -> S1"]);
  });

  it("are told by id where the stations stand on a floor", () => {
    const floor = lineOf(
      "unit: s\nstations: [{id: S1}, {id: S2}, {id: S3}, {id: S4}, {id: S5}]\ntasks: {A: 20, B: 30, C: {time: 25, after: A}}\n",
    );
    const [one, two] = [planFrom(floor, "A", "B", "C"), planFrom(floor, "A", "B", "C")];
    const moved = { stations: two.stations.map((station, at) => ({ ...station, id: `S${at + 2}` })) };
    expect(shown(floor, movesBetween(floor, one, moved))).toEqual([
      "A: S1 -> S2",
      "B: S2 -> S3",
      "C: S3 -> S4",
    ]);
  });
});

it("rebalancing to the pace that a proved plan was made for moves nothing", async () => {
  const draw = drawFrom(7);
  for (let seed = 1; seed <= 40; seed++) {
    const given = moveCase(seed + draw(1000), 5, 12);
    const pace = paceOf(given.cycle);
    const first = await rebalanceLine(given.line, pace, null, { stations: [] }, options);
    const again = await rebalanceLine(given.line, pace, null, first.chosen!.plan, options);
    expect(again.chosen!.moves).toEqual([]);
    expect(again.chosen!.people).toBe(first.chosen!.people);
  }
});

it("a dear move is avoided for two cheap ones, by what the task or its skill says", async () => {
  const text = (cost: string) =>
    `unit: s\n${cost.startsWith("move-costs") ? `${cost}\n` : ""}tasks: {A: {time: 40, skill: brakes${cost.startsWith("move-costs") ? "" : `, ${cost}`}}, B: 10, C: 10, D: 25, E: 20}\n`;
  for (const cost of ["move-cost: 5", "move-costs: {brakes: 5}"]) {
    const dear = lineOf(text(cost));
    // 60 and 45 s today; at 45 s either A (40 s) leaves, or B and C (20 s) do.
    const { chosen } = await rebalanceLine(dear, paceOf(45), null, planFrom(dear, "A B C", "D E"), options);
    expect([shown(dear, chosen!.moves).length, chosen!.cost]).toEqual([2, 2]);
    expect(chosen!.moves.some(({ task }) => dear.tasks[task]!.id === "A")).toBe(false);
  }
});
