import { type Finding, finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { stationLimit, stationTime } from "../../plan/figures/working-time.js";
import type { Plan } from "../../plan/plan.js";
import { postsOf } from "../../plan/post.js";
import { workedAgainWords } from "../../plan/worked-again.js";
import { limitsFor } from "../../solve/explain/binding-times.js";
import { layOutWork } from "../../solve/lay-out-work.js";
import { fromParts, loadsInParts } from "../../solve/parts.js";
import type { Pace } from "../../time/pace.js";
import { compare, divide, type Ratio, ZERO } from "../../time/ratio.js";
import { showTimesApart } from "../../time/show-in-unit.js";
import { percentOfAll } from "../../time/show-values.js";

/** A task that is longer than any station it may stand at takes; times in microseconds. */
export interface FloorLongTask {
  readonly task: number;
  /** The most that such a station takes at all its places: its working time, or its limit where that is strict. */
  readonly most: Ratio;
  /** The places of that station. */
  readonly places: number;
}

/** Tasks that no station of a line with shop-floor rules can hold, each by the stations that it may stand at. */
export function findFloorLongTasks(line: Line, pace: Pace, strictLimit: boolean): FloorLongTask[] {
  const problem = layOutWork(line, { pace, strictLimit, slowest: null, free: false });
  const loads = loadsInParts(line, "down");
  return loads.flatMap((load, task) => {
    const roomiest = limitsFor(problem, [task]).reduce((one, two) =>
      two.alone.at(-1)! > one.alone.at(-1)! ? two : one,
    );
    const most = roomiest.alone.at(-1)!;
    return load > most ? [{ task, most: fromParts(line, most), places: roomiest.alone.length }] : [];
  });
}

/** Tasks that a plan holds alone above the limit of their station. */
export function findFloorTightTasks(line: Line, pace: Pace, plan: Plan): number[] {
  return postsOf(line, pace, plan)
    .filter((post) => compare(stationTime(post), stationLimit(post, pace.lineCycle)) > 0)
    .map(({ tasks }) =>
      tasks.reduce((one, two) => (compare(line.tasks[two]!.load, line.tasks[one]!.load) > 0 ? two : one)),
    )
    .sort((one, two) => one - two);
}

/** An error for each task that no station can hold. */
export function tellFloorLongTasks(
  line: Line,
  long: readonly FloorLongTask[],
  strictLimit: boolean,
): Finding[] {
  return long.map((each) => {
    const { id, place } = line.tasks[each.task]!;
    const then = strictLimit ? "refused by --strict-limit" : "no station that it may stand at can hold it";
    return finding({
      rule: strictLimit ? "over-limit" : "over-working-time",
      severity: "error",
      message: `${longWords(line, each, strictLimit)}: ${then}`,
      file: line.file,
      place,
      task: id,
    });
  });
}

/** "a takes 90 s, 150 % of the working time (60 s)". */
export function longWords(line: Line, { task, most, places }: FloorLongTask, strictLimit: boolean): string {
  const { id, load } = line.tasks[task]!;
  const [takes, may] = showTimesApart(line.unit, load, most);
  if (compare(most, ZERO) <= 0) return `${id} takes ${takes}, and handling leaves it no working time`;
  const at = places === 1 ? "" : ` at ${places} places`;
  const what = strictLimit ? "station limit" : "working time";
  const again = workedAgainWords(line, [task]);
  return `${id} takes ${takes}${again}, ${percentOfAll(divide(load, most))} of the ${what} (${may}${at})`;
}
