import { listOf } from "./beside.js";
import type { OptionAnswer, WhereLinePays } from "./option-answer.js";
import { perWords } from "./shortfall-words.js";

/** From which demand on a line needs fewer people than tables, in a sentence for all options at tables that have it alike. */
export function paysWords(options: readonly OptionAnswer[]): string[] {
  const alike = new Map<string, { readonly pays: WhereLinePays; readonly names: string[] }>();
  for (const { asked, pays } of options) {
    if (pays === null) continue;
    const key = JSON.stringify(pays);
    alike.set(key, { pays, names: [...(alike.get(key)?.names ?? []), asked.name] });
  }
  const repair = options.some(({ repairPeople }) => repairPeople > 0);
  return [...alike.values()].map(({ pays, names }) => sentenceOf(pays, names, repair));
}

function sentenceOf(pays: WhereLinePays, names: readonly string[], repair: boolean): string {
  const { line, period, first, always, most, last, outcome } = pays;
  const head = `Against as many tables as each demand needs (those of ${listOf(names)}), the line (${line}) `;
  const doubt = outcome === "proved" ? "" : "; its fewest people are not proved, so it may pay earlier";
  if (first === null) {
    return `${head}needs fewer people at no demand up to ${most} units ${perWords(period)}, the highest looked at${doubt}.`;
  }
  const at = `${first.units} units ${perWords(period)} (${first.onLine} instead of ${first.atTables}${repair ? ", those who repair not counted" : ""})`;
  if (first.units === most)
    return `${head}needs fewer people at ${at}, the highest demand looked at${doubt}.`;
  if (always === null) {
    const until =
      last === first.units
        ? "at no other demand"
        : `at some demands only after that, at ${last} for the last time`;
    return `${head}needs fewer people for the first time at ${at}, and ${until}, of those up to ${most}${doubt}.`;
  }
  const highest = `${most}, the highest looked at`;
  if (always === first.units) {
    return `${head}needs fewer people from ${at} on, at every demand up to ${highest}${doubt}.`;
  }
  const since = always === most ? `at ${highest}` : `at every one from ${always} to ${highest}`;
  return `${head}needs fewer people for the first time at ${at}, after that at some demands only, and ${since}${doubt}.`;
}
