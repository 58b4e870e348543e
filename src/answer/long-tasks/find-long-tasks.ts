import { type Finding, finding } from "../../findings/finding.js";
import type { Line, Task } from "../../line/line.js";
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
export interface LongTask {
  readonly task: number;
  /** The most that such a station takes at all its places: its working time, or its limit where that is strict. */
  readonly most: Ratio;
  /** The places of that station. */
  readonly places: number;
  /** It may stand at every station, as far as the line says where. */
  readonly isAnywhere: boolean;
}

/** Tasks that no station can hold, each by the stations that it may stand at. */
export function findLongTasks(line: Line, pace: Pace, strictLimit: boolean): LongTask[] {
  const problem = layOutWork(line, { pace, strictLimit, slowest: null, free: false });
  const loads = loadsInParts(line, "down");
  return loads.flatMap((load, task) => {
    const kinds = limitsFor(problem, [task]);
    const roomiest = kinds.reduce((one, two) => (two.alone.at(-1)! > one.alone.at(-1)! ? two : one));
    const most = roomiest.alone.at(-1)!;
    if (load <= most) return [];
    const isAnywhere = kinds.length === problem.kinds.length;
    return [{ task, most: fromParts(line, most), places: roomiest.alone.length, isAnywhere }];
  });
}

/** Tasks that a plan holds alone above the limit of their station. */
export function findTightTasks(line: Line, pace: Pace, plan: Plan): number[] {
  return postsOf(line, pace, plan)
    .filter((post) => compare(stationTime(post), stationLimit(post, pace.lineCycle)) > 0)
    .map(({ tasks }) =>
      tasks.reduce((one, two) => (compare(line.tasks[two]!.load, line.tasks[one]!.load) > 0 ? two : one)),
    )
    .sort((one, two) => one - two);
}

/** An error for each task that no station can hold. */
export function tellLongTasks(line: Line, long: readonly LongTask[], strictLimit: boolean): Finding[] {
  return long.map((each) => {
    const { id, place } = line.tasks[each.task]!;
    const then = strictLimit ? "refused by --strict-limit" : `${whichStation(each)} can hold it`;
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

export const whichStation = ({ isAnywhere }: Pick<LongTask, "isAnywhere">): string =>
  isAnywhere ? "no station" : "no station that it may stand at";

/** "a takes 90 s, 150 % of the working time (60 s)". */
export function longWords(line: Line, { task, most, places }: LongTask, strictLimit: boolean): string {
  const { id, load } = line.tasks[task]!;
  const [takes, may] = showTimesApart(line.unit, load, most);
  if (compare(most, ZERO) <= 0) return `${id} takes ${takes}, and handling leaves it no working time`;
  const at = places === 1 ? "" : ` at ${places} places`;
  const what = strictLimit ? "station limit" : "working time";
  const again = workedAgainWords(line, [task]);
  return `${id} takes ${takes}${again}, ${percentOfAll(divide(load, most))} of the ${what} (${may}${at})`;
}

/** "a takes 58 s, 96.7 % of the working time (60 s) and 101.8 % of the station limit (57 s)". */
export function tightWords(
  line: Line,
  { id, load }: Pick<Task, "id" | "load">,
  { workingTime, stationLimit }: Pick<Pace, "workingTime" | "stationLimit">,
): string {
  const [takes, working, limit] = showTimesApart(line.unit, load, workingTime, stationLimit);
  const again = workedAgainWords(line, [line.tasks.findIndex((each) => each.id === id)]);
  const [ofWorking, ofLimit] = [workingTime, stationLimit].map((most) => percentOfAll(divide(load, most)));
  return `${id} takes ${takes}${again}, ${ofWorking} of the working time (${working}) and ${ofLimit} of the station limit (${limit})`;
}
