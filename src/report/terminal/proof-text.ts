import type {
  AnswerBound,
  AnswerLevel,
  BalanceAnswer,
  LineSize,
} from "../../answer/balance/balance-answer.js";
import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import { countOf, countPeople } from "../../findings/count-of.js";
import type { SearchAnswer } from "../../solve/search/fewest-stations.js";
import type { Ratio } from "../../time/ratio.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { onePartIn } from "../../time/show-values.js";
import {
  becauseWords,
  cycleReasonWords,
  cycleStepWords,
  reasonStepWords,
  reasonWords,
} from "../words/bound-words.js";
import { methodWords } from "../words/method-words.js";
import { neededWords, peopleOnLine } from "../words/people-words.js";
import { labelled, paragraph } from "./sections.js";
import type { Look } from "./style.js";

/** Why a search ended that proved nothing, and what would take it further. */
const ENDINGS: Readonly<Record<SearchAnswer["ended"], string>> = {
  proved: "",
  nodes: " The limit on partial plans was reached; --nodes raises it.",
  time: " The time was up; --seconds raises it.",
  interrupted: " Interrupted.",
  memory: " The memory ceiling was reached.",
};

/** What is proved about the number of stations and the slowest of them, and why, in words. */
export function proofText(answer: ShownBalance, look: Look): string {
  const { bound, level, plan } = answer;
  if (plan === null || bound === null) return "";
  const stations = plan.stations.length;
  if (answer.outcome !== "proved" && isBelow(answer, bound, stations))
    return paragraph(usesReserve(answer, bound), look);
  const { standing } = answer;
  if (standing?.better) return paragraph(betterWords(answer, standing.size, standing.better, bound), look);
  const first =
    answer.rates === null ? ofStations(answer, stations, bound) : ofCycle(answer, stations, bound);
  const even =
    level === null || stations === 1
      ? []
      : [ofLevel(answer, stations, level), ...cycleStepWords(answer.line, level.reason)];
  const told = [first, ...reasonStepWords(answer.line, bound.reason), ...even];
  return told.map((words) => paragraph(words, look)).join("");
}

/** What stands may use the reserve that a plan-to keeps, which what is proved of new plans does not. */
const isBelow = (answer: BalanceAnswer, bound: AnswerBound, stations: number): boolean =>
  bound.isOfPeople ? (bound.people ?? 0) > whoIsOnLine(answer) : (bound.stations ?? 0) > stations;

/** People on the line; who works at benches of a plan that stands is not among them. */
const whoIsOnLine = ({ standing, measures }: BalanceAnswer): number =>
  standing?.size.people ?? measures?.operators ?? 0;

const usesReserve = (answer: BalanceAnswer, bound: AnswerBound): string =>
  `${leastWords(answer, bound)} This plan has fewer: it loads stations above their limit.`;

const leastWords = (answer: BalanceAnswer, bound: AnswerBound): string => {
  const least = bound.isOfPeople
    ? onLine(answer, bound.people ?? 1)
    : countOf(bound.stations ?? 1, "station");
  return `Within the station limits at least ${least} are needed: ${reasonWords(answer.line, bound.reason)}.`;
};

/** That another plan is better than the one that stands, and what is proved of all. */
function betterWords(answer: BalanceAnswer, standing: LineSize, found: LineSize, bound: AnswerBound): string {
  const size = ({ people, stations }: LineSize) =>
    people === stations
      ? `${countPeople(people)}, one at each station`
      : `${countPeople(people)} at ${countOf(stations, "station")}`;
  const show = showTimesIn(answer.line.unit);
  const isAsFew = found.people === standing.people && found.stations === standing.stations;
  const what = isAsFew
    ? `A shorter cycle is possible with as few people and stations: ${show(found.cycle)}; this plan has ${show(standing.cycle)}.`
    : `Fewer are enough on the line: ${size(found)}; this plan has ${size(standing)}.`;
  return `${what} \`balance\` shows such a plan. ${leastWords(answer, bound)}${looked(answer, bound)}${ended(answer)}`;
}

function ofStations(answer: BalanceAnswer, stations: number, bound: AnswerBound): string {
  const { line, outcome, measures } = answer;
  if (bound.isOfPeople && bound.people !== null && measures !== null)
    return ofPeople(answer, stations, whoIsOnLine(answer), bound, bound.people);
  // Where moves are open, the stations may be proved all the same.
  if (outcome !== "proved" && (bound.stations ?? 0) < stations) {
    const least = `At least ${bound.stations} are needed: ${reasonWords(line, bound.reason)}.`;
    const open = `Not proved: ${countOf(stations, "station")} ${stations === 1 ? "is" : "are"} the best found. Whether fewer would do is open.`;
    return `${open} ${least}${looked(answer, bound)}${ended(answer)}`;
  }
  if (stations === 1) return "Proved: every line needs at least 1 station.";
  const fewer = `${countOf(stations - 1, "station")} ${stations === 2 ? "is" : "are"} impossible`;
  return `Proved: ${fewer}, because ${becauseWords(answer, bound)}.${looked(answer, bound)}`;
}

