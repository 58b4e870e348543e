import type { AtBenches } from "../../answer/rebalance/keep-benches.js";
import type { Change, DemandPlan, SeveralDemandsAnswer } from "../../answer/rebalance/several-demands.js";
import type { Slack } from "../../answer/rebalance/slack.js";
import { countOf } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { cautionsOf } from "../cautions.js";
import { severalDemandsWords } from "../words/answer-words.js";
import { cautionText } from "./cautions-text.js";
import { headed, paragraph, titleText } from "./sections.js";
import { slackText } from "./slack-text.js";
import { demandWords } from "./staff-words.js";
import { stationsText } from "./stations-text.js";
import type { Look } from "./style.js";
import { type Column, formatTable, formatWithout } from "./table.js";

/** The answer of `rebalance` for several demands, for a person. Empty parts are left out; ends in a newline. */
export function severalDemandsText(
  answer: SeveralDemandsAnswer & AtBenches,
  fromFile: string,
  slack: Slack | null,
  look: Look,
): string {
  const { line, demands, fromToday } = answer;
  const parts = [
    `${titleText({ ...line, demand: null }, look)}${paragraph(severalDemandsWords(answer), look)}`,
    headed("a plan for each demand", tableText(answer, fromFile, look), look),
    headed("no plan", noPlanText(demands, look), look),
    headed("what stays", staysText(answer, look), look),
    fromToday === null
      ? ""
      : headed(`from today to ${demandWords(fromToday.demand)}`, movesText(line, fromToday, look), look),
    ...demands.map((each, at) => {
      const before = beforeOf(demands, at);
      if (each.change === null || before === undefined) return "";
      const heading = `from ${demandWords(before.demand)} to ${demandWords(each.demand)}`;
      return headed(heading, movesText(line, each.change, look), look);
    }),
    ...demands.map(({ demand, balance }) => {
      const stations = balance?.plan == null ? "" : stationsText(balance, true, look);
      return headed(`stations at ${demandWords(demand)}`, stations, look);
    }),
    headed("slack of today's plan", slack === null ? "" : slackText(slack, look), look),
    headed("proof", proofText(answer, look), look),
    cautionText(
      cautionsOf(demands.map(({ balance }) => ({ tasks: line.tasks, plan: balance?.plan ?? null }))),
      look,
    ),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

/** The demand before one, of those that have a plan. */
const beforeOf = (demands: readonly DemandPlan[], at: number): DemandPlan | undefined =>
  demands.slice(0, at).findLast(({ people }) => people !== null);

function tableText(
  { line, demands, fromToday, hasPoints, cost, leastCost }: SeveralDemandsAnswer,
  fromFile: string,
  look: Look,
): string {
  const show = showTimesIn(line.unit);
  const columns: Column[] = [
    { head: "demand", align: "right", breaks: true },
    { head: "line cycle", align: "right", breaks: true },
    { head: "people", align: "right", breaks: true },
    { head: "stations", align: "right" },
    { head: "moves", align: "right" },
    ...(hasPoints ? [{ head: "points", align: "right" } as const] : []),
    { head: "proof", wraps: true, narrowest: 8 },
  ];
  const rows = demands.map(({ demand, takt, people, fewestPeople, balance, change }) => [
    demandWords(demand),
    takt === null ? "" : show(takt.pace.lineCycle),
    people === null
      ? "no plan"
      : `${people}${people === fewestPeople ? "" : ` (${fewestPeople} are enough)`}`,
    people === null ? "" : String(balance!.stations.length),
    change === null ? "" : String(change.moves.length),
    ...(hasPoints ? [change === null ? "" : String(change.cost)] : []),
    [
      ...peopleProof(balance),
      ...(change === null ? [] : [changeProof(change, cost === leastCost, hasPoints)]),
    ].join("; "),
  ]);
  const table = formatWithout("stations", columns, rows, look.width);
  if (fromToday === null) return table;
  const { demand, moves } = fromToday;
  const today = `from ${visibleText(fromFile)} to ${demandWords(demand)}, the demand nearest to today's: ${countOf(moves.length, "move")}`;
  return `${table}${paragraph(`moves: from the demand before; ${today}`, look)}`;
}

function peopleProof(balance: DemandPlan["balance"]): string[] {
  if (balance?.plan == null) return [];
  return balance.outcome === "proved" ? [] : ["fewest people not proved"];
}

/** @param isLeastInAll the sum of all changes is the least, whatever is proved of each by itself */
function changeProof({ cost, leastCost }: Change, isLeastInAll: boolean, hasPoints: boolean): string {
  if (cost === leastCost) return "no fewer moves possible";
  if (isLeastInAll) return "no fewer moves in all";
  return `at least ${countOf(leastCost, hasPoints ? "point" : "move")}`;
}

function noPlanText(demands: readonly DemandPlan[], look: Look): string {
  return demands
    .filter(({ people }) => people === null)
    .map(({ demand, problem, balance }) => {
      const why = problem ?? balance?.findings.find(({ severity }) => severity === "error")?.message;
      const none = balance?.outcome === "stopped" ? "none was found" : "none is possible";
      return paragraph(`${demandWords(demand)}: ${none}${why === undefined ? "" : `: ${why}`}`, look);
    })
    .join("");
}

function staysText({ line, stays, demands }: SeveralDemandsAnswer, look: Look): string {
  if (demands.filter(({ people }) => people !== null).length < 2) return "";
  const all = line.tasks.length;
  const names = stays.map((task) => visibleText(line.tasks[task]!.id));
  const words = `${stays.length} of ${countOf(all, "task")} ${stays.length === 1 ? "stays at its" : "stay at their"} station at every demand`;
  return paragraph(names.length === 0 ? `${words}.` : `${words}: ${names.join(", ")}.`, look);
}

function movesText(line: Line, { moves }: Change, look: Look): string {
  if (moves.length === 0) return paragraph("No task moves.", look);
  const rows = moves.map(({ task, from, to }) => [
    visibleText(line.tasks[task]!.id),
    from === null ? "(new work)" : visibleText(from),
    visibleText(to),
  ]);
  return formatTable([{ head: "task", wraps: true }, { head: "from" }, { head: "to" }], rows, look.width);
}

function proofText(
  { demands, cost, leastCost, hasPoints, fromToday }: SeveralDemandsAnswer,
  look: Look,
): string {
  if (fromToday === null) return "";
  const count = (number: number) => countOf(number, hasPoints ? "point" : "move");
  const isAbove = demands.some(({ people, fewestPeople }) => people !== fewestPeople);
  const first = isAbove
    ? "Each demand has the people that --people-above allows."
    : "Each demand has its fewest people first.";
  const sum = `${first} Then the sum of all moves is kept small: from today's plan to ${demandWords(fromToday.demand)}, and from each demand to the next.`;
  const least =
    cost === leastCost
      ? `Proved: ${count(cost)} in all; plans with so many people need no fewer.`
      : `${count(cost)} in all. Not proved: any plans with so many people need at least ${count(leastCost)}.`;
  return paragraph(`${sum} ${least}`, look);
}
