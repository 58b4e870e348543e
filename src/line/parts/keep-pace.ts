import { normalScore, squareRoot } from "../../time/normal-share.js";
import { add, floor, leastCommonMultiple, multiply, type Ratio, ratio } from "../../time/ratio.js";
import { readChance } from "../../time/share.js";
import type { FloorStation, KeepPace, Line, Task } from "../line.js";
import type { ObjectDraft } from "../read/draft.js";
import { text } from "../read/leaf.js";
import { handsPerGoodUnit } from "../task-load.js";

/** With what chance stations stay within their working time, at the line or at one station. */
export const keepPaceKeys = (description: string) => ({
  "keep-pace": text("share", description, readChance).optional(),
});

type KeepPaceKeys = ObjectDraft<ReturnType<typeof keepPaceKeys>>["at"];

/** What a draft without errors asks; null where it does not. */
export function buildKeepPace({ "keep-pace": given }: KeepPaceKeys): KeepPace | null {
  return given === undefined ? null : { chance: given.value, score: normalScore(given.value) };
}

/** What is asked of a station of the floor, null for one behind it. */
export const keepPaceAt = (
  line: Pick<Line, "keepPace">,
  station: Pick<FloorStation, "keepPace"> | null,
): KeepPace | null => (station === null ? line.keepPace : station.keepPace);

/** Whether any station is asked to keep the pace with some chance. */
export const asksToKeepPace = ({ keepPace, floor }: Pick<Line, "keepPace" | "floor">): boolean =>
  keepPace !== null || floor.some((station) => station.keepPace !== null);

/** A model that keeps the pace by itself, by its number; null where times are alike for every unit. */
export type ModelKept = number | null;

/** Where the times of some task differ between models each model that is built keeps the pace, else all units alike. */
export const modelsKept = ({ models, tasks }: Pick<Line, "models" | "tasks">): ModelKept[] =>
  tasks.some(({ times }) => times.length > 1)
    ? models.flatMap(({ share }, model) => (share.num === 0n ? [] : [model]))
    : [null];

/** What a task adds to its station for a good unit, in microseconds. */
export const meanKept = (task: Task, model: ModelKept): Ratio =>
  model === null ? task.load : handsPerGoodUnit(task, model);

/** Standard deviation of that: cv x mean. */
export const deviationOf = (task: Task, model: ModelKept): Ratio =>
  task.variation === null ? ratio(0) : multiply(task.variation.cv, meanKept(task, model));

/** That of tasks together, as their times are independent: the root of the sum of squares, to the microsecond below. */
export function deviationTogether(tasks: readonly Task[], model: ModelKept): Ratio {
  const variance = tasks
    .map((task) => multiply(deviationOf(task, model), deviationOf(task, model)))
    .reduce(add, ratio(0));
  return ratio(squareRoot(floor(variance)));
}

/**
 * What stations are asked, in whole numbers: with M the sum of `means`, V that of `variances` and R the room of a station, it keeps the
 * pace where R >= M and (R - M)^2 x `scoreScale`^2 >= `score`^2 x V. That is M + z root V <= R without a root, in parts of a microsecond
 * of which every mean, deviation and room is a whole number.
 */
export interface SpreadRow {
  /** Of each model that keeps the pace by itself, by task. */
  readonly models: readonly { readonly means: readonly bigint[]; readonly variances: readonly bigint[] }[];
  /** z x `scoreScale` by number of the station on the floor, the last for any behind it; null where nothing is asked. */
  readonly scores: readonly (bigint | null)[];
  readonly scoreScale: bigint;
  /** A time that `rooms` had among them, in the same parts. */
  whole(time: Ratio): bigint;
}

/**
 * Null where no station is asked to keep the pace with some chance.
 *
 * @param rooms times of which each is to be a whole number of parts too
 */
export function spreadRow(line: Line, rooms: readonly Ratio[]): SpreadRow | null {
  const asked = [...line.floor, null].map((station) => keepPaceAt(line, station));
  if (asked.every((each) => each === null)) return null;
  const models = modelsKept(line).map((model) => ({
    means: line.tasks.map((task) => meanKept(task, model)),
    deviations: line.tasks.map((task) => deviationOf(task, model)),
  }));
  const parts = [...models.flatMap(({ means, deviations }) => [...means, ...deviations]), ...rooms].reduce(
    (all, { den }) => leastCommonMultiple(all, den),
    1n,
  );
  const whole = ({ num, den }: Ratio) => num * (parts / den);
  const scoreScale = asked.reduce((all, each) => leastCommonMultiple(all, each?.score.den ?? 1n), 1n);
  return {
    models: models.map(({ means, deviations }) => ({
      means: means.map(whole),
      variances: deviations.map((each) => whole(each) ** 2n),
    })),
    scores: asked.map((each) => each && each.score.num * (scoreScale / each.score.den)),
    scoreScale,
    whole,
  };
}
