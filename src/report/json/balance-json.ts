import type { Line } from "../../line/line.js";
import type { AnswerLevel, BalanceAnswer, HowBalanced } from "../../off-line/balance-answer.js";
import type { StationsRate } from "../../off-line/rate-stations.js";
import { fromParts } from "../../solve/parts.js";
import type { Rule } from "../../solve/rules/rule.js";
import type { Pace } from "../../time/pace.js";
import { toNumber } from "../../time/ratio.js";
import { findingJson } from "./finding-json.js";
import { flagJson } from "./flag-json.js";
import { modelsJson, scrapTestsJson, visitsJson } from "./line-json.js";
import { measuresJson } from "./measures-json.js";
import { numberJson, secondsJson } from "./number-json.js";
import { stationJson } from "./station-json.js";

/** The result document of `balance`: one object with the keys in a fixed order. `secondsLimit` is what `--seconds` gave; `explain` adds the rankings. */
export function balanceJson(answer: BalanceAnswer, secondsLimit: number | null, explain: boolean): string {
  const document = {
    format: "linepoise/1",
    command: "balance",
    ...balanceObject(answer, secondsLimit, explain),
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}

/** What the data of every command with a balance nests of it, in the order of the keys. */
export function balanceObject(answer: BalanceAnswer, secondsLimit: number | null = null, explain = false) {
  const { line, pace, outcome, bound, measures, balance, offLine, search } = answer;
  const filled = balance ?? answer.tried;
  return {
    line: line.name,
    outcome,
    pace: paceJson(pace),
    stations: answer.stations.map((station, at) => stationJson(answer, station, at)),
    bound: bound && {
      stations: bound.stations,
      cycleSeconds: secondsJson(bound.cycleOfPlan),
      kind: bound.kind,
      reason: bound.reason,
      people: bound.people,
    },
    measures: measures && measuresJson(line, measures),
    methods: balance?.methods.map(({ method, stations }) => ({ method, stations })) ?? [],
    offLine: offLine.map((flag) => flagJson(line, flag)),
    search: { nodes: search.nodes, nodeLimit: search.nodeLimit, secondsLimit },
    findings: answer.findings.map(findingJson),
    level: answer.level && levelJson(answer.level),
    rates: answer.rates?.map(rateJson) ?? null,
    ...(filled !== null && explain ? { rankings: rankingsJson(answer, filled) } : {}),
    visits: visitsJson(line),
    scrapTests: scrapTestsJson(line, pace.lineCycle),
    ...modelsJson(line, answer.models),
  };
}

export function paceJson(pace: Pace) {
  return {
    taktSeconds: secondsJson(pace.takt),
    lineCycleSeconds: secondsJson(pace.lineCycle),
    handlingSeconds: secondsJson(pace.handling),
    planTo: toNumber(pace.planTo),
    stationLimitSeconds: secondsJson(pace.stationLimit),
  };
}

function levelJson({ outcome, cycleOfPlan, reason, smoothness, nodes }: AnswerLevel) {
  return { outcome, boundSeconds: secondsJson(cycleOfPlan), reason, smoothness, nodes };
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
function rankingsJson({ line }: BalanceAnswer, { rules, ranked }: HowBalanced) {
  return rules.map(({ rule, scores, order }) => ({
    method: rule.name,
    tasks: order.map((task) => ({
      task: line.tasks[task]!.id,
      score: shownScore(line, rule, scores[task]!),
      followers: ranked.followers[task]!.map((later) => line.tasks[later]!.id),
    })),
  }));
}

function shownScore(line: Line, rule: Rule, score: number): number | null {
  const { as, lowFirst } = rule.reads;
  return as === "time" ? secondsJson(fromParts(line, score)) : lowFirst ? -score : score;
}
