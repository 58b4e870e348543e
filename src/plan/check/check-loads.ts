import type { Line } from "../../line/line.js";
import { compare, divide, multiply, ONE, type Ratio, subtract, ZERO } from "../../time/ratio.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { percent } from "../../time/show-values.js";
import { stationCycle, stationTime, workingTime } from "../station-figures.js";
import { floorStationOf } from "../station-numbers.js";
import { showBoth } from "../verify/fault.js";
import type { CheckSubject } from "./check-subject.js";
import { outputWords } from "./output-words.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** A station or a bench with what it takes and what it may take, for one unit in microseconds. */
interface Loaded {
  readonly id: string;
  readonly taken: Ratio;
  readonly working: Ratio;
  readonly planTo: Ratio;
  /** How often a unit can leave it. */
  readonly cycle: Ratio;
}

/** Stations and benches over their working time, over what the policy allows of it, or over the station limit. */
export function checkLoads(subject: CheckSubject): PlanFinding[] {
  const all = loadedPlaces(subject);
  const slowest = all
    .map(({ cycle }) => cycle)
    .reduce((one, two) => (compare(two, one) > 0 ? two : one), ZERO);
  return all.flatMap((each) => judge(subject, each, compare(each.cycle, slowest) === 0));
}

function loadedPlaces({ line, pace, plan, benches }: CheckSubject): Loaded[] {
  const stations = plan.stations.map((station) => ({
    id: station.id,
    taken: stationTime(line, station),
    working: workingTime(pace, station),
    planTo: floorStationOf(line, station.id)?.planTo ?? pace.planTo,
    cycle: stationCycle(line, pace, station),
  }));
  const beside = benches.map(({ bench, work, workingTime: working, cycle }) => ({
    id: bench.id,
    taken: work,
    working: working(pace.lineCycle),
    planTo: pace.planTo,
    cycle,
  }));
  return [...stations, ...beside];
}

function judge(subject: CheckSubject, at: Loaded, isSlowest: boolean): PlanFinding[] {
  const { line, pace } = subject;
  const { id, taken, working, planTo, cycle } = at;
  const tell = (rule: string, severity: "error" | "warning", message: string, allowed: Ratio) => [
    planFinding({
      rule,
      severity,
      message,
      file: subject.reading.file,
      place: subject.reading.places.station(id),
      station: id,
      amount: subtract(taken, allowed),
    }),
  ];
  const { maxLoad } = line.policy;
  const [most, limit] = [multiply(working, maxLoad), multiply(working, planTo)];
  if (compare(taken, working) > 0) {
    const output = outputWords(line, cycle, pace.lineCycle);
    const makes = isSlowest ? "; the line then makes" : "; it alone would hold the line to";
    const then = output === null ? "" : `${makes} ${output}`;
    return tell("slower-than-pace", "error", `${loadWords(line, at)}${then}`, working);
  }
  if (compare(taken, most) > 0) {
    const [, allowed] = showBoth(line, taken, most);
    const words = `${loadWords(line, at)}; the policy allows ${percent(maxLoad, 3)}, which is ${allowed}`;
    return tell("max-load", "error", words, most);
  }
  if (compare(taken, limit) > 0) {
    const [, allowed] = showBoth(line, taken, limit);
    const words = `${loadWords(line, at)}, and more than its station limit of ${allowed} (${percent(planTo, 3)} plan-to)`;
    return tell("over-limit", "warning", words, limit);
  }
  return [];
}

/** "S1 takes 58 s, 103.6 % of its working time of 56 s". */
function loadWords(line: Line, { id, taken, working }: Loaded): string {
  if (compare(working, ZERO) <= 0)
    return `${id} takes ${showTimesIn(line.unit)(taken)}, and has no working time`;
  const [time, whole] = showBoth(line, taken, working);
  return `${id} takes ${time}, ${clearPercent(divide(taken, working))} of its working time of ${whole}`;
}

/** With so many decimals that more than all is never shown as all. */
function clearPercent(share: Ratio): string {
  const decimals = [1, 2, 3, 4, 5, 6].find(
    (count) => compare(share, ONE) === 0 || percent(share, count) !== percent(ONE),
  );
  return percent(share, decimals ?? 9);
}