/** Where people may be more than stations, the fewest of them come first, then the fewest stations with so many. */
function ofPeople(
  answer: BalanceAnswer,
  stations: number,
  people: number,
  bound: AnswerBound,
  leastPeople: number,
): string {
  if (answer.outcome === "proved") {
    if (people === 1) return "Proved: every line needs at least 1 person at 1 station.";
    const least = `at least ${neededWords(people, answer.measures?.repairPeople ?? null)}`;
    const within =
      stations === people || stations === 1
        ? ""
        : `, and with ${people} at least ${countOf(stations, "station")}`;
    return `Proved: ${least}${within}: ${reasonWords(answer.line, bound.reason)}.${looked(answer, bound)}`;
  }
  const best =
    stations === people
      ? `${countPeople(people)}, one at each station,`
      : `${countPeople(people)} at ${countOf(stations, "station")}`;
  const open = `Not proved: ${best} ${people === 1 ? "is" : "are"} the best found. Whether fewer would do is open.`;
  const atLeast =
    bound.stations === null || bound.stations < 2 ? "" : ` and ${countOf(bound.stations, "station")}`;
  const least = `At least ${onLine(answer, leastPeople)}${atLeast} are needed: ${reasonWords(answer.line, bound.reason)}.`;
  return `${open} ${least}${looked(answer, bound)}${ended(answer)}`;
}

/** What is proved of people is about those on the line; who repairs beside it comes on top. */
const onLine = ({ measures }: BalanceAnswer, people: number): string =>
  peopleOnLine(people, measures?.repairPeople ?? null);

function ofCycle(answer: ShownBalance, stations: number, bound: AnswerBound): string {
  const { boundTime, mayDouble } = answer.shown;
  const least = bound.cycleOfPlan === null ? "-" : cycleWords(answer, bound.cycleOfPlan, boundTime);
  const each = mayDouble ? " of one place each" : "";
  if (answer.outcome === "proved") {
    return `Proved: no plan with ${countOf(stations, "station")}${each} has a cycle below ${least}, because ${reasonWords(answer.line, bound.reason)}.${looked(answer, bound)}`;
  }
  if (bound.within != null)
    return `Proved to within ${onePartIn(bound.within)}: no plan with ${countOf(stations, "station")}${each} has a shorter cycle, because ${reasonWords(answer.line, bound.reason)}.${looked(answer, bound)}`;
  const open = `Not proved: whether a shorter cycle is possible with ${countOf(stations, "station")}${each} is open.`;
  return `${open} None is possible below ${least}, because ${reasonWords(answer.line, bound.reason)}.${looked(answer, bound)}${ended(answer)}`;
}

function ofLevel(answer: ShownBalance, stations: number, level: AnswerLevel): string {
  const least = cycleWords(answer, level.cycleOfPlan, answer.shown.levelTime);
  const people = answer.bound?.isOfPeople !== true ? "" : `${countPeople(whoIsOnLine(answer))} at `;
  const smoothest =
    level.smoothness === "proved"
      ? "No plan with that cycle is smoother"
      : "This is the smoothest plan found";
  if (level.outcome === "proved") {
    return `Even loads: no plan with ${people}${countOf(stations, "station")} has a cycle below ${least}, because ${cycleReasonWords(answer.line, level.reason)}. ${smoothest}.`;
  }
  if (level.within !== null)
    return `Even loads: no plan with ${people}${countOf(stations, "station")} has a shorter cycle, proved to within ${onePartIn(level.within)}, because ${cycleReasonWords(answer.line, level.reason)}. ${smoothest}.`;
  const found = answer.measures === null ? "" : showTimesIn(answer.line.unit)(answer.measures.cycleOfPlan);
  return `Even loads: a cycle of ${found}, not proved shortest. None is possible below ${least}, because ${cycleReasonWords(answer.line, level.reason)}. ${smoothest}.${ENDINGS[level.ended]}`;
}

/** A cycle with what it is made of, so that station times in the reason can be compared with it. */
function cycleWords({ line, pace }: BalanceAnswer, cycle: Ratio, stationTime: Ratio | null): string {
  const show = showTimesIn(line.unit);
  return pace.handling === 0 || stationTime === null
    ? show(cycle)
    : `${show(cycle)} (a station time of ${show(stationTime)} and handling)`;
}

function looked({ search }: BalanceAnswer, bound: AnswerBound): string {
  if (search.nodes === 0 || bound.kind === "search") return "";
  return ` ${countOf(search.nodes, "partial plan")} ${search.nodes === 1 ? "was" : "were"} examined.`;
}

function ended({ search }: BalanceAnswer): string {
  return search.ended === null ? " No search was asked for." : ENDINGS[search.ended];
}

/** Stations by method, with the people where these differ, the method of the plan shown marked. */
export function methodsText(answer: BalanceAnswer, look: Look): string {
  const { balance } = answer;
  if (balance === null) return "";
  const evened = balance.evened ? "; the plan shown, evened out" : "; the plan shown";
  const withPeople = balance.methods.some(({ stations, people }) => people !== stations);
  return labelled(
    balance.methods.map(({ method, stations, people }) => {
      const name = methodWords(method);
      if (stations === null) return [name, "-", "fails: a shop-floor rule blocks every task that is left"];
      const staff = withPeople && people !== null ? `, ${onLine(answer, people)}` : "";
      const what = `${stations === 1 ? "station" : "stations"}${staff}`;
      return [name, String(stations), `${what}${method === balance.method ? evened : ""}`];
    }),
    look,
  );
}
