import { describe, expect, it } from "vitest";
import { brokenStretches } from "../../src/line/parts/spacing.js";
import { columns } from "../../src/line/precedence.js";
import { efficiencyAtSlowest } from "../../src/plan/figures/efficiency.js";
import { peopleNeeded } from "../../src/plan/figures/people.js";
import { stationTime } from "../../src/plan/figures/working-time.js";
import { goalChasing } from "../../src/plan/models/goal-chasing.js";
import { leastGaps, squaredGaps } from "../../src/plan/models/least-gaps.js";
import { proposeSequence } from "../../src/plan/models/propose-sequence.js";
import { weightedWork } from "../../src/plan/models/weighted-work.js";
import { postsOf } from "../../src/plan/post.js";
import { type BalancingOptions, balance } from "../../src/solve/balance.js";
import { type Pace, paceFromDemand } from "../../src/time/pace.js";
import { multiply, ONE, type Ratio, ratio, toNumber } from "../../src/time/ratio.js";
import { taktSum } from "../../src/time/takt.js";
import { distance } from "../tools/distance.js";
import { idsOf } from "../tools/line-of.js";
import { citation, readWorkedExamples, type Source } from "../tools/read-worked-examples.js";
import { mixedLine, sharesFrom } from "../unit/plan/models/mixed-line.js";

type ByModel<T> = Readonly<Record<string, T>>;

interface MixedModels {
  readonly workers: {
    readonly source: Source;
    readonly given: {
      readonly "rate-per-hour": ByModel<number>;
      readonly "work-minutes": ByModel<number>;
      readonly efficiency: number;
    };
    readonly expected: {
      readonly "workload-minutes-per-hour": number;
      readonly "workers-exact": number;
      readonly workers: number;
    };
  };
  readonly balance: {
    readonly source: Source;
    readonly given: {
      readonly "rate-per-hour": ByModel<number>;
      readonly uptime: number;
      readonly "repositioning-minutes": number;
    };
    readonly tasks: readonly {
      readonly id: string;
      readonly minutes: readonly (number | null)[];
      readonly after: readonly string[];
    }[];
    readonly expected: {
      readonly "work-minutes-per-hour": readonly number[];
      readonly "line-cycle-minutes": number;
      readonly "service-minutes": number;
      readonly "repositioning-efficiency": number;
      readonly columns: readonly number[];
      readonly stations: readonly (readonly string[])[];
      readonly "station-minutes-per-hour": readonly number[];
      readonly "efficiency-at-longest": number;
    };
  };
  readonly "goal-chasing": {
    readonly source: Source;
    readonly given: { readonly quantities: ByModel<number>; readonly uses: ByModel<readonly number[]> };
    readonly expected: {
      readonly totals: readonly number[];
      readonly sequence: readonly string[];
      readonly steps: readonly {
        readonly distances: readonly (number | null)[];
        readonly used: readonly number[];
      }[];
    };
  };
  readonly "part-levelling": {
    readonly source: Source;
    readonly given: { readonly quantities: readonly number[]; readonly uses: readonly (readonly number[])[] };
    readonly expected: {
      readonly published: { readonly sequence: readonly number[]; readonly gaps: number };
      readonly "goal-chasing": { readonly sequence: readonly number[]; readonly gaps: number };
      readonly least: { readonly gaps: number };
    };
  };
  readonly spacing: {
    readonly source: Source;
    readonly given: {
      readonly spacings: readonly (readonly [number, number])[];
      readonly classes: readonly (readonly number[])[];
      readonly quantities: readonly number[];
    };
    readonly expected: { readonly valid: readonly number[] };
  };
}

const examples = (readWorkedExamples() as unknown as { readonly "mixed-models": MixedModels })[
  "mixed-models"
];

const MINUTE = 60_000_000;
const sumOf = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0);
const minutes = (micros: Ratio): number => toNumber(multiply(micros, ratio(1, MINUTE)));
const share = (value: number): Ratio => ratio(Math.round(value * 10_000), 10_000);

