import type { AllowedProof, RebalanceAnswer } from "../../answer/rebalance/rebalance-line.js";
import { countOf, countPeople } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import { becauseWords, reasonWords } from "../words/bound-words.js";
import { peopleOnLine } from "./people-words.js";
import { proofText } from "./proof-text.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";

/** What is proved of the plan shown: of its people by the balance, or by the moves allowed and the tasks kept where these take more. */
export function rebalanceProofText(answer: RebalanceAnswer, look: Look): string {
  const { balance, allowed, chosen } = answer;
  if (allowed === null || chosen === null) return proofText(balance, look);
  const words =
    allowed.leastCostOfFewer === null
      ? ofStations(answer, allowed, chosen.stations)
      : ofPeople(answer, allowed, allowed.leastCostOfFewer, onLine(answer, chosen.people));
  return paragraph(`${words} ${ofBest(answer, allowed)}`, look);
}

function ofPeople(answer: RebalanceAnswer, allowed: AllowedProof, least: number, people: string): string {
  const fewer = `fewer than ${people}`;
  if (!allowed.isRuledOut) {
    const known = least === 0 ? "" : `; plans with fewer take ${costWords(answer, least)} at the least`;
    return `Not proved: whether ${fewer} are possible ${withinWords(answer, allowed)} is open${known}. The limit on partial plans was reached; --nodes raises it.`;
  }
  const why = allowed.isForKept ? "" : `: plans with fewer take ${costWords(answer, least)} at the least`;
  return `Proved: ${withinWords(answer, allowed)}, ${fewer} are impossible${why}.`;
}

/** What is proved of people is about those on the line; who repairs beside it comes on top. */
const onLine = ({ balance }: RebalanceAnswer, people: number): string =>
  peopleOnLine(people, balance.measures?.repairPeople ?? null);

/** As few people as in the best plan, at more stations. */
function ofStations(answer: RebalanceAnswer, allowed: AllowedProof, stations: number): string {
  return `Fewer than ${countOf(stations, "station")} with as many people were not found ${withinWords(answer, allowed)}.`;
}

/** What is known whatever the moves. */
function ofBest(answer: RebalanceAnswer, { best }: AllowedProof): string {
  const { line, bound } = answer.balance;
  const isOfPeople = bound?.people != null;
  const whole = isOfPeople
    ? `${countPeople(best.people)} at ${countOf(best.stations, "station")}`
    : countOf(best.stations, "station");
  const plan = `With any moves and any task moved, ${whole} ${best.people === 1 ? "is" : "are"} enough`;
  if (bound === null) return `${plan}.`;
  if (best.isProved) return `${plan}, and fewer impossible, because ${becauseWords(answer.balance, bound)}.`;
  const least = isOfPeople ? onLine(answer, bound.people!) : countOf(bound.stations ?? 1, "station");
  return `${plan}; at least ${least} are needed: ${reasonWords(line, bound.reason)}.`;
}

function withinWords(answer: RebalanceAnswer, { maxMoves, ...allowed }: AllowedProof): string {
  const most = maxMoves === 0 ? "without a move" : `within ${costWords(answer, maxMoves ?? 0)}`;
  const moves = maxMoves === null ? [] : [most];
  const kept = allowed.keep.length === 0 ? [] : [`with ${keptWords(allowed)}`];
  return [...moves, ...kept].join(" and ");
}

const keptWords = ({ keep }: Pick<AllowedProof, "keep">): string =>
  `${listOf(keep.map(visibleText))} where ${keep.length === 1 ? "it is" : "they are"}`;

/** Moves by their number, or by what they cost where that is not the same. */
function costWords({ tradeOffs }: RebalanceAnswer, cost: number): string {
  const hasCosts = tradeOffs.some((row) => row.cost !== row.moves.length);
  return hasCosts ? `moves that cost ${cost}` : countOf(cost, "move");
}
