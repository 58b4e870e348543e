import type { AllowedProof, OverLimits, RebalanceAnswer } from "../../answer/rebalance/rebalance-line.js";
import { countOf, countPeople } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import { becauseWords, reasonWords } from "../words/bound-words.js";
import { neededWords, peopleOnLine } from "../words/people-words.js";
import { proofText } from "./proof-text.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";

/** What is proved of the plan shown: of its people by the balance, or by the moves allowed and the tasks kept where these take more. */
export function rebalanceProofText(answer: RebalanceAnswer, look: Look): string {
  const { balance, allowed, chosen, overLimits } = answer;
  if (overLimits !== null) return overLimitsText(overLimits, look);
  if (allowed === null || chosen === null) return proofText(balance, look);
  const people = onLine(answer, chosen.people);
  const words = allowed.isOfPeople
    ? `${ofPeople(answer, allowed, people)} ${ofBest(answer, allowed)}`
    : ofStations(answer, allowed, people);
  return paragraph(words, look);
}

/** What is proved of plans that keep to every limit, where today's plan is shown, which does not. */
function overLimitsText({ findings, within, balance }: OverLimits, look: Look): string {
  const stations = [...new Set(findings.flatMap(({ station }) => station ?? []))];
  const [takes, their] = stations.length === 1 ? ["takes", "its"] : ["take", "their"];
  const stays = `Today's plan stays: check passes it, though ${listOf(stations)} ${takes} more than ${their} station limit.`;
  const none = "No plan that keeps every limit is known.";
  const proof = balance === null ? paragraph(none, look) : proofText(balance, look);
  const more =
    within === null
      ? ""
      : ` To keep every limit takes ${countPeople(within.peopleInAll)} and ${countOf(within.moves.length, "move")}.`;
  const head = balance === null ? "" : " What is proved is about plans that keep every limit:";
  return `${paragraph(`${stays}${more}${head}`, look)}${proof}`;
}

function ofPeople(answer: RebalanceAnswer, allowed: AllowedProof, people: string): string {
  const fewer = `fewer than ${people}`;
  const { leastCostOfFewer: least } = allowed;
  const takeWords = `plans with fewer take ${costWords(answer, least)} at the least`;
  if (!allowed.isRuledOut) {
    const known = least === 0 ? "" : `; ${takeWords}`;
    return `Not proved: whether ${fewer} are possible ${withinWords(allowed)} is open${known}. The limit on partial plans was reached; --nodes raises it.`;
  }
  const isWhy = !allowed.isForKept && least > 0 && allowed.isBeyond;
  return `Proved: ${withinWords(allowed)}, ${fewer} are impossible${isWhy ? `: ${takeWords}` : ""}.`;
}

/** What is proved of people is about those on the line; who repairs beside it comes on top. */
const onLine = ({ balance }: RebalanceAnswer, people: number): string =>
  peopleOnLine(people, balance.measures?.repairPeople ?? null);

/** As few people as in the best plan, at more stations: those come last. */
function ofStations(answer: RebalanceAnswer, { best, ...allowed }: AllowedProof, people: string): string {
  const { bound } = answer.balance;
  const limits = withinWords(allowed);
  const stations = `With as many people, ${countOf(best.stations, "station")} would do${limits === "" ? "" : ` where more may move`}: people come first, then moves, then stations.`;
  if (bound === null) return stations;
  if (best.isProved)
    return `Proved: at least ${neededWords(best.people, answer.balance.measures?.repairPeople ?? null)}, because ${becauseWords(answer.balance, bound)}. ${stations}`;
  const least = bound.people ?? bound.stations ?? 1;
  return `Not proved: ${people} ${best.people === 1 ? "is" : "are"} the best found; whether fewer would do is open. At least ${onLine(answer, least)} are needed: ${reasonWords(answer.balance.line, bound.reason)}. ${stations}`;
}

/** What is known whatever the moves. */
function ofBest(answer: RebalanceAnswer, { best }: AllowedProof): string {
  const { line, bound } = answer.balance;
  const isOfPeople = bound?.isOfPeople === true;
  const whole = isOfPeople
    ? `${countPeople(best.people)} at ${countOf(best.stations, "station")}`
    : countOf(best.stations, "station");
  const plan = `With any moves and any task moved, ${whole} ${best.people === 1 ? "is" : "are"} enough`;
  if (bound === null) return `${plan}.`;
  if (best.isProved) return `${plan}, and fewer impossible, because ${becauseWords(answer.balance, bound)}.`;
  const least = isOfPeople ? onLine(answer, bound.people!) : countOf(bound.stations ?? 1, "station");
  return `${plan}; at least ${least} are needed: ${reasonWords(line, bound.reason)}.`;
}

function withinWords({
  maxMoves,
  maxMoveCost,
  keep,
}: Pick<AllowedProof, "maxMoves" | "maxMoveCost" | "keep">): string {
  const most = [
    ...(maxMoves === null ? [] : [countOf(maxMoves, "move")]),
    ...(maxMoveCost === null ? [] : [countOf(maxMoveCost, "point")]),
  ];
  const isNone = maxMoves === 0 || maxMoveCost === 0;
  const moves = most.length === 0 ? [] : [isNone ? "without a move" : `within ${most.join(" and ")}`];
  const kept = keep.length === 0 ? [] : [`with ${keptWords({ keep })}`];
  return [...moves, ...kept].join(" and ");
}

const keptWords = ({ keep }: Pick<AllowedProof, "keep">): string =>
  `${listOf(keep.map(visibleText))} where ${keep.length === 1 ? "it is" : "they are"}`;

/** Moves by their number, or in points where some cost more than one. */
const costWords = ({ hasPoints }: RebalanceAnswer, cost: number): string =>
  hasPoints ? `moves of ${countOf(cost, "point")}` : countOf(cost, "move");
