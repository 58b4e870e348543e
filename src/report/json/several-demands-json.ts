import type { AtBenches } from "../../answer/rebalance/keep-benches.js";
import type { Move } from "../../answer/rebalance/match-stations.js";
import type { Change, DemandPlan, SeveralDemandsAnswer } from "../../answer/rebalance/several-demands.js";
import type { Slack } from "../../answer/rebalance/slack.js";
import type { Line } from "../../line/line.js";
import type { Demand } from "../../time/demand.js";
import { CAUTION } from "../cautions.js";
import { balanceAsJson } from "./balance-json.js";
import { numberJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";
import { slackJson } from "./slack-json.js";

/** The result document of `rebalance` for several demands; `slack` is that of today's plan, at the demand nearest to today's. */
export function severalDemandsDocument(
  answer: SeveralDemandsAnswer & AtBenches,
  fromFile: string,
  secondsLimit: number | null,
  slack: Slack | null,
) {
  const { line, outcome, demands, fromToday, cost, leastCost, stays, nodes, peopleAtBenches } = answer;
  return resultDocument("rebalance", {
    line: line.name,
    outcome,
    fromFile,
    fromToday: fromToday && { demand: demandJson(fromToday.demand), ...changeJson(line, fromToday) },
    demands: demands.map((each) => planJson(line, each, secondsLimit)),
    cost,
    leastCost,
    stays: stays.map((task) => line.tasks[task]!.id),
    moveSearch: { nodes },
    slack: slack && slackJson(slack),
    /** Beside the people of all plans here; `show` counts them with these. */
    peopleAtBenches,
    caution: CAUTION,
  });
}

export const severalDemandsJson = asText(severalDemandsDocument);

const demandJson = ({ units, period }: Demand) => ({ units: numberJson(units), period });

function planJson(line: Line, each: DemandPlan, secondsLimit: number | null) {
  const { demand, problem, balance, fewestPeople, people, change } = each;
  return {
    demand: demandJson(demand),
    outcome: balance?.outcome ?? "infeasible",
    problem,
    people,
    fewestPeople,
    plan: balance && balanceAsJson(balance, secondsLimit),
    change: change && changeJson(line, change),
  };
}

const changeJson = (line: Line, { moves, cost, leastCost }: Change) => ({
  moves: moves.map(({ task, from, to }: Move) => ({ task: line.tasks[task]!.id, from, to })),
  cost,
  leastCost,
});
