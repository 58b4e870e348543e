import type { Line } from "../../line/line.js";
import { passesOf } from "../../line/passes.js";
import { compare, divide, multiply, ONE, type Ratio, subtract, ZERO } from "../../time/ratio.js";
import { showTimesApart } from "../../time/show-in-unit.js";
import { decimal, percent, percentsApart } from "../../time/show-values.js";
import { cycleOfPlan, cycleOfPost } from "../figures/cycle.js";
import { heldCycle } from "../figures/held-cycle.js";
import {
  standingLimit,
  standingTime,
  stationLimit,
  stationTime,
  workingTime,
} from "../figures/working-time.js";
import { type Post, postsOf } from "../post.js";
import { workedAgainWords } from "../worked-again.js";
import type { CheckSubject } from "./check-subject.js";
import { outputWords } from "./output-words.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** A post with what it takes and what it may take, for one unit in microseconds. */
interface Loaded {
  /** The station or the bench of the plan. */
  readonly station: string;
  readonly post: Post;
  readonly taken: Ratio;
  readonly working: Ratio;
}

/**
 * Stations and benches over their working time, over what the policy allows of it, or over the station limit; and benches where units'
 * parts stand too long, of which the verifier of the line knows neither stations nor hours.
 */
export function checkLoads(subject: CheckSubject): PlanFinding[] {
  const all = loadedPosts(subject);
  const slowest = cycleOfPlan(all.map(({ post }) => post));
  const makes = heldCycle(subject.line, subject.plan, slowest);
  return all.flatMap((each) => [
    ...judge(subject, each, compare(cycleOfPost(each.post), slowest) === 0 ? makes : null),
    ...judgeDwell(subject, each),
  ]);
}

function judgeDwell({ line, pace, reading }: CheckSubject, { station, post, taken }: Loaded): PlanFinding[] {
  const [stands, most] = [standingTime(post), standingLimit(post, pace.lineCycle)];
  if (post.kind !== "bench" || compare(stands, most) <= 0 || compare(stands, taken) <= 0) return [];
  const [shown, allowed] = showTimesApart(line.unit, stands, most);
  const message = `the parts of a unit stand ${shown} at ${post.id}, with what machines run, more than its places have time for: ${allowed}`;
  return [
    planFinding({
      rule: "dwell",
      severity: "error",
      message,
      file: reading.file,
      place: reading.places.station(station),
      station,
      amount: subtract(stands, most),
    }),
  ];
}

function loadedPosts({ line, pace, plan, benches }: CheckSubject): Loaded[] {
  const loaded = (station: string, post: Post): Loaded => ({
    station,
    post,
    taken: stationTime(post),
    working: workingTime(post, pace.lineCycle),
  });
  const stations = postsOf(line, pace, plan).map((post) => loaded(post.id, post));
  return [...stations, ...benches.flatMap(({ bench, posts }) => posts.map((post) => loaded(bench.id, post)))];
}

/** @param makes how often the line makes a good unit, for the slowest post; null for others */
function judge(subject: CheckSubject, at: Loaded, makes: Ratio | null): PlanFinding[] {
  const { line, pace } = subject;
  const { station, post, taken, working } = at;
  const tell = (rule: string, severity: "error" | "warning", message: string, allowed: Ratio) => [
    planFinding({
      rule,
      severity,
      message,
      file: subject.reading.file,
      place: subject.reading.places.station(station),
      station,
      amount: subtract(taken, allowed),
    }),
  ];
  const { maxLoad } = line.policy;
  const [most, limit] = [multiply(working, maxLoad), stationLimit(post, pace.lineCycle)];
  if (compare(taken, working) > 0) {
    const output = outputWords(line, makes ?? cycleOfPost(post), pace.lineCycle);
    const who = makes === null ? "; it alone would hold the line to" : "; the line then makes";
    const then = output === null ? "" : `${who} ${output}`;
    return tell("slower-than-pace", "error", `${loadWords(line, at, working).load}${then}`, working);
  }
  if (compare(taken, most) > 0) {
    const { load, allowed } = loadWords(line, at, most);
    const words = `${load}; the policy allows ${percent(maxLoad, 3)}, which is ${allowed}`;
    return tell("max-load", "error", words, most);
  }
  if (compare(taken, limit) > 0) {
    const { load, allowed } = loadWords(line, at, limit);
    const words = `${load}, and more than its station limit of ${allowed} (${percent(post.planTo, 3)} plan-to)`;
    return tell("over-limit", "warning", words, limit);
  }
  return [];
}

/** "S1 takes 58 s, 103.6 % of its working time of 56 s", and what it may take, in enough digits to tell all of that apart. */
function loadWords(line: Line, { post, taken, working }: Loaded, most: Ratio) {
  const { id, tasks, share: ofUnits, handling } = post;
  const [time, whole, allowed] = showTimesApart(line.unit, taken, working, most);
  if (compare(working, ZERO) <= 0) return { load: `${id} takes ${time}, and has no working time`, allowed };
  const [share] = percentsApart(divide(taken, working), divide(most, working), ONE);
  const passes = passesOf(line, tasks, ofUnits);
  const isOnce = compare(handling, ZERO) === 0 || compare(passes, ONE) === 0;
  const why = isOnce ? "" : ` (handling at ${decimal(passes, 4)} passes)`;
  const again = compare(ofUnits, ONE) === 0 ? workedAgainWords(line, tasks) : "";
  return { load: `${id} takes ${time}${again}, ${share} of its working time of ${whole}${why}`, allowed };
}
