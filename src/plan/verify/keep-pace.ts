import type { Finding } from "../../findings/finding.js";
import { handsPerGoodUnit } from "../../line/task-load.js";
import type { Ratio } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import { type Check, fault, showBoth } from "./fault.js";
import type { PlanView, StationView } from "./plan-view.js";
import { addUp, isWholeCount, shareOfWorkingTime } from "./whole-times.js";

const ONCE: Ratio = { num: 1n, den: 1n };

/**
 * A station that is asked to keep the pace with some chance holds while what its working time leaves beyond the mean is no less than z
 * standard deviations: nothing is left below 0, and its square is no less than z^2 x the sum of the squared deviations. Where some task of the line
 * takes its time by model, so it is for each model that is built.
 */
export const checkKeepPace: Check = (view) => view.stations.flatMap((at) => ofStation(view, at));

function ofStation({ line, pace }: PlanView, at: StationView): Finding[] {
  const asked = at.floor === null ? line.keepPace : at.floor.keepPace;
  if (asked === null || !isWholeCount(at.station.places)) return [];
  const { amount, parts } = shareOfWorkingTime(
    line,
    pace,
    { tasks: at.tasks, places: at.station.places },
    ONCE,
  );
  const isByModel = line.tasks.some(({ times }) => times.length > 1);
  const kinds = isByModel ? [...line.models.entries()].filter(([, { share }]) => share.num > 0n) : [null];
  for (const kind of kinds) {
    const tasks = at.tasks.map((task) => {
      const { load, variation } = line.tasks[task]!;
      return { mean: kind === null ? load : handsPerGoodUnit(line.tasks[task]!, kind[0]), variation };
    });
    const mean = addUp(tasks.map((task) => task.mean));
    const variance = addUp(
      tasks.map((task) => {
        if (task.variation === null) return { num: 0n, den: 1n };
        const [top, below] = [task.mean.num * task.variation.cv.num, task.mean.den * task.variation.cv.den];
        return { num: top * top, den: below * below };
      }),
    );
    const left: Ratio = { num: amount * mean.den - mean.num * parts, den: parts * mean.den };
    const { num, den } = asked.score;
    const isKept =
      left.num >= 0n &&
      left.num ** 2n * den ** 2n * variance.den >= num ** 2n * variance.num * left.den ** 2n;
    // More than the working time is told as that, where it is that of all units.
    if (isKept || (left.num < 0n && kind === null)) continue;
    const [held, room] = showBoth(line, mean, { num: amount, den: parts });
    const chance = percent(asked.chance, 4);
    const units = kind === null ? "" : ` for ${kind[1].id}`;
    const words =
      left.num < 0n
        ? `takes ${held} on average${units}, of a working time of ${room}: it does not stay within that with a chance of ${chance}`
        : `takes ${held} on average${units}, of a working time of ${room}: its times vary so much that it stays within that with a chance of less than ${chance}`;
    return [fault("keep-pace", `${at.id} ${words}`, at.id, null, { kind: "overfull", what: "keep-pace" })];
  }
  return [];
}
