import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import type { AsItIs } from "../../answer/rebalance/as-it-is.js";
import type { StationChange } from "../../answer/rebalance/change-sheet.js";
import type { AtBenches } from "../../answer/rebalance/keep-benches.js";
import type { RebalanceAnswer } from "../../answer/rebalance/rebalance-line.js";
import type { Slack } from "../../answer/rebalance/slack.js";
import type { TradeOff } from "../../answer/rebalance/trade-offs.js";
import type { WayThere } from "../../answer/rebalance/way-there.js";
import { countOf, thousands } from "../../findings/count-of.js";
import { tells } from "../../findings/finding.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { difference, shareAbove, signOf } from "../../time/show-numbers.js";
import { decimalHours, percentOfAll, upToMinutes } from "../../time/show-values.js";
import { cautionsOfPlan } from "../cautions.js";
import { atBenchesWords, failsWords, rebalanceWords } from "../words/answer-words.js";
import { splitOfPeople } from "../words/people-words.js";
import { cautionText } from "./cautions-text.js";
import { paceKeptText } from "./pace-kept-text.js";
import { paceText } from "./pace-text.js";
import { rebalanceProofText } from "./rebalance-proof-text.js";
import { resultText, shiftWords } from "./result-text.js";
import { headed, labelled, paragraph, scopeText, titleText } from "./sections.js";
import { slackText } from "./slack-text.js";
import { stationsText } from "./stations-text.js";
import { changeSumText, stepsText } from "./steps-text.js";
import type { Look } from "./style.js";
import { formatTable, formatWithout } from "./table.js";

