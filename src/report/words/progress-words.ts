import { countOf } from "../../findings/count-of.js";
import type { Amount, Progress, SearchPart } from "../../solve/watch-times.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { decimal } from "../../time/show-values.js";

/** How far a search is after so many seconds, in a line. */
export function progressWords({ nodes, best, bound, what, option }: Progress, seconds: number): string {
  const parts = [
    ...(option === undefined ? [] : [optionWords(option)]),
    ...(what === undefined ? [] : [partWords(what)]),
  ];
  const searched = parts.length === 0 ? "the line" : parts.join(", ");
  const found = best === "none" ? best : amountWords(best);
  return `${searched}, ${seconds} s: best ${found}, at least ${amountWords(bound)}, ${nodes} partial plans`;
}

function optionWords({ name, turn }: NonNullable<Progress["option"]>): string {
  return turn === null ? name : `${name} (${turn.at} of ${turn.of})`;
}

function partWords(part: SearchPart): string {
  if (typeof part === "string")
    return part === "where-line-pays" ? "where a line pays" : part.replace("-", " ");
  if ("stations" in part) return countOf(part.stations, "station");
  if ("demand" in part) return `${decimal(part.demand.units, 6)} per ${part.demand.period}`;
  return "sets" in part ? `sets of ${part.sets}` : `block ${part.block} of ${part.of}`;
}

function amountWords(amount: Amount | null): string {
  if (amount === null) return "-";
  if (typeof amount === "number") return String(amount);
  return "moves" in amount ? `${amount.moves} moves` : showTimesIn(amount.unit)(amount.time);
}
