import { describe, expect, it } from "vitest";
import { rebalanceLine } from "../../../../src/answer/rebalance/rebalance-line.js";
import { lookBeside } from "../../../../src/answer/rebalance/way-there.js";
import { planOf } from "../../../../src/plan/plan.js";
import { verifyPlan } from "../../../../src/plan/verify-plan.js";
import type { Progress } from "../../../../src/solve/watch-times.js";
import { paceOf, shortLine } from "../../../tools/line-of.js";

/** Sixty tasks in four lanes, each at a station of its own today, where several fit one. */
const line = shortLine(
  Array.from({ length: 60 }, (_, at) => {
    const before = at < 4 ? "" : ` T${at - 4 + (at % 3)}`;
    return `T${at} ${21 + ((at * 17) % 40)}${before}`;
  }),
);
const from = planOf(line.tasks.map((_, task) => [task]));
const pace = paceOf(150);

/** A rebalance that is told to end at one question, and at every later one. */
async function endedAt(question: number) {
  const asked: Progress[] = [];
  const checkpoint = (progress: Progress) => {
    asked.push(progress);
    return asked.length < question ? null : "interrupted";
  };
  const options = { nodes: 2_000, strictLimit: false, maxMoves: null, keep: [], checkpoint };
  const answer = await rebalanceLine(line, pace, null, from, options);
  const beside = await lookBeside(answer, { line, pace, from, strictLimit: false }, 2, checkpoint);
  return { answer, ...beside, asked };
}

describe("a rebalance that is interrupted at any question whether to go on", () => {
  it("has a plan that keeps the rules, and begins neither blocks, moves, steps nor slack any more", async () => {
    const whole = await endedAt(Number.POSITIVE_INFINITY);
    expect(whole.findings).toEqual([]);
    expect(whole.slack).not.toBeNull();
    const all = whole.asked.length;
    expect(all).toBeGreaterThan(40);
    const some = Array.from({ length: 12 }, (_, at) => 1 + Math.floor((at * (all - 1)) / 12));
    for (const question of new Set([1, 2, 3, 5, 8, ...some])) {
      const { answer, slack, way, findings, asked } = await endedAt(question);
      const { plan } = answer.balance;
      expect(verifyPlan(line, pace, plan!, false)).toEqual([]);
      // What is asked afterwards is only whether the next part may begin: blocks, moves, steps, slack.
      expect(asked.length - question, `after question ${question}`).toBeLessThanOrEqual(5);
      expect(new Set(asked.slice(question).map(({ nodes }) => nodes)).size).toBeLessThanOrEqual(2);
      expect(slack).toBeNull();
      expect(findings.map(({ rule }) => rule)).toEqual(["parts-left-out"]);
      if (asked.length < all) expect(way.spread === null || way.steps !== null).toBe(true);
    }
  });

  it("still looks for few moves where only the time for the fewest people is up", async () => {
    const asked: Progress["what"][][] = [[], []];
    const watch = (at: number, ends: "time" | null) => (progress: Progress) => {
      asked[at]!.push(progress.what);
      return ends;
    };
    const limits = { nodes: 2_000, strictLimit: false, maxMoves: null, keep: [] };
    const watches = { checkpoint: watch(0, null), peopleCheckpoint: watch(1, "time") };
    const { balance, tradeOffs } = await rebalanceLine(line, pace, null, from, { ...limits, ...watches });
    expect(balance.search!.ended).toBe("time");
    expect(tradeOffs[0]!.outcome).toBe("proved");
    expect(new Set(asked[0])).toEqual(new Set(["moves"]));
    expect(asked[0]!.length).toBeGreaterThan(10);
    expect(asked[1]).not.toContain("moves");
  });

  it("says that the last step has the rest where the time was up before all moves were in order", async () => {
    // Before the steps of a line that long it is asked whether they may go on.
    const many = shortLine(Array.from({ length: 400 }, (_, at) => `T${at} 30`));
    const apart = planOf(many.tasks.map((_, task) => [task]));
    const terms = {
      nodes: 1,
      strictLimit: false,
      maxMoves: null,
      keep: [],
      checkpoint: () => "time" as const,
    };
    const answer = await rebalanceLine(many, pace, null, apart, terms);
    const today = { line: many, pace, from: apart, strictLimit: false };
    const told = async (goesOnFor: number) => {
      let asked = 0;
      const beside = await lookBeside(answer, today, null, () => (asked++ < goesOnFor ? null : "time"));
      expect(beside.slack).toBeNull();
      return { steps: beside.way.steps, words: beside.findings.map(({ message }) => message) };
    };
    const none = await told(0);
    expect(none.steps).toBeNull();
    expect(none.words).toEqual([
      "the time was up before it worked out the steps and the slack of today's plan",
    ]);
    const one = await told(1);
    expect(one.steps!.steps.map(({ moves }) => moves.length)).toEqual([answer.chosen!.moves.length]);
    expect(one.words).toEqual([
      "the time was up before it worked out the order of all moves, of which the last step has the rest, and the slack of today's plan",
    ]);
  });

  it("works out what it is not interrupted before", async () => {
    const all = (await endedAt(Number.POSITIVE_INFINITY)).asked.length;
    // The last question is whether the slack may begin.
    const { way, slack, findings } = await endedAt(all);
    expect(way.steps).not.toBeNull();
    expect(slack).toBeNull();
    expect(findings[0]!.message).toBe("interrupted before it worked out the slack of today's plan");
  });
});
