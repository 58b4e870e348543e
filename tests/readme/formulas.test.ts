import { describe, expect, test } from "vitest";
import { runOnce } from "./pages.js";
import { RUNS, TERMS } from "./terms.js";

const answer = async (run: keyof typeof RUNS) => JSON.parse((await runOnce(`${RUNS[run]} --json`)).stdout);

/** The value of a formula of symbols, numbers and ` x `, ` / `, ` + `, ` - ` without brackets. */
function resultOf(formula: string, symbols: Readonly<Record<string, number>>): number {
  const [first = "", ...rest] = formula.split(/(?<= )([+-]) /u);
  const product = (text: string) => {
    const [start = "", ...factors] = text.trim().split(/ ([x/]) /u);
    const valued = (word: string) => symbols[word] ?? Number(word);
    return factors.reduce(
      (value, word, at) =>
        at % 2 === 0 ? value : factors[at - 1] === "x" ? value * valued(word) : value / valued(word),
      valued(start),
    );
  };
  return rest.reduce(
    (sum, text, at) =>
      at % 2 === 0 ? sum : rest[at - 1] === "+" ? sum + product(text) : sum - product(text),
    product(first),
  );
}

const formulaOf = (name: string) =>
  Object.values(TERMS)
    .flat()
    .find(({ term }) => term === name)!
    .formula!.replace(/^\S+ = /u, "")
    .split(", ")[0]!;

describe("The formulas on the page of terms give the figures of the demo", () => {
  test("of its pace", async () => {
    const {
      pace,
      demand,
      availableSecondsPerPeriod,
      uptime,
      yield: share,
      workingSeconds,
    } = await answer("takt");
    const symbols = {
      A: availableSecondsPerPeriod,
      D: demand.units,
      T: pace.taktSeconds,
      U: uptime,
      Y: share,
      C: pace.lineCycleSeconds,
      H: pace.handlingSeconds,
      W: workingSeconds,
      m: 1,
      v: 1,
      "plan-to": pace.planTo,
    };
    expect(resultOf(formulaOf("takt"), symbols)).toBeCloseTo(pace.taktSeconds, 5);
    expect(resultOf(formulaOf("line cycle"), symbols)).toBeCloseTo(pace.lineCycleSeconds, 5);
    expect(resultOf(formulaOf("working time of a station"), symbols)).toBeCloseTo(workingSeconds, 5);
    expect(resultOf(formulaOf("station limit"), symbols)).toBeCloseTo(pace.stationLimitSeconds, 5);
  });

  test("of its plan", async () => {
    const { pace, stations, measures, visits } = await answer("balance");
    const { availableSecondsPerPeriod: A, uptime: U, yield: Y } = await answer("takt");
    const times = new Map<string, number>(
      visits.map((each: { task: string; perGoodUnit: number }) => [each.task, each.perGoodUnit]),
    );
    const posts = (stations as Station[]).map((each) => {
      const v = Math.max(1, ...each.tasks.map((task) => times.get(task) ?? 1));
      const W = each.places * pace.lineCycleSeconds - pace.handlingSeconds * v;
      const H = pace.handlingSeconds;
      const rigs = Object.values(each.equipmentSeconds);
      const cycle = Math.max(
        (each.seconds + H * v) / each.places,
        (each.dwellSeconds / each.holds + H * v) / each.places,
        ...rigs,
      );
      return { ...each, v, W, cycle };
    });
    const Cp = Math.max(...posts.map(({ cycle }) => cycle));
    const sum = (each: (post: (typeof posts)[number]) => number) =>
      posts.reduce((all, post) => all + each(post), 0);
    expect(measures.cycleOfPlanSeconds).toBeCloseTo(Cp, 5);
    const efficiency = measures.workContentSeconds / sum(({ crew, W }) => crew * W);
    expect(measures.efficiencyAtPace).toBeCloseTo(efficiency, 5);
    expect(measures.balanceDelayAtPace).toBeCloseTo(
      resultOf(formulaOf("balance delay"), { E: efficiency }),
      5,
    );
    const atSlowest = sum(({ crew, places, v }) => crew * (places * Cp - pace.handlingSeconds * v));
    expect(measures.efficiencyAtSlowest).toBeCloseTo(measures.workContentSeconds / atSlowest, 5);
    expect(measures.smoothnessSeconds).toBeCloseTo(Math.sqrt(sum(({ cycle }) => (Cp - cycle) ** 2)), 4);
    expect(measures.idleSecondsPerUnit).toBeCloseTo(
      sum(({ crew, W, seconds }) => crew * W - crew * seconds),
      4,
    );
    expect(measures.outputPerShift).toBe(Math.floor((A * U * Y) / Cp));
    expect(measures.leadTimeSeconds).toBeCloseTo(
      sum(({ places, holds }) => places * holds * Cp),
      4,
    );
  });
});

interface Station {
  readonly tasks: readonly string[];
  readonly seconds: number;
  readonly dwellSeconds: number;
  readonly holds: number;
  readonly places: number;
  readonly crew: number;
  readonly equipmentSeconds: Readonly<Record<string, number>>;
}