/** The pace of so many good units per hour of the time in which the line could run. */
function hourlyPace(perHour: number, uptime: number, handlingMinutes: number): Pace {
  const pace = paceFromDemand({
    demand: { units: ratio(perHour), period: "hour" },
    calendar: null,
    uptime: share(uptime),
    yield: ONE,
    handling: Math.round(handlingMinutes * MINUTE),
    planTo: ONE,
  });
  if (!pace.ok) throw new Error(pace.problem);
  return pace.value;
}

describe(`workers for 4 A and 6 B an hour (${citation(examples.workers.source)})`, () => {
  const { given, expected } = examples.workers;
  const rates = given["rate-per-hour"];
  const perHour = sumOf(Object.values(rates));
  const line = mixedLine(rates, {
    build: { seconds: Object.values(given["work-minutes"]).map((each) => each * 60) },
  });
  const { workContent } = weightedWork(line, hourlyPace(perHour, 1, 0));

  it("share 258 min of work an hour", () => {
    expect(minutes(workContent) * perHour).toBe(expected["workload-minutes-per-hour"]);
  });

  it.each([
    ["as the efficiency of people", { efficiency: share(given.efficiency) }],
    ["as the availability of the line", { availability: share(given.efficiency) }],
  ])("are 4.4792, so 5, with 96 %% %s", (_, lost) => {
    const people = peopleNeeded(workContent, ratio(3_600_000_000, perHour), lost);
    expect(toNumber(people.exact, 4)).toBe(expected["workers-exact"]);
    expect(people.whole).toBe(Number(expected.workers));
  });

  it("are the same from the line cycle, which has the uptime in it", () => {
    const { people } = weightedWork(line, hourlyPace(perHour, given.efficiency, 0));
    expect(toNumber(people.exact, 4)).toBe(expected["workers-exact"]);
  });
});

describe(`a balance of the weighted work of two models (${citation(examples.balance.source)})`, () => {
  const { given, tasks, expected } = examples.balance;
  const rates = given["rate-per-hour"];
  const perHour = sumOf(Object.values(rates));
  const pace = hourlyPace(perHour, given.uptime, given["repositioning-minutes"]);
  const line = mixedLine(
    rates,
    Object.fromEntries(
      tasks.map(({ id, minutes, after }) => [
        id,
        { seconds: minutes.map((each) => each && each * 60), after },
      ]),
    ),
  );

  it("has a line cycle of 5.76 min, of which 5.61 min are for work", () => {
    expect([minutes(pace.lineCycle), minutes(pace.workingTime)]).toEqual([
      expected["line-cycle-minutes"],
      expected["service-minutes"],
    ]);
    const terms = { ...line, demand: { units: ratio(perHour), period: "hour" } as const };
    const sum = taktSum({ ...terms, uptime: share(given.uptime), handling: pace.handling });
    expect(sum.ok && toNumber(sum.value.workingShare)).toBe(expected["repositioning-efficiency"]);
  });

  it("weights every element by the rates of the models that have it", () => {
    expect(line.tasks.map(({ load }) => minutes(multiply(load, ratio(perHour))))).toEqual(
      expected["work-minutes-per-hour"],
    );
  });

  it("stands the elements in the columns of the joint diagram", () => {
    expect(columns(line.before)).toEqual(expected.columns);
  });

  it("fills five stations by columns at 92.1429 % of the longest", async () => {
    const options: BalancingOptions = {
      method: "columns",
      nodes: null,
      strictLimit: true,
      level: false,
      explain: false,
      checkpoint: () => null,
    };
    const plan = (await balance(line, pace, options)).plan!;
    expect(plan.stations.map((station) => idsOf(line, station.tasks))).toEqual(expected.stations);
    const posts = postsOf(line, { ...pace, handling: 0 }, plan);
    expect(posts.map((post) => minutes(multiply(stationTime(post), ratio(perHour))))).toEqual(
      expected["station-minutes-per-hour"],
    );
    expect(toNumber(efficiencyAtSlowest(posts)!)).toBe(expected["efficiency-at-longest"]);
  });
});

