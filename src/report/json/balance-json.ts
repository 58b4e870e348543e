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
import { jsonText } from "./json-text.js";
import { modelsJson, scrapTestsJson, visitsJson } from "./line-json.js";
import { unfinishedJson } from "./no-plan-json.js";
import { numberJson, secondsJson } from "./number-json.js";
import { stationJson } from "./station-json.js";

/** The result document of `balance`: one object with the keys in a fixed order. `secondsLimit` is what `--seconds` gave; `explanation` adds the rankings. */
export function balanceJson(
  answer: ShownBalance,
  secondsLimit: number | null,
  explanation: Explanation | null,
): string {
  const document = {
    format: "linepoise/1",
    command: "balance",
    ...balanceAsJson(answer, secondsLimit, explanation),
    caution: CAUTION,
  };
  return jsonText(document);
}

/** What the data of every command with a balance nests of it, in the order of the keys. */
export function balanceAsJson(
  answer: ShownBalance,
  secondsLimit: number | null = null,
  explanation: Explanation | null = null,
) {
  const { line, pace, outcome, bound, measures, balance, offLine, search, shown } = answer;
  return {
    line: line.name,
    outcome,
    pace: paceJson(pace),
    stations: answer.stations.map((station, at) => stationJson(answer, station, at)),
    bound: bound && {
      stations: bound.stations,
      cycleSeconds: secondsJson(bound.cycleOfPlan),
      kind: bound.kind,
      reason: reasonWords(line, bound.reason),
      people: bound.people,
    },
    measures: measures && measuresJson(line, measures, shown),
    methods: balance?.methods.map(({ method, stations }) => ({ method, stations })) ?? [],
    offLine: offLine.map((flag) => flagJson(line, flag)),
    search: { nodes: search.nodes, nodeLimit: search.nodeLimit, secondsLimit },
    findings: answer.findings.map(findingJson),
    level: answer.level && levelJson(line, answer.level),
    rates: answer.rates?.map(rateJson) ?? null,
    ...(explanation === null ? {} : { rankings: rankingsJson(line, explanation) }),
    visits: visitsJson(line, shown),
    scrapTests: scrapTestsJson(line, shown),
    ...modelsJson(line, answer.models),
    obstacles: answer.obstacles.length === 0 ? null : obstaclesJson(line, answer.obstacles),
    ...(answer.unfinished === null ? {} : { unfinished: unfinishedJson(line, answer.unfinished) }),
    cautions: cautionsJson(cautionsOfPlan(line, answer.plan)),
  };
}

export function paceJson(pace: Pace) {
  return {
    taktSeconds: secondsJson(pace.takt),
    lineCycleSeconds: secondsJson(pace.lineCycle),
    handlingSeconds: secondsJson(pace.handling),
    planTo: numberJson(pace.planTo),
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
    stations: measures.stations,
    operators: measures.operators,
    workContentSeconds: secondsJson(measures.workContent),
    cycleOfPlanSeconds: secondsJson(measures.cycleOfPlan),
    slowestStation: measures.slowestStation,
    efficiencyAtPace: numberJson(measures.efficiencyAtPace),
    efficiencyAtSlowest: numberJson(measures.efficiencyAtSlowest),
    balanceDelayAtPace: numberJson(measures.balanceDelayAtPace),
    balanceDelayAtSlowest: numberJson(measures.balanceDelayAtSlowest),
    smoothnessSeconds: secondsJson(Math.round(measures.smoothness)),
    idleSecondsPerUnit: secondsJson(measures.idlePerUnit),
    idleSecondsPerShift: secondsJson(measures.idlePerShift),
    outputPerShift: measures.outputPerShift,
    repairPeople: measures.repairPeople,
    peopleInAll: people?.atATime ?? null,
    repairs:
      measures.repairs?.map(({ test, repairs, work }) => ({
        test: line.tasks[test]!.id,
        perGoodUnit: numberJson(repairs),
        seconds: secondsJson(work),
      })) ?? null,
    goodShare: numberJson(goodShare),
    leadTimeSeconds: secondsJson(measures.leadTime),
    leadTimeOfWaitsSeconds: secondsJson(measures.leadTimeOfWaits),
    waiting:
      measures.waiting?.map(({ wait, units, fixtures }) => ({
        from: line.tasks[wait.from]!.id,
        to: line.tasks[wait.to]!.id,
        waitSeconds: secondsJson(wait.wait),
        units: numberJson(units),
        fixtures,
      })) ?? null,
    valueShares: measures.valueShares?.map(({ kind, share }) => ({ kind, share: numberJson(share) })) ?? null,
    idleSecondsPerDay: secondsJson(measures.ofUnequalShifts?.idlePerDay ?? null),
    outputByShift: measures.ofUnequalShifts?.output ?? null,
    cycleSetBy: measures.cycleSetBy.kind,
    cycleSetByEquipment: measures.cycleSetBy.kind === "equipment" ? measures.cycleSetBy.name : null,
  };
}
