import type { Finding } from "../../findings/finding.js";
import type { Ratio } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import { type Check, fault, showBoth } from "./fault.js";
import type { PlanView, StationView } from "./plan-view.js";
import { addUp, isWholeCount, shareOfWorkingTime } from "./whole-times.js";

const ONCE: Ratio = { num: 1n, den: 1n };

/**
 * A station that is asked to keep the pace with some chance holds while what its working time leaves beyond the mean is no less than z
 * standard deviations: nothing is left below 0, and its square is no less than z^2 x the sum of the squared deviations.
 */
export const checkKeepPace: Check = (view) => view.stations.flatMap((at) => ofStation(view, at));

function ofStation({ line, pace }: PlanView, at: StationView): Finding[] {
  const asked = at.floor === null ? line.keepPace : at.floor.keepPace;
  if (asked === null || !isWholeCount(at.station.places)) return [];
  const tasks = at.tasks.map((task) => line.tasks[task]!);
  const mean = addUp(tasks.map(({ load }) => load));
  const variance = addUp(
    tasks.map(({ load, variation }) => {
      if (variation === null) return { num: 0n, den: 1n };
      const [num, den] = [load.num * variation.cv.num, load.den * variation.cv.den];
      return { num: num * num, den: den * den };
    }),
  );
  const { amount, parts } = shareOfWorkingTime(
    line,
    pace,
    { tasks: at.tasks, places: at.station.places },
    ONCE,
  );
  const left: Ratio = { num: amount * mean.den - mean.num * parts, den: parts * mean.den };
  const { num, den } = asked.score;
  const isKept =
    left.num >= 0n && left.num ** 2n * den ** 2n * variance.den >= num ** 2n * variance.num * left.den ** 2n;
  // More than the working time is told as that.
  if (isKept || left.num < 0n) return [];
  const [held, room] = showBoth(line, mean, { num: amount, den: parts });
  const chance = percent(asked.chance, 4);
  const words = `takes ${held} on average, of a working time of ${room}: its times vary so much that it stays within that with a chance of less than ${chance}`;
  return [fault("keep-pace", `${at.id} ${words}`, at.id, null, { kind: "overfull", what: "keep-pace" })];
}
