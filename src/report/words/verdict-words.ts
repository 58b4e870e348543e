import type { HoursBeside, WantedBeside } from "../../answer/compare/terms.js";
import type {
  Change,
  LinePays,
  Miss,
  OptionTerms,
  PostCounts,
  Verdict,
  VerdictClause,
} from "../../answer/compare/verdict.js";
import { addTo } from "../../findings/add-to.js";
import { countOf, thousands } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import type { Period } from "../../time/demand.js";
import { showTimesApart } from "../../time/show-in-unit.js";
import { decimal, showApart } from "../../time/show-values.js";
import { changeWords, costWords, countWords, daysOf, gainWords, peopleWords } from "./change-words.js";

/** A sentence an option: what it gains over the first, and what it costs; further ones for tables. None where nothing was compared. */
const verdictSentences = (verdict: Verdict): string[] => rankedVerdict(verdict).map(({ words }) => words);

/** The same as a list: options that are weighed have their rank, the one with the fewest people first, then the cheapest. */
export function rankedVerdict(verdict: Verdict): { readonly rank: string; readonly words: string }[] {
  const ranked = verdict.clauses.filter((each) => "terms" in each).length;
  let rank = 0;
  const told = clausesOf(verdict.clauses).map((alike) => {
    const isRanked = ranked > 1 && "terms" in alike[0]!;
    if (isRanked) rank++;
    return { rank: isRanked ? `${rank}.` : "", words: `${clauseWords(alike)}.` };
  });
  return [...told, ...verdict.pays.map((each) => ({ rank: "", words: paysWords(each) }))];
}

/** All of them in one text. */
export const verdictWords = (verdict: Verdict): string => verdictSentences(verdict).join(" ");

/** Options of which the same is said have one clause, where the first of them stands. */
function clausesOf(clauses: readonly VerdictClause[]): VerdictClause[][] {
  const alike = new Map<string, VerdictClause[]>();
  for (const [at, clause] of clauses.entries()) {
    const why = clause.kind === "no-balance" ? (clause.reason?.message ?? "") : "";
    const key = `${"terms" in clause ? at : clause.kind} ${why}`;
    addTo(alike, key, clause);
  }
  return [...alike.values()];
}

/** @param alike one or more of the same kind, of which the same is said */
function clauseWords(alike: readonly VerdictClause[]): string {
  const [clause] = alike as [VerdictClause];
  const names = alike.flatMap((each) => ("name" in each ? [each.name] : []));
  const isOne = names.length === 1;
  switch (clause.kind) {
    case "set-aside":
      return `the line cycle that is given sets all aside that ${listOf(names)} ${isOne ? "changes" : "change"}`;
    case "not-worked-out":
      return `${listOf(names)} ${isOne ? "was" : "were"} not worked out`;
    case "no-balance": {
      const why = clause.reason === null ? "" : ` (${clause.reason.message})`;
      return `${listOf(names)} ${isOne ? "has" : "have"} no balance${why}`;
    }
    case "first-misses":
      return `${clause.name} ${missWords(clause.miss)}`;
    default:
      return ofOption(clause);
  }
}

function ofOption(clause: Extract<VerdictClause, { readonly terms: OptionTerms }>): string {
  const { terms } = clause;
  const name = nameWords(terms);
  const doubt =
    terms.doubts.length === 0 ? "" : ` (${terms.doubts.map((each) => `${each} not proved`).join(", ")})`;
  switch (clause.kind) {
    case "needs": {
      const { people, posts, output, miss } = clause;
      const units =
        output === null ? "" : `, output ${decimal(output.units, 0)} units ${perWords(output.period)}`;
      const missed = miss === null ? "" : ` and ${missWords(miss)}`;
      return `${terms.name}${demandWords(terms)} needs ${peopleWords(people)} (${postsWords(posts)})${units}${missed}`;
    }
    case "misses":
      return `${name}${demandWords(terms)} ${missWords(clause.miss)} and is no gain${inBrackets(clause.changes)}${doubt}`;
    case "meets": {
      const what = clause.what === "demand" ? "meets its demand" : "keeps its line cycle";
      return `${name}${demandWords(terms)} ${what}${withWords(clause.changes)}${doubt}`;
    }
    case "other-demand": {
      const units = `(${wantedWords(clause.wanted, perWords(clause.wanted.period))})`;
      return clause.isFewer
        ? `${name} is for fewer units ${units} and is no gain${inBrackets(clause.changes)}${doubt}`
        : `${name} is for more units ${units}${withWords(clause.changes)}${doubt}`;
    }
    case "against": {
      const [gained, costs] = [clause.gains.map(gainWords), clause.costs.map(costWords)];
      const cost = costs.length === 0 ? [] : [`costs ${listOf(costs)}`];
      return `${name.replace(/,$/u, "")}: ${[...gained, ...cost].join("; ")}${doubt}`;
    }
  }
}

