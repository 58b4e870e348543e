import type { NoPlanAllowed } from "../../answer/rebalance/trade-offs.js";
import { countOf } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";

/** Why no plan keeps to the moves allowed, or leaves the tasks that are to stay, and what comes nearest; without a full stop. */
export const noPlanAllowedWords = (why: NoPlanAllowed): string =>
  why.kind === "moves" ? withinMovesWords(why) : keptWords(why);

function withinMovesWords(why: Extract<NoPlanAllowed, { kind: "moves" }>): string {
  const { isProved, maxMoves, maxMoveCost, fewest, hasPoints } = why;
  const limits = [
    ...(maxMoves === null ? [] : [`uses ${orFewer(maxMoves, "move")}`]),
    ...(maxMoveCost === null ? [] : [`costs ${orFewer(maxMoveCost, "point")}`]),
  ];
  const points = hasPoints ? ` that cost ${countOf(fewest.cost, "point")}` : "";
  const found = `${countOf(fewest.moves.length, "move")}${points}, with ${fewest.peopleInAll} people in all`;
  const allowed = maxMoves === 0 || maxMoveCost === 0 ? "does without a move" : limits.join(" and ");
  const none = isProved
    ? `no plan at this pace ${allowed}`
    : `no plan that ${allowed} was found, and whether there is one is open`;
  const known = fewest.outcome === "proved" ? "" : " found";
  return `${none}; the ${hasPoints ? "cheapest" : "fewest"}${known}: ${found}`;
}

function keptWords({ isProved, kept, fault, wayOut }: Extract<NoPlanAllowed, { kind: "kept" }>): string {
  const are = kept.length === 1 ? "it is" : "they are";
  const least = isProved
    ? `no plan at this pace leaves ${listOf(kept)} where ${are}`
    : `no plan that leaves ${listOf(kept)} where ${are} was found, and whether there is one is open`;
  const why = fault === null ? "" : `: ${fault}`;
  if (wayOut === null) return `${least}${why}`;
  const { moved, others, peopleInAll } = wayOut;
  const names = moved.map(({ task, from, to }) => `${task} from ${from} to ${to}`);
  const more = others === 0 ? "no other task" : countOf(others, "other task");
  return `${least}${why}; the cheapest way out moves ${listOf(names)} and ${more}, with ${peopleInAll} people in all`;
}

const orFewer = (most: number, what: string): string =>
  most === 1 ? `1 ${what} or none` : `${countOf(most, what)} or fewer`;