/** The whole answer of `rebalance` for a person. Empty parts are left out; ends in a newline. */
export function rebalanceText(
  answer: RebalanceAnswer & AtBenches,
  fromFile: string,
  look: Look,
  slack: Slack | null,
  way: WayThere,
): string {
  const { balance } = answer;
  const { line } = balance;
  const parts = [
    `${titleText(line, look)}${scopeText(line, balance.shown, look)}\n${paragraph(failsWords(balance), look)}${paragraph(rebalanceWords(answer), look)}`,
    headed("pace", paceText(balance, look), look),
    headed("today's plan at this pace", asItIsText(answer, fromFile, look), look),
    headed("slack of today's plan", slack === null ? "" : slackText(slack, look), look),
    headed("moves against people", tradeOffText(answer, look), look),
    headed("what it costs and gains", changeSumText(way, look), look),
    headed("what changes", changesText(answer, look), look),
    headed("steps", stepsText(balance, way, look), look),
    headed("stations", stationsText(balance, true, look), look),
    headed("chance to keep the pace", paceKeptText(balance, look), look),
    headed("result", notKept(answer, look) ?? resultText(balance, look), look),
    headed("proof", rebalanceProofText(answer, look), look),
    headed("beside it", besideText(answer, look), look),
    cautionText(cautionsOfPlan(line, balance.plan), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

/** Why no plan is shown although there are some. */
function notKept({ balance }: RebalanceAnswer, look: Look): string | null {
  const found = balance.findings.find((each) => tells(each, "no-plan-kept"));
  return found === undefined ? null : paragraph(`No balance: ${visibleText(found.message)}.`, look);
}

function asItIsText({ asItIs, balance, fromAnswer }: RebalanceAnswer, fromFile: string, look: Look): string {
  if (asItIs === null)
    return paragraph(
      `Some tasks of the line are at no station of ${visibleText(fromFile)}, so it has no cycle of its own.`,
      look,
    );
  const show = showTimesIn(balance.line.unit);
  const { cycleOfPlan, outputCycle, shareOfPace, outputPerShift, outputByShift, outputPerDay } = asItIs;
  const slow = shareAbove(shareOfPace, 100);
  const against = `${percentOfAll(shareOfPace)} of the line cycle${slow ? ": too slow" : ""}`;
  const isHeld = difference(outputCycle, cycleOfPlan) > 0;
  const path = visibleText(fromFile);
  const rows: [string, string, string][] = [
    // A long path would leave the words of the other rows no room.
    path.length * 3 > look.width ? ["plan", "", path] : ["plan", path, ""],
    ["cycle of the plan", show(cycleOfPlan), isHeld ? "" : against],
    ...(isHeld
      ? [["", show(outputCycle), `to which waits hold the line: ${against}`] as [string, string, string]]
      : []),
    ...peopleRows(fromAnswer),
  ];
  if (outputPerShift !== null)
    rows.push(["output", thousands(outputPerShift), "good units a shift as it stands, rounded down"]);
  else if (outputByShift !== null) {
    const words = `good units a day as it stands, rounded down: ${shiftWords(outputByShift)}`;
    rows.push(["output", thousands(outputPerDay!), words]);
  }
  return labelled([...rows, ...hoursRows(asItIs)], look);
}

function peopleRows({ line, shown: { people } }: ShownBalance): [string, string, string][] {
  if (people === null) return [];
  return [["people", String(people.atATime), splitOfPeople(line, people)]];
}

function hoursRows({ overtime, timeNeeded }: AsItIs): [string, string, string][] {
  if (overtime === null || timeNeeded === null) return [];
  if (signOf(overtime) > 0)
    return [["overtime", upToMinutes(overtime), "a shift would meet the demand without any move"]];
  return signOf(overtime) === 0
    ? []
    : [["hours", upToMinutes(timeNeeded), "a shift would be enough for the demand without any move"]];
}

function tradeOffText(
  { tradeOffs, chosen, hasPoints, learning, rowsLeftOut, peopleAtBenches }: RebalanceAnswer & AtBenches,
  look: Look,
): string {
  if (tradeOffs.length === 0) return "";
  const rows = tradeOffs.map((row) => [
    `${row.peopleInAll}${row === chosen ? " *" : ""}`,
    String(row.moves.length),
    ...(row.lost === null ? [] : [decimalHours(row.lost)]),
    ...(hasPoints ? [String(row.cost)] : []),
    String(row.stations),
    row.outcome === "proved"
      ? `no fewer ${hasPoints ? "points " : ""}possible`
      : `at least ${countOf(row.leastCost, hasPoints ? "point" : "move")}`,
  ]);
  const table = formatWithout(
    "stations",
    [
      { head: "people" },
      { head: "moves", align: "right" },
      ...(learning === null ? [] : [{ head: "work lost", align: "right", breaks: true } as const]),
      ...(hasPoints ? [{ head: "points", align: "right" } as const] : []),
      { head: "stations", align: "right" },
      { head: "proof", wraps: true, narrowest: 8 },
    ],
    rows,
    look.width,
  );
  const points =
    learning === null
      ? "what they cost by move-cost"
      : "minutes lost by each move, rounded up, 1 at the least";
  const what = [
    "moves: tasks whose station changes",
    ...(learning === null
      ? []
      : ["work lost: what people take longer until they know the tasks that they take over"]),
    ...(hasPoints ? [`points: ${points}, and the least of them is looked for`] : []),
  ].join("; ");
  const repairs = repairWords(tradeOffs[0]!);
  const shown = chosen === null ? "None of these uses so few moves" : "* the plan below";
  const leftOut =
    rowsLeftOut === 0
      ? ""
      : ` ${countOf(rowsLeftOut, "number")} of people between ${rowsLeftOut === 1 ? "has" : "have"} no row: a limit on moves finds the one for it.`;
  return `${table}${paragraph(`${shown}${repairs}; ${what}.${atBenchesWords(peopleAtBenches)}${leftOut}`, look)}`;
}

/** Whom every row has among its people beside those on the line. */
function repairWords({ people, peopleInAll: all }: TradeOff): string {
  const repair = all - people;
  return repair === 0 ? "" : `; ${repair} of the people ${repair === 1 ? "is" : "are"} for repairs`;
}

function changesText({ balance: { line }, changes, learning }: RebalanceAnswer, look: Look): string {
  if (changes.length === 0) return "";
  const rows = changes.flatMap((change) => {
    const name = visibleText(change.id);
    const kind = change.kind === "changed" ? [] : [["", change.kind]];
    const [first, ...others] = [...kind, ...wordsOfChange(line, change, learning)];
    return [[name, ...first!], ...others.map((other) => ["", ...other])].map((row) => [
      row[0]!,
      row.at(-2)!,
      row.at(-1)!,
    ]);
  });
  return formatTable(
    [{ head: "station" }, { head: "" }, { head: "what changes", wraps: true }],
    rows,
    look.width,
  );
}

/** What changes at a station as pairs of what and which. */
function wordsOfChange(
  line: Line,
  change: StationChange,
  learning: RebalanceAnswer["learning"],
): [string, string][] {
  const { gets, gives, tasks, equipment, skills, operatorsBefore, operatorsAfter, parts } = change;
  const name = (task: number) => visibleText(line.tasks[task]!.id);
  const gains = gets.map(
    ({ task, from }) => `${name(task)} ${from === null ? "(new work)" : `from ${visibleText(from)}`}`,
  );
  const hands = gives.map(
    ({ task, to }) => `${name(task)} ${to === null ? "(off the line)" : `to ${visibleText(to)}`}`,
  );
  const anew = gets.flatMap(({ task, from }) => {
    const lost = from === null ? undefined : learning?.lost[task];
    return lost === undefined || signOf(lost) === 0 ? [] : [`${name(task)} (${decimalHours(lost)})`];
  });
  const all: [string, readonly string[]][] = [
    ["takes over", gains],
    ["learns anew", anew],
    ["passes", hands],
    ["brings along", [...equipment, ...parts.map((part) => `part ${part}`)].map(visibleText)],
    ["needs the skill", skills.map(visibleText)],
    ["people", operatorsBefore === operatorsAfter ? [] : [`${operatorsBefore} -> ${operatorsAfter}`]],
    ["order of work", tasks.map(name)],
  ];
  return all.filter(([, list]) => list.length > 0).map(([what, list]) => [what, list.join(", ")]);
}

function besideText({ tradeOffs, chosen, balance, asItIs, overLimits }: RebalanceAnswer, look: Look): string {
  const rows: [string, string, string][] = asItIs === null ? [] : hoursRows(asItIs);
  const within = overLimits?.within ?? null;
  if (within !== null)
    rows.push([
      "every limit kept",
      String(within.peopleInAll),
      `people in all, after ${countOf(within.moves.length, "move")}${overLimits?.isStrict ? "; --strict-limit shows that plan" : ""}`,
    ]);
  const next = chosen === null ? undefined : tradeOffs.find(({ people }) => people > chosen.people);
  if (next !== undefined)
    rows.push([
      "more people",
      String(next.peopleInAll),
      `and ${countOf(next.moves.length, "move")} in place of ${chosen!.moves.length}`,
    ]);
  const [bench] = balance.offLine.filter((flag) => flag.kind === "block" && (flag.freed ?? 0) > 0);
  if (bench !== undefined) {
    rows.push([
      "a bench",
      String(bench.peopleAfter),
      `people in all, with ${bench.tasks.map(visibleText).join(", ")} built off the line`,
    ]);
  }
  return rows.length === 0 ? "" : labelled(rows, look);
}
