import { benchesOfPlan } from "../../benches/bench-of-plan.js";
import { type Finding, finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { standingLimit, standingTime, stationTime, workingTime } from "../../plan/figures/working-time.js";
import type { Plan } from "../../plan/plan.js";
import type { Post } from "../../plan/post.js";
import type { Pace } from "../../time/pace.js";
import { compare, multiply, type Ratio } from "../../time/ratio.js";
import { showTimesApart } from "../../time/show-in-unit.js";

/**
 * A warning for each station of a bench that is slower than the pace: benches stay as they are in a rebalance, so `check` fails whatever plan comes of
 * it.
 *
 * @param line with all that its benches build
 */
export const findSlowBenches = (line: Line, pace: Pace, plan: Plan): Finding[] =>
  benchesOfPlan(line, pace, plan).flatMap(({ posts }) =>
    posts.flatMap((post) => {
      const over = tooMuchFor(line, pace, post);
      return over === null ? [] : [tell(line, post, over)];
    }),
  );

/** What a bench takes and what it may take, for one unit in microseconds. */
interface Overload {
  readonly what: "takes" | "keeps parts";
  readonly taken: Ratio;
  readonly most: Ratio;
}

function tooMuchFor(line: Line, { lineCycle }: Pace, post: Post): Overload | null {
  const worked = {
    taken: stationTime(post),
    most: multiply(workingTime(post, lineCycle), line.policy.maxLoad),
  };
  if (compare(worked.taken, worked.most) > 0) return { what: "takes", ...worked };
  const stood = { taken: standingTime(post), most: standingLimit(post, lineCycle) };
  return compare(stood.taken, stood.most) > 0 ? { what: "keeps parts", ...stood } : null;
}

function tell(line: Line, { id }: Post, { what, taken, most }: Overload): Finding {
  const [time, allowed] = showTimesApart(line.unit, taken, most);
  const message = `bench ${id} ${what} ${time} a unit and has ${allowed} at this pace; benches stay as they are here, so \`check\` fails the new plan: \`off-line\` says how many places the bench needs`;
  return finding({ rule: "bench-too-slow", severity: "warning", message, station: id });
}