/** The name with what it does in place of the first: other hours, tables instead of stations. */
function nameWords({ name, hours, inPlace }: OptionTerms): string {
  const posts =
    inPlace === null ? "" : `with ${postsWords(inPlace.posts)} in place of ${postsWords(inPlace.of)}`;
  const words = [hoursWords(hours), posts].filter((each) => each !== "");
  return words.length === 0 ? name : `${name}, ${words.join(" and ")},`;
}

/** "on 3 shifts a day instead of 2"; "" where the option works the same. */
function hoursWords({ shifts, days }: HoursBeside): string {
  const words: string[] = [];
  if (shifts !== null) words.push(`${countOf(shifts.now, "shift")} a day instead of ${shifts.before}`);
  if (days !== null) {
    const { what, period } = daysOf(days);
    words.push(`${countWords(days.now, what)} a ${period} instead of ${decimal(days.before, 2)}`);
  }
  return words.length === 0 ? "" : `on ${words.join(" and ")}`;
}

function postsWords(posts: PostCounts): string {
  if (posts.kind === "tables") return countOf(posts.tables, "table");
  const line = countOf(posts.stations, "station");
  return posts.benchPlaces === 0 ? line : `${line} and ${countOf(posts.benchPlaces, "bench place")}`;
}

/** Which demand an option is for, where it is another than that of the first. */
function demandWords({ demand }: OptionTerms): string {
  return demand === null ? "" : `, for ${wantedWords(demand, `units ${perWords(demand.period)}`)},`;
}

function wantedWords({ now, before }: WantedBeside, what: string): string {
  const [units, others] = showApart([now, before], decimal, { fewest: 1, step: 1 });
  return `${units} ${what} instead of ${others}`;
}

const inBrackets = (changes: readonly Change[]): string =>
  changes.length === 0 ? "" : ` (${listOf(changes.map(changeWords))})`;

const withWords = (changes: readonly Change[]): string =>
  ` with ${changes.length === 0 ? "the same people and stations" : listOf(changes.map(changeWords))}`;

/** What an option misses of what it is asked for, and for tables how many would do. */
function missWords({ period, wanted, made, lacking, isHeld, atTables, unit }: Miss): string {
  const tables = atTables === null ? "" : `; ${atTables} people at tables would keep up`;
  if (period === null) {
    const [asked, kept] = showTimesApart(unit, wanted, made);
    const is = isHeld ? "waits hold it to" : "the cycle of its plan is";
    return `misses the line cycle of ${asked} (${is} ${kept}${tables})`;
  }
  const shown = decimal(lacking, 1);
  const units = shown === "0" ? "less than 0.1 units" : `${shown} ${shown === "1" ? "unit" : "units"}`;
  return `misses its demand by ${units} ${perWords(period)} (${decimal(made, 1)} of ${decimal(wanted, 1)}${tables})`;
}

/** From which demand on a line needs fewer people than tables, in some sentences. */
function paysWords({ pays, names, hasRepairs }: LinePays): string {
  const { line, period, first, always, most, mostTables, last, outcome } = pays;
  const head = `The line (${line}) against as many tables as each demand needs (those of ${listOf(names)}): it needs fewer people`;
  const tables =
    mostTables === null
      ? ""
      : ` For more units there are not enough people with all skills: ${countOf(mostTables, "table")} can be staffed.`;
  const doubt = `${tables}${outcome === "proved" ? "" : " Its fewest people are not proved, so it may pay earlier."}`;
  if (first === null)
    return `${head} at no demand up to ${units(most, period)}, the highest looked at.${doubt}`;
  const repairs = hasRepairs ? ", those who repair not counted" : "";
  const at = `${units(first.units, period)} (${first.onLine} instead of ${first.atTables}${repairs})`;
  if (first.units === most) return `${head} at ${at}, the highest demand looked at.${doubt}`;
  const highest = `${thousands(most)}, the highest looked at`;
  if (always === null) {
    const until =
      last === first.units
        ? "At no other demand"
        : `After that it does so at some demands only, at ${thousands(last!)} for the last time,`;
    return `${head} for the first time at ${at}. ${until} up to ${highest}.${doubt}`;
  }
  if (always === first.units) return `${head} from ${at} on, at every demand up to ${highest}.${doubt}`;
  const since = always === most ? `at ${highest}` : `at every one from ${thousands(always)} to ${highest}`;
  return `${head} for the first time at ${at}. After that it does so at some demands only, and ${since}.${doubt}`;
}

const units = (count: number, period: Period): string => `${thousands(count)} units ${perWords(period)}`;

/** "an hour", "a shift". */
const perWords = (period: Period): string => (period === "hour" ? "an hour" : `a ${period}`);