describe(`a sequence by goal chasing (${citation(examples["goal-chasing"].source)})`, () => {
  const { given, expected } = examples["goal-chasing"];
  const models = Object.keys(given.quantities);
  const uses = models.map((id) => given.uses[id]!.map((use) => ratio(use)));
  const { sequence, totals, steps } = goalChasing(Object.values(given.quantities), uses);
  const rounded = (square: Ratio | null) => square && Math.round(distance(square) * 100) / 100;

  it(`is ${expected.sequence.join(" ")}`, () => {
    expect(sequence.map((model) => models[model])).toEqual(expected.sequence);
    expect(totals).toEqual(expected.totals.map((total) => ratio(total)));
  });

  it("weighs the models at every place by the published distances", () => {
    expect(
      steps.map(({ squaredDistances, used }) => ({
        distances: squaredDistances.map(rounded),
        used: used.map((use) => toNumber(use)),
      })),
    ).toEqual(expected.steps);
  });
});

describe(`levelling of parts (${citation(examples["part-levelling"].source)})`, () => {
  const { given, expected } = examples["part-levelling"];
  const uses = given.quantities.map((_, model) => given.uses.map((row) => ratio(row[model]!)));
  const numbers = (models: readonly number[]) => models.map((model) => model - 1);
  const gapsOf = (sequence: readonly number[]) => toNumber(squaredGaps(sequence, uses));

  it(`has the squared gaps ${expected.published.gaps} in the published sequence`, () => {
    expect(gapsOf(numbers(expected.published.sequence))).toBe(expected.published.gaps);
  });

  it(`by goal chasing is ${expected["goal-chasing"].sequence.join(" ")}, with ${expected["goal-chasing"].gaps}`, () => {
    const { sequence } = goalChasing(given.quantities, uses);
    expect(sequence).toEqual(numbers(expected["goal-chasing"].sequence));
    expect(gapsOf(sequence)).toBe(expected["goal-chasing"].gaps);
  });

  it(`is ${expected.least.gaps} at the least`, () => {
    const none = given.quantities.map(() => []);
    expect(gapsOf(leastGaps(given.quantities, uses, none)!)).toBe(expected.least.gaps);
  });
});

describe(`spacing of options (${citation(examples.spacing.source)})`, () => {
  const { given, expected } = examples.spacing;
  const spacings = given.spacings.map(([most, of], option) => ({
    name: `option ${option}`,
    models: given.classes.flatMap((options, car) => (options[option] === 1 ? [car] : [])),
    most,
    of,
  }));
  // Ten cars are built once. Four cars without options behind them keep their end from meeting their beginning.
  const plain = given.classes.length;
  const quantities = [...given.quantities, 4];
  const broken = (sequence: readonly number[]) =>
    spacings.reduce((sum, each) => sum + brokenStretches(sequence, each).length, 0);

  it("is kept by the published order of ten cars, and not by its classes one after another", () => {
    expect(broken([...expected.valid, plain, plain, plain, plain])).toBe(0);
    const inOrder = quantities.flatMap((units, car) => Array<number>(units).fill(car));
    expect(broken(inOrder)).toBeGreaterThan(0);
  });

  it("is kept by an order that is found", () => {
    const uses = quantities.map((_, car) =>
      given.spacings.map((_, option) => ratio(given.classes[car]?.[option] ?? 0)),
    );
    const wanted = {
      quantities,
      shares: sharesFrom(quantities),
      stations: [],
      spacings,
      uses,
      tieUses: uses,
      isLevelFirst: false,
      given: null,
    };
    const { sequence, measure } = proposeSequence(wanted);
    expect([measure.broken, broken(sequence)]).toEqual([0, 0]);
    expect(
      quantities.map((_, car) => sequence.filter((each) => each === car).length % quantities[car]!),
    ).toEqual(quantities.map(() => 0));
  });
});
