import { type Line, mayDouble } from "../../line/line.js";
import { workOfLine } from "../../plan/figures/person-time.js";
import { stationLimit } from "../../plan/figures/working-time.js";
import { ONE_PERSON } from "../../plan/plan.js";
import { postOf } from "../../plan/post.js";
import type { Balance } from "../../solve/balance.js";
import type { Bound } from "../../solve/bounds/bound.js";
import { type BoundFacts, boundFacts } from "../../solve/explain/bound-facts.js";
import { workedAtOnce } from "../../solve/explain/cycle-facts.js";
import { partsOf } from "../../solve/parts.js";
import type { Pace } from "../../time/pace.js";
import { add, ceiling, divide, larger, multiply, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import type { AnswerBound, BoundReason } from "./balance-answer.js";

/** The least people, and the least stations with so many. Of a line that has a plan. */
export function boundOf(line: Line, pace: Pace, found: Balance): AnswerBound {
  const { byTime } = found;
  const { people, stations } = found.least!;
  const isOfPeople = mayDouble(line) || line.tasks.some((task) => task.people > 1 || task.side !== null);
  const common = { stations, people, isOfPeople, cycleOfPlan: null };
  if (found.searched)
    return { ...common, kind: "search", reason: { kind: "ruled-out", nodes: found.search!.proofNodes } };
  if (byTime !== null && byTime.bound.stations === people) {
    const { bound, leavesOut } = byTime;
    return {
      ...common,
      kind: bound.kind,
      reason: { kind: "by-time", bound: factsOf(line, found, bound), leavesOut },
    };
  }
  const { zones } = found;
  if (zones.reduce((sum, each) => sum + each.stations, 0) === people)
    return { ...common, kind: "zones", reason: { kind: "zones", zones } };
  const work = workOfLine(line);
  const ofPeople = shareOf(work, found.perPerson, people);
  const team = line.tasks.find((task) => task.people >= people);
  const reason: BoundReason = {
    kind: "people",
    work,
    perPerson: found.perPerson,
    people,
    ...ofPeople,
    team: ofPeople.isEnough || team === undefined ? null : { task: team.id },
    countsSeveral: line.tasks.some((task) => task.people > 1),
    stations: stations > 1 && stations < people ? stationsReason(line, pace, found) : null,
  };
  return { ...common, kind: "work-content", reason };
}

/** The bound was found for the limit of the station that may hold most. */
const factsOf = (line: Line, { perPerson }: Balance, bound: Bound): BoundFacts =>
  boundFacts(line, bound, Number(multiply(perPerson, ratio(partsOf(line))).num));

/** Work by what one takes of it, and whether that alone makes so many. */
function shareOf(work: Ratio, each: Ratio, count: number) {
  const share = divide(work, each);
  return { share, isEnough: BigInt(count) <= ceiling(share) };
}

/** Why the work needs so many stations, however many people stand at each. */
function stationsReason(
  line: Line,
  pace: Pace,
  found: Balance,
): Extract<BoundReason, { kind: "people" }>["stations"] {
  const { least, byTime } = found;
  const { stations } = least!;
  if (byTime?.bound.stations === stations)
    return { kind: "by-time", bound: factsOf(line, found, byTime.bound) };
  const work = line.tasks.map((task) => task.load).reduce(add, ZERO);
  const isSided = line.tasks.some(({ side }) => side !== null);
  const together = line.tasks.reduce((most, { people }) => Math.max(most, people), 1);
  const stationsAtOnce = [...line.floor, null].map((station) => {
    const crew = station?.maxCrew ?? line.maxCrew;
    if (isSided) return 2;
    return crew === 1 ? 1 : Math.max(crew, together);
  });
  const limits = [...line.floor, null].map((station, at) => {
    const places = station?.maxPlaces ?? line.maxPlaces;
    const post = postOf(line, pace, { ...ONE_PERSON, id: station?.id ?? "", tasks: [], places });
    return multiply(stationLimit(post, pace.lineCycle), ratio(stationsAtOnce[at]!));
  });
  const limit = limits.reduce(larger);
  const atOnce = stationsAtOnce[limits.indexOf(limit)]!;
  return {
    kind: "work",
    work,
    limit,
    atOnce: workedAtOnce(line, atOnce),
    least: stations,
    ...shareOf(work, limit, stations),
  };
}
