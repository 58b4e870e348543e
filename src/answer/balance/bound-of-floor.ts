import type { Line } from "../../line/line.js";
import { workOfLine } from "../../plan/figures/person-time.js";
import { stationLimit } from "../../plan/figures/working-time.js";
import { postOf } from "../../plan/post.js";
import type { Balance } from "../../solve/balance.js";
import { boundSteps, explainBound, inPlans } from "../../solve/explain/explain-bound.js";
import { partsOf } from "../../solve/parts.js";
import type { Pace } from "../../time/pace.js";
import { add, ceiling, divide, larger, multiply, ratio, ZERO } from "../../time/ratio.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { decimal } from "../../time/show-values.js";
import type { AnswerBound } from "./balance-answer.js";

/** The least people, and the least stations with so many, of a line with shop-floor rules that has a plan, in words. */
export function boundOf(line: Line, pace: Pace, found: Balance): AnswerBound {
  const { people, stations } = found.least!;
  if (found.timeOnly) return boundByTime(line, found);
  const common = { stations, people, cycleOfPlan: null };
  if (found.searched) {
    const reason = `every plan with less was ruled out under the rules of the line, ${inPlans(found.search!.proofNodes)}`;
    return { ...common, kind: "search", reason };
  }
  if (found.bound !== null && found.bound.stations === people) {
    const reason = `${explainBound(line, found.bound, limitInParts(line, found))}; the rules of the line can only add to that`;
    return { ...common, kind: found.bound.kind, reason, steps: boundSteps(line, found.bound) };
  }
  const zoned = found.zones.reduce((sum, each) => sum + each.stations, 0);
  if (zoned === people) {
    const each = found.zones.map((own) => `${own.zone} ${own.stations}`).join(", ");
    const reason = `no station holds work of two zones, and by time and precedence alone each zone needs stations of its own: ${each}`;
    return { ...common, kind: "zones", reason };
  }
  const work = workOfLine(line);
  const share = divide(work, found.perPerson);
  const show = showTimesIn(line.unit);
  const counted = line.tasks.some((task) => task.people > 1)
    ? ", tasks of several people counted for each,"
    : "";
  const sum = `${show(work)} of work${counted} / ${show(found.perPerson)} a person = ${decimal(share, 2)}, rounded up`;
  const isEnough = BigInt(people) <= ceiling(share);
  const ofPeople = isEnough ? sum : `${sum}${LONG_TASKS}`;
  const ofStations = stations > 1 && stations < people ? `; ${stationsWords(line, pace, found)}` : "";
  return { ...common, kind: "work-content", reason: `${ofPeople}${ofStations}` };
}

/** Stations that are asked nothing but time: each has one person, so nothing is said of people. */
function boundByTime(line: Line, found: Balance): AnswerBound {
  const bound = found.bound!;
  const { kind, stations } = bound;
  const reason = explainBound(line, bound, limitInParts(line, found));
  return { stations, people: null, cycleOfPlan: null, kind, reason, steps: boundSteps(line, bound) };
}

/** The limit that the bound of the line without its rules was found for: that of the station that may hold most. */
const limitInParts = (line: Line, { perPerson }: Balance): number =>
  Number(multiply(perPerson, ratio(partsOf(line))).num);

const LONG_TASKS = ", and tasks too long to share a station add to that";

/** Why the work needs so many stations, however many people stand at each. */
function stationsWords(line: Line, pace: Pace, found: Balance): string {
  const { least, bound } = found;
  const { stations } = least!;
  if (bound?.stations === stations) return explainBound(line, bound, limitInParts(line, found));
  const loads = line.tasks.map((task) => task.load).reduce(add, ZERO);
  const sides = line.tasks.some((task) => task.side !== null) ? 2 : 1;
  const limits = [...line.floor, null].map((station) => {
    const places = station?.maxPlaces ?? line.maxPlaces;
    const post = postOf(line, pace, { id: station?.id ?? "", tasks: [], sides: null, places, crew: 1 });
    return stationLimit(post, pace.lineCycle);
  });
  const limit = multiply(limits.reduce(larger), ratio(sides));
  const share = divide(loads, limit);
  const show = showTimesIn(line.unit);
  const sum = `${show(loads)} at ${show(limit)} a station${sides === 2 ? " with both sides" : ""} = ${decimal(share, 2)}, rounded up`;
  return BigInt(stations) <= ceiling(share) ? sum : `${sum}${LONG_TASKS}`;
}
