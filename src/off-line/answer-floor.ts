import { countOf } from "../findings/count-of.js";
import { type Finding, finding } from "../findings/finding.js";
import { idKey } from "../line/ids.js";
import type { Line } from "../line/line.js";
import { measurePlan, measureStations, type StationMeasures } from "../plan/measure.js";
import { floorStationOf } from "../plan/station-numbers.js";
import type { BalancingOptions } from "../solve/balance.js";
import { balanceFloor, type FloorBalance } from "../solve/floor/balance-floor.js";
import type { Pace } from "../time/pace.js";
import { compare, divide } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { percent } from "../time/show-values.js";
import type { TaktSum } from "../time/takt.js";
import { flagFloorLongTasks } from "./answer-floor-long-tasks.js";
import { answerModels } from "./answer-models.js";
import { answerRules } from "./answer-rules.js";
import { type AnswerLevel, type BalanceAnswer, EMPTY_ANSWER, type HowBalanced } from "./balance-answer.js";
import { boundOf } from "./bound-of-floor.js";
import { findReasons } from "./find-no-plan.js";
import { findShopNotes } from "./find-shop-notes.js";
import { flagBlocks } from "./flag-blocks.js";
import { findFloorLongTasks, findFloorTightTasks } from "./floor-long-tasks.js";
import { findShiftNotes } from "./long-task-findings.js";
import { findRuledOutTasks, tellTasksWithoutStation } from "./ruled-out-tasks.js";

/** Balances a line with shop-floor rules and says what is worth taking off it: the whole answer of `balance` for such a line. */
export async function answerFloor(
  line: Line,
  pace: Pace,
  takt: TaktSum | null,
  options: BalancingOptions,
): Promise<BalanceAnswer> {
  const found = await balanceFloor(line, pace, options);
  const search = {
    nodes: found.search?.nodes ?? 0,
    nodeLimit: options.nodes,
    ended: found.search === null || found.search.ended === "first" ? null : found.search.ended,
  };
  const rules = options.explain ? answerRules(line, pace, options.strictLimit) : null;
  const common = { line, pace, takt, search, outcome: found.outcome, rules };
  const tried = options.explain && found.plan === null ? howBalanced(found, options.method) : null;
  if (found.plan === null || found.method === null)
    return { ...EMPTY_ANSWER, ...common, ...(await answerNoPlan(line, pace, found, options)), tried };
  const blocks =
    found.search === null
      ? { flags: [], leftOut: 0 }
      : await flagBlocks(line, pace, { plan: found.plan, proved: found.outcome === "proved" }, options);
  const stations = measureStations(line, pace, found.plan);
  const models = answerModels(line, pace, found.plan);
  return {
    ...EMPTY_ANSWER,
    ...common,
    balance: howBalanced(found, found.method),
    plan: found.plan,
    stations,
    measures: measurePlan(line, pace, found.plan),
    bound: boundOf(line, pace, found),
    level: levelOf(found),
    offLine: [
      ...(await flagFloorLongTasks(
        line,
        pace,
        findFloorTightTasks(line, pace, found.plan),
        found.plan,
        options,
      )),
      ...blocks.flags,
    ],
    findings: [
      ...findTightStations(line, stations),
      ...findBehindFloor(line, stations),
      ...findShiftNotes(line),
      ...findShopNotes(line, pace, found.plan, models),
    ],
    models,
  };
}

/** Why there is no plan, and what would help tasks for which no station has the time. */
async function answerNoPlan(
  line: Line,
  pace: Pace,
  found: FloorBalance,
  options: BalancingOptions,
): Promise<Pick<BalanceAnswer, "outcome" | "obstacles" | "findings" | "offLine">> {
  const { strictLimit } = options;
  const long = findFloorLongTasks(line, pace, strictLimit);
  const ruledOut = findRuledOutTasks(line, pace, strictLimit);
  const tasks = [...new Set([...long, ...ruledOut].map(({ task }) => task))].sort((one, two) => one - two);
  const offLine = await flagFloorLongTasks(line, pace, tasks, null, options);
  // One smallest set of reasons names one of several tasks only.
  if (long.length === 0 && ruledOut.length <= 1) {
    const proved = ruledOut.length === 0 ? found : { ...found, outcome: "infeasible" as const };
    const reasons = await findReasons(line, pace, proved, options);
    if (ruledOut.length === 0 || reasons.obstacles.length > 0) return { ...reasons, offLine };
  }
  const findings = tellTasksWithoutStation(line, pace, long, ruledOut, strictLimit);
  return { outcome: "infeasible", obstacles: [], findings, offLine };
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
  const used = new Set(stations.map((station) => idKey(station.id)));
  const empty = line.floor.map(({ id }) => id).filter((id) => !used.has(idKey(id)));
  const left = empty.length === 0 ? "" : `, and leaves empty on it: ${empty.join(", ")}`;
  const message = `the plan has ${countOf(further.length, "station")} behind the floor: ${further.join(", ")}${left}`;
  return [finding({ rule: "behind-floor", severity: "warning", message, file: line.file })];
}
