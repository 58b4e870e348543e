import { hoursOf } from "../../benches/bench-hours.js";
import { carriedShare, jobFor } from "../../benches/bench-job.js";
import { benchPost, placesToKeep } from "../../benches/bench-post.js";
import { workOnCarrier } from "../../benches/bench-stations.js";
import { countShares } from "../../benches/count-shares.js";
import type { Block } from "../../benches/find-blocks.js";
import type { Line } from "../../line/line.js";
import { crewOf, ONE_PERSON } from "../../plan/plan.js";
import type { Pace } from "../../time/pace.js";
import { add, ceiling, divide, type Ratio, ratio } from "../../time/ratio.js";

/** The fewest places at which a bench builds a block, each a whole one in turn: as the file says that the bench works, else for every unit. */
export function placesFor(line: Line, pace: Pace, { tasks, joinsAt }: Block): number {
  const counted = countShares(line);
  const job = jobFor(line, { tasks, joinsAt: [joinsAt] });
  const { id, terms } = job;
  const share = carriedShare(line, job);
  const at = { hours: hoursOf(line, terms.shifts), share, handOver: terms.handOver, holds: terms.holds };
  const work = tasks.map((task) => workOnCarrier(counted, task, share)).reduce(add, ratio(terms.handOver));
  const station = { tasks, work, crew: crewOf(line, { ...ONE_PERSON, tasks }) };
  const post = benchPost(counted, pace, at, station, { id: id ?? "", places: 1, isLast: true });
  return Math.max(1, Number(ceiling(placesToKeep([post], pace))));
}

/** Into how many equal parts, at the least, a task must be split for each to fit the station limit. */
export function partsFor(limit: Ratio, taskTime: Ratio): number {
  return Number(ceiling(divide(taskTime, limit)));
}
