import type { AnswerLevel } from "../../answer/balance/balance-answer.js";
import type { Explanation, Score } from "../../answer/balance/explanation.js";
import type { StationsRate } from "../../answer/balance/rate-stations.js";
import type { BalanceFacts, ShownBalance } from "../../answer/balance/shown-balance.js";
import type { Line } from "../../line/line.js";
import type { PlanMeasures } from "../../plan/measure.js";
import type { Pace } from "../../time/pace.js";
import { CAUTION, cautionsJson, cautionsOfPlan } from "../cautions.js";
import { cycleReasonWords, reasonWords } from "../words/bound-words.js";
import { findingJson } from "./finding-json.js";
import { flagJson, obstaclesJson } from "./flag-json.js";
import { modelsJson, scrapTestsJson, visitsJson } from "./line-json.js";
import { unfinishedJson } from "./no-plan-json.js";
import { numberJson, secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";
import { stationJson } from "./station-json.js";

/** The result document of `balance`: one object with the keys in a fixed order. `secondsLimit` is what `--seconds` gave; `explanation` adds the rankings. */
export function balanceDocument(
  answer: ShownBalance,
  secondsLimit: number | null,
  explanation: Explanation | null,
) {
  return resultDocument("balance", {
    ...balanceAsJson(answer, secondsLimit, explanation),
    caution: CAUTION,
  });
}

export const balanceJson = asText(balanceDocument);

/** What the data of every command with a balance nests of it, in the order of the keys. */
export function balanceAsJson(
  answer: ShownBalance,
  secondsLimit: number | null = null,
  explanation: Explanation | null = null,
) {
  const { line, pace, outcome, bound, measures, balance, offLine, search, shown } = answer;
  return {
    /** The name of the line. */
    line: line.name,
    /** proved: nothing less is possible; found: a valid plan; infeasible: proved that there is none; stopped: none found so far. */
    outcome,
    /** What the stations are held to. */
    pace: paceJson(pace),
    /** In order of flow; none without a plan. */
    stations: answer.stations.map((station, at) => stationJson(answer, station, at)),
    /** What is proved of the least, with the reason in words; null where nothing is. */
    bound: bound && {
      stations: bound.stations,
      cycleSeconds: secondsJson(bound.cycleOfPlan),
      kind: bound.kind,
      reason: reasonWords(line, bound.reason),
      people: bound.people,
    },
    /** The figures of the plan; null without one. */
    measures: measures && measuresJson(line, measures, shown),
    /** How many stations each ranking takes; null where it fails. */
    methods: balance?.methods.map(({ method, stations }) => ({ method, stations })) ?? [],
    /** What is worth taking off the line, or needs help: facts, and the reason in words. */
    offLine: offLine.map((flag) => flagJson(line, flag)),
    search: { nodes: search.nodes, nodeLimit: search.nodeLimit, secondsLimit },
    findings: answer.findings.map(findingJson),
    /** How even the loads are, and what is proved of that. */
    level: answer.level && levelJson(line, answer.level),
    /** With a fixed number of stations: what one station more and one fewer would give. */
    rates: answer.rates?.map(rateJson) ?? null,
    ...(explanation === null ? {} : { rankings: rankingsJson(line, explanation) }),
    /** Tasks that are not done exactly once for a good unit. */
    visits: visitsJson(line, shown),
    scrapTests: scrapTestsJson(line, shown),
    ...modelsJson(line, answer.models),
    /** Why there is no plan: the smallest set of reasons. */
    obstacles: answer.obstacles.length === 0 ? null : obstaclesJson(line, answer.obstacles),
    ...(answer.unfinished === null ? {} : { unfinished: unfinishedJson(line, answer.unfinished) }),
    /** Words and masses of tasks, with the station where the work is done. */
    cautions: cautionsJson(cautionsOfPlan(line, answer.plan)),
  };
}

export function paceJson(pace: Pace) {
  return {
    /** Available time / good units wanted in it; null where the line cycle was given. */
    taktSeconds: secondsJson(pace.takt),
    /** Takt x uptime x yield: the pace the line is set to. */
    lineCycleSeconds: secondsJson(pace.lineCycle),
    /** Lost at each pass of a unit through a station. */
    handlingSeconds: secondsJson(pace.handling),
    /** The share of the working time that may be loaded. */
    planTo: numberJson(pace.planTo),
    /** (Line cycle - handling) x plan-to. */
    stationLimitSeconds: secondsJson(pace.stationLimit),
  };
}

function levelJson(line: Line, { outcome, cycleOfPlan, reason, smoothness, nodes }: AnswerLevel) {
  const words = cycleReasonWords(line, reason);
  return { outcome, boundSeconds: secondsJson(cycleOfPlan), reason: words, smoothness, nodes };
}

function rateJson(rate: StationsRate) {
  return {
    stations: rate.stations,
    operators: rate.operators,
    outcome: rate.outcome,
    cycleOfPlanSeconds: secondsJson(rate.cycleOfPlan),
    boundSeconds: secondsJson(rate.cycleBound),
    unitsPerHour: numberJson(rate.unitsPerHour),
    /** Of the people on the line and those who repair beside it. */
    unitsPerPersonHour: numberJson(rate.unitsPerPersonHour),
    outputPerShift: rate.outputPerShift,
    outputByShift: rate.outputByShift,
  };
}

/** How each rule ranked the tasks, the first to be placed first; scores are seconds or plain counts. */
function rankingsJson(line: Line, { rules, tasks }: Explanation) {
  return rules.map(({ name, scores, order }) => ({
    method: name,
    tasks: order.map((task) => ({
      task: line.tasks[task]!.id,
      score: scoreJson(scores[task]!),
      followers: tasks[task]!.followers.map((later) => line.tasks[later]!.id),
    })),
  }));
}

const scoreJson = (score: Score): number | null =>
  score.kind === "time" ? secondsJson(score.time) : score.count;

/** The figures of the plan in the result document; what the line has nothing of is null. */
function measuresJson(line: Line, measures: PlanMeasures, { people, goodShare }: BalanceFacts) {
  return {
    /** How many there are. */
    stations: measures.stations,
    /** People at the stations, at the same time. */
    operators: measures.operators,
    /** Person-time of one good unit. */
    workContentSeconds: secondsJson(measures.workContent),
    /** The slowest station with its handling. */
    cycleOfPlanSeconds: secondsJson(measures.cycleOfPlan),
    slowestStation: measures.slowestStation,
    /** Work content / working time of all people; null where a station is overloaded. */
    efficiencyAtPace: numberJson(measures.efficiencyAtPace),
    /** The same with the cycle of the plan in place of the line cycle. */
    efficiencyAtSlowest: numberJson(measures.efficiencyAtSlowest),
    /** 1 - efficiency at the pace. */
    balanceDelayAtPace: numberJson(measures.balanceDelayAtPace),
    /** 1 - efficiency at the slowest station. */
    balanceDelayAtSlowest: numberJson(measures.balanceDelayAtSlowest),
    /** Root of the summed squared gaps of the stations to the cycle of the plan. */
    smoothnessSeconds: secondsJson(Math.round(measures.smoothness)),
    /** Paid time without work, of all people; overload is never set off against it. */
    idleSecondsPerUnit: secondsJson(measures.idlePerUnit),
    /** Null without a calendar, and where shifts differ. */
    idleSecondsPerShift: secondsJson(measures.idlePerShift),
    /** Good units, rounded down; null without a calendar, and where shifts differ. */
    outputPerShift: measures.outputPerShift,
    /** People who repair what fails tests; null without tests. */
    repairPeople: measures.repairPeople,
    /** Operators and who repairs, at the same time. */
    peopleInAll: people?.atATime ?? null,
    repairs:
      measures.repairs?.map(({ test, repairs, work }) => ({
        test: line.tasks[test]!.id,
        perGoodUnit: numberJson(repairs),
        seconds: secondsJson(work),
      })) ?? null,
    /** Of the units started, what passes in the end; null without tests. */
    goodShare: numberJson(goodShare),
    /** Of a unit, from the first station to the last; where all move together, at the pace of the line or what it can keep of it. */
    leadTimeSeconds: secondsJson(measures.leadTime),
    leadTimeOfWaitsSeconds: secondsJson(measures.leadTimeOfWaits),
    waiting:
      measures.waiting?.map(({ wait, units, fixtures }) => ({
        from: line.tasks[wait.from]!.id,
        to: line.tasks[wait.to]!.id,
        waitSeconds: secondsJson(wait.wait),
        units: numberJson(units),
        /** None on a line that moves together, whose units wait in it. */
        fixtures,
      })) ?? null,
    /** Of the work content, by kind of work; null where no task says its kind. */
    valueShares: measures.valueShares?.map(({ kind, share }) => ({ kind, share: numberJson(share) })) ?? null,
    idleSecondsPerDay: secondsJson(measures.ofUnequalShifts?.idlePerDay ?? null),
    outputByShift: measures.ofUnequalShifts?.output ?? null,
    /** Whether people, the time a unit stands, or equipment sets the cycle of the plan. */
    cycleSetBy: measures.cycleSetBy.kind,
    cycleSetByEquipment: measures.cycleSetBy.kind === "equipment" ? measures.cycleSetBy.name : null,
    /** A good unit comes that often at the best: as the cycle of the plan has it, or less often where waits hold up a line that moves together. */
    outputCycleSeconds: secondsJson(measures.outputCycle),
  };
}
