import fc from "fast-check";
import { cheapestOfAllPlans } from "./cheapest-of-all-plans.js";

/*
 * Lines of up to five tasks that vary, against every way to put them at stations: mean + z x root of the summed variances within the working
 * time, written down plainly in whole numbers. z as tables of the normal distribution have it, to ten decimals.
 */
/** Seconds of the line cycle. */
export const CYCLE = 60n;
const Z = { 90: 12_815_515_655n, 95: 16_448_536_270n, 99: 23_263_478_740n } as const;
const SCALE = 10n ** 10n;

interface Task {
  /** Of the first model, and of the second where there is one. */
  readonly seconds: number;
  readonly other: number;
  /** In percent. */
  readonly cv: number;
  readonly people: number;
  readonly after: readonly number[];
}

/** A line whose stations keep the pace with a chance. */
export interface KeepPaceCase {
  readonly tasks: readonly Task[];
  readonly chance: keyof typeof Z;
  /** Of the first station; null where it has what the line asks, "plan-to" where all of it may be loaded. */
  readonly own: keyof typeof Z | "plan-to" | null;
  readonly maxPlaces: number;
  /** Of the first of two models, in percent; null where the line builds one. */
  readonly share: number | null;
}

const chance = fc.constantFrom(90 as const, 95 as const, 99 as const);
export const keepPaceCases: fc.Arbitrary<KeepPaceCase> = fc.record({
  tasks: fc
    .array(
      fc.record({
        seconds: fc.integer({ min: 0, max: 48 }),
        other: fc.integer({ min: 0, max: 48 }),
        cv: fc.integer({ min: 0, max: 33 }),
        people: fc.constantFrom(1, 1, 1, 2),
        after: fc.array(fc.integer({ min: 1, max: 4 }), { maxLength: 2 }),
      }),
      { minLength: 2, maxLength: 5 },
    )
    .map((tasks) =>
      tasks.map((task, at) => ({
        ...task,
        after: [...new Set(task.after.map((back) => at - back).filter((each) => each >= 0))],
      })),
    ),
  chance,
  own: fc.oneof(fc.constant(null), chance, fc.constant("plan-to" as const)),
  maxPlaces: fc.constantFrom(1, 1, 2),
  share: fc.constantFrom(null, 50, 80),
});

export function keepPaceFile({ tasks, chance: asked, own, maxPlaces, share }: KeepPaceCase): string {
  const first = own === "plan-to" ? "plan-to: 100 %" : `keep-pace: ${own} %`;
  return [
    "unit: s",
    `keep-pace: ${asked} %`,
    `max-places: ${maxPlaces}`,
    ...(share === null ? [] : [`models: {one: ${share} %, two: ${100 - share} %}`]),
    ...(own === null ? [] : [`stations: [{id: S1, ${first}}]`]),
    "tasks:",
    ...tasks.map(
      ({ seconds, other, cv, people, after }, at) =>
        `  t${at}: {time: ${share === null ? seconds : `{one: ${seconds}, two: ${other}}`}, people: ${people}, variation: {shape: lognormal, cv: ${cv} %}, after: [${after.map((each) => `t${each}`).join(", ")}]}`,
    ),
    "",
  ].join("\n");
}

function holds(tasks: readonly Task[], z: bigint, places: number, share: number | null): boolean {
  const isWithin = (times: readonly number[]) => {
    const mean = times.reduce((sum, each) => sum + BigInt(each), 0n);
    // In hundredths of a second, squared.
    const variance = tasks.reduce((sum, { cv }, at) => sum + BigInt(times[at]! * cv) ** 2n, 0n);
    const left = CYCLE * BigInt(places) - mean;
    return left >= 0n && (100n * left * SCALE) ** 2n >= z ** 2n * variance;
  };
  const first = tasks.map(({ seconds }) => seconds);
  if (share === null) return isWithin(first);
  const second = tasks.map(({ other }) => other);
  // All of the working time may be loaded on average; each model keeps it with a chance.
  const both = tasks.reduce((sum, { seconds, other }) => sum + share * seconds + (100 - share) * other, 0);
  return z === 0n ? BigInt(both) <= 100n * CYCLE * BigInt(places) : isWithin(first) && isWithin(second);
}

/** The fewest people, then stations, of every plan; null where none keeps the pace. */
export const cheapestKeepingPace = ({
  tasks,
  chance: asked,
  own,
  maxPlaces,
  share,
}: KeepPaceCase): readonly [number, number] | null =>
  cheapestOfAllPlans(tasks, maxPlaces, (here, position, places) => {
    const first = own === "plan-to" ? 0n : Z[own ?? asked];
    return holds(here, position === 0 && own !== null ? first : Z[asked], places, share);
  });
