import { countOf } from "../findings/count-of.js";
import { type Finding, finding } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import { measurePlan, measureStations, type StationMeasures } from "../plan/measure.js";
import { floorStationOf } from "../plan/station-numbers.js";
import type { BalanceOptions } from "../solve/balance.js";
import { explainBound, inPlans } from "../solve/explain-bound.js";
import { balanceFloor, type FloorBalance } from "../solve/floor/balance-floor.js";
import { explainInfeasible } from "../solve/floor/explain-infeasible.js";
import { toStationProblem } from "../solve/station-problem.js";
import type { Pace } from "../time/pace.js";
import { add, ceiling, compare, divide, multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { decimal, percent } from "../time/show-values.js";
import type { TaktSum } from "../time/takt.js";
import {
  type AnswerBound,
  type AnswerLevel,
  type BalanceAnswer,
  EMPTY_ANSWER,
  type HowBalanced,
} from "./balance-answer.js";
import { flagBlocks } from "./flag-blocks.js";
import { findShiftNotes } from "./long-task-findings.js";

/** Balances a line with shop-floor rules and says what is worth taking off it: the whole answer of `balance` for such a line. */
export async function answerFloor(
  line: Line,
  pace: Pace,
  takt: TaktSum | null,
  options: BalanceOptions,
): Promise<BalanceAnswer> {
  const found = await balanceFloor(line, pace, options);
  const search = {
    nodes: found.search?.nodes ?? 0,
    nodeLimit: options.nodes,
    ended: found.search === null || found.search.ended === "first" ? null : found.search.ended,
  };
  const common = { line, pace, takt, search, outcome: found.outcome };
  if (found.plan === null || found.method === null) {
    const findings = await findReasons(line, pace, found, options);
    return { ...EMPTY_ANSWER, ...common, findings };
  }
  const blocks =
    found.search === null
      ? { flags: [], leftOut: 0 }
      : await flagBlocks(line, pace, { plan: found.plan, proved: found.outcome === "proved" }, options);
  const stations = measureStations(line, pace, found.plan);
  return {
    ...EMPTY_ANSWER,
    ...common,
    balance: howBalanced(found, found.method),
    plan: found.plan,
    stations,
    measures: measurePlan(line, pace, found.plan),
    bound: boundOf(line, pace, found),
    level: levelOf(found),
    offLine: blocks.flags,
    findings: [
      ...findTightStations(line, stations),
      ...findBehindFloor(line, stations),
      ...findShiftNotes(line),
    ],
  };
}

function howBalanced(found: FloorBalance, method: string): HowBalanced {
  const { methods, ranked, evened } = found;
  const search =
    found.search === null || found.search.ended === "first"
      ? null
      : { nodes: found.search.nodes, ended: found.search.ended };
  const rules = found.rules.map(({ plan, ...run }) => ({ ...run, stations: plan?.stations ?? null }));
  return { method, methods, rules, ranked, search, evened };
}

function boundOf(line: Line, pace: Pace, found: FloorBalance): AnswerBound {
  const { people, stations } = found.least!;
  const common = { stations, people, cycleOfPlan: null };
  if (found.searched) {
    const reason = `every way to do with fewer people, or with ${people === 1 ? "1 person" : `${people} people`} at fewer stations, was ruled out under the rules of the line, ${inPlans(found.search!.nodes)}`;
    return { ...common, kind: "search", reason };
  }
  if (found.plain !== null && found.plain.stations === people) {
    const reason = `${explainBound(line, found.plain, toStationProblem(line, pace).limit)}; the rules of the line can only add to that`;
    return { ...common, kind: found.plain.kind, reason };
  }
  const work = workOf(line);
  const share = divide(work, found.perPerson);
  const show = showTimesIn(line.unit);
  const counted = line.tasks.some((task) => task.people > 1)
    ? ", tasks of several people counted for each,"
    : "";
  const sum = `${show(work)} of work${counted} / ${show(found.perPerson)} a person = ${decimal(share, 2)}, rounded up`;
  const isEnough = BigInt(people) <= ceiling(share);
  return {
    ...common,
    kind: "work-content",
    reason: isEnough ? sum : `${sum}; and tasks too long to share a station add to that`,
  };
}

/** Person-time of a unit as far as it must fit station limits. */
const workOf = (line: Line): Ratio =>
  line.tasks.map((task) => multiply(task.load, ratio(task.people))).reduce(add, ZERO);

function levelOf({ level }: FloorBalance): AnswerLevel | null {
  if (level === null) return null;
  const { outcome, bound, reason, nodes, ended } = level;
  return {
    outcome,
    cycleOfPlan: bound,
    reason,
    smoothness: "found",
    nodes,
    ended: ended === "first" ? "nodes" : ended,
  };
}

/** A task alone above the limit of its station. */
function findTightStations(line: Line, stations: readonly StationMeasures[]): Finding[] {
  const show = showTimesIn(line.unit);
  return stations
    .filter((station) => compare(station.stationTime, station.stationLimit) > 0)
    .map((station) => {
      const task =
        line.tasks[
          station.tasks.reduce((one, two) =>
            compare(line.tasks[two]!.load, line.tasks[one]!.load) > 0 ? two : one,
          )
        ]!;
      const shares = `${percent(divide(task.load, station.workingTime))} of the working time (${show(station.workingTime)}) and ${percent(divide(task.load, station.stationLimit))} of the station limit (${show(station.stationLimit)})`;
      const message = `${task.id} takes ${show(task.load)}, ${shares}: placed alone`;
      return finding({
        rule: "over-limit",
        severity: "warning",
        message,
        file: line.file,
        place: task.place,
        task: task.id,
        station: station.id,
      });
    });
}

/** Stations that the floor does not have yet. */
function findBehindFloor(line: Line, stations: readonly StationMeasures[]): Finding[] {
  if (line.floor.length === 0) return [];
  const further = stations
    .filter((station) => floorStationOf(line, station.id) === null)
    .map((station) => station.id);
  if (further.length === 0) return [];
  const message = `the plan needs ${countOf(further.length, "station")} more than stand on the floor: ${further.join(", ")}`;
  return [finding({ rule: "behind-floor", severity: "warning", message, file: line.file })];
}

async function findReasons(
  line: Line,
  pace: Pace,
  found: FloorBalance,
  options: BalanceOptions,
): Promise<Finding[]> {
  if (found.outcome !== "infeasible") {
    const message =
      "no plan that keeps the rules of the line was found before the search was stopped; whether there is one is open";
    return [finding({ rule: "no-plan-found", severity: "error", message, file: line.file })];
  }
  const why = await explainInfeasible(line, pace, options.strictLimit);
  const reasons =
    why === null
      ? "the search ruled out every plan; the reasons could not be singled out in the partial plans allowed"
      : why.reasons.join("; ");
  const smallest =
    why === null || why.isSmallest
      ? ""
      : " (some of these may not be needed: not all could be tried without)";
  const message = `no plan keeps the rules of the line: ${reasons}${smallest}`;
  const task = why?.tasks[0] === undefined ? null : line.tasks[why.tasks[0]]!;
  return [
    finding({
      rule: "no-plan",
      severity: "error",
      message,
      file: line.file,
      place: task?.place ?? null,
      task: task?.id ?? null,
    }),
  ];
}
