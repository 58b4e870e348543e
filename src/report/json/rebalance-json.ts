import type { AtBenches } from "../../answer/rebalance/keep-benches.js";
import type { Move } from "../../answer/rebalance/match-stations.js";
import type { RebalanceAnswer } from "../../answer/rebalance/rebalance-line.js";
import type { Slack } from "../../answer/rebalance/slack.js";
import type { TradeOff } from "../../answer/rebalance/trade-offs.js";
import type { WayThere } from "../../answer/rebalance/way-there.js";
import type { Line } from "../../line/line.js";
import { CAUTION } from "../cautions.js";
import { balanceAsJson } from "./balance-json.js";
import { numberJson, secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";
import { slackJson } from "./slack-json.js";
import { stepsJson } from "./steps-json.js";

/** The result document of `rebalance`; `fromFile` is the plan file, `secondsLimit` what `--seconds` gave, `slack` that of today's plan, null where that was cut short. */
export function rebalanceDocument(
  answer: RebalanceAnswer & AtBenches,
  fromFile: string,
  secondsLimit: number | null,
  slack: Slack | null,
  way: WayThere,
) {
  const {
    balance,
    fromAnswer,
    chosen,
    tradeOffs,
    rowsLeftOut,
    asItIs,
    changes,
    nodes,
    overLimits,
    learning,
    peopleAtBenches,
  } = answer;
  const { line } = balance;
  return resultDocument("rebalance", {
    line: line.name,
    outcome: balance.outcome,
    fromFile,
    from: balanceAsJson(fromAnswer),
    plan: balanceAsJson(balance, secondsLimit),
    moves: chosen === null ? [] : movesJson(line, chosen.moves),
    tradeOffs: tradeOffs.map((row) => tradeOffJson(line, row)),
    rowsLeftOut,
    changes: changes.map(({ gets, gives, tasks, ...change }) => ({
      ...change,
      gets: gets.map(({ task, from }) => ({ task: line.tasks[task]!.id, from })),
      gives: gives.map(({ task, to }) => ({ task: line.tasks[task]!.id, to })),
      tasks: tasks.map((task) => line.tasks[task]!.id),
    })),
    asItIs: asItIs && {
      cycleOfPlanSeconds: secondsJson(asItIs.cycleOfPlan),
      shareOfLineCycle: numberJson(asItIs.shareOfPace),
      outputPerShift: asItIs.outputPerShift,
      secondsNeededPerShift: secondsJson(asItIs.timeNeeded),
      overtimeSecondsPerShift: secondsJson(asItIs.overtime),
      outputByShift: asItIs.outputByShift,
      /** A good unit comes that often at the best: as the cycle of the plan has it, or less often where waits hold up a line that moves together. */
      outputCycleSeconds: secondsJson(asItIs.outputCycle),
    },
    moveSearch: { nodes },
    slack: slack && slackJson(slack),
    ...stepsJson(line, way),
    withinLimits: overLimits && {
      plan: overLimits.within && tradeOffJson(line, overLimits.within),
      outcome: overLimits.balance?.outcome ?? null,
      bound: overLimits.balance && balanceAsJson(overLimits.balance).bound,
    },
    learning: learning && {
      lostSeconds: secondsJson(chosen?.lost ?? null),
      tasks: line.tasks.map(({ id }, task) => ({
        task: id,
        lostSeconds: secondsJson(learning.lost[task]!),
        points: learning.points[task]!,
      })),
    },
    /** Beside the people of all rows and plans here; `show` counts them with these. */
    peopleAtBenches,
    caution: CAUTION,
  });
}

export const rebalanceJson = asText(rebalanceDocument);

function movesJson(line: Line, moves: readonly Move[]) {
  return moves.map(({ task, from, to }) => ({ task: line.tasks[task]!.id, from, to }));
}

function tradeOffJson(line: Line, { moves, ...row }: TradeOff) {
  const { people, stations, cost, leastCost, leastMoves, outcome, peopleInAll, lost } = row;
  return {
    people,
    stations,
    moves: movesJson(line, moves),
    cost,
    leastCost,
    outcome,
    peopleInAll,
    leastMoves,
    lostSeconds: secondsJson(lost),
  };
}
