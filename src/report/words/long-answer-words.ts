import type {
  ChangedResult,
  LongAnswer,
  MoreEquipment,
  PlacesAnswer,
  SlowerAnswer,
} from "../../answer/long-tasks/long-answer.js";
import { countOf, countPeople, thousands } from "../../findings/count-of.js";
import type { Line } from "../../line/line.js";
import { type ShowTime, showTimesDownIn, showTimesIn } from "../../time/show-in-unit.js";
import { decimal, percent } from "../../time/show-values.js";
import { hindranceWords } from "./hindrance-words.js";
import { existWords, whyWords } from "./obstacle-words.js";

type Answer<Kind extends LongAnswer["kind"]> = Extract<LongAnswer, { kind: Kind }>;

/** An answer to a task over a limit: what it is called, then what it takes and brings. */
export function longAnswerWords(line: Line, answer: LongAnswer): string {
  const show = showTimesIn(line.unit);
  switch (answer.kind) {
    case "places":
      return placesWords(line, answer);
    case "no-places":
      return `parallel workplaces: no, it would take ${eachWords(answer)}`;
    case "equipment":
      return `more equipment: ${moreWords(answer.equipment)} ${resultWords(line, answer.result)}`;
    case "holds":
      return holdsWords(line, answer);
    case "split":
      return splitWords(line, answer);
    case "too-many-parts":
      return `split: no, it would take ${partsWords(line, answer)}`;
    case "no-split":
      return "split: no, its machine is loaded and runs in one go";
    case "bench":
      return benchWords(line, answer);
    case "no-bench": {
      const why = answer.holds.map((hold) => hindranceWords(line, hold)).join(", ");
      return `bench: no, ${why === "" ? "it cannot be built away from the line" : why}`;
    }
    case "unknown-bench":
      return `bench: not known, ${NO_MARK}`;
    case "overload":
      return `more overload: \`model-overload: ${percent(answer.overload)}\` ${resultWords(line, answer.result)}`;
    case "slower":
      return slowerWords(line, answer, show);
  }
}

/** All of the answers in one text. */
export const longAnswersWords = (line: Line, answers: readonly LongAnswer[]): string =>
  answers.map((each) => longAnswerWords(line, each)).join("; ");

export const NO_MARK = "as no task says `on-base: true`";
const GUESS = `a guess, ${NO_MARK}`;

/** "2", or of several tasks "2 for lace, 3 for motor" for those that need more than one. */
function eachWords({ places }: Pick<PlacesAnswer, "places">): string {
  if (places.length === 1) return thousands(places[0]!.places);
  const several = places.filter((each) => each.places > 1);
  return several.map((each) => `${thousands(each.places)} for ${each.task}`).join(", ");
}

function placesWords(line: Line, answer: PlacesAnswer): string {
  const { equipment, result } = answer;
  const more = equipment.length === 0 ? "" : ` and ${moreWords(equipment)}`;
  return `parallel workplaces: ${eachWords(answer)}${more}, units taken in turn ${resultWords(line, result, whereWords(answer))}`;
}

function holdsWords(line: Line, { holds, equipment, result }: Answer<"holds">): string {
  const most = Math.max(...holds.map((each) => each.holds));
  const each =
    holds.length === 1 ? "" : ` (${holds.map(({ task, holds: own }) => `${own} for ${task}`).join(", ")})`;
  const more = equipment.length === 0 ? "" : ` with ${moreWords(equipment)}`;
  return `more units at a place: \`holds: ${most}\`${each}${more}, so that one is worked on while another runs ${resultWords(line, result)}`;
}

/** ", with places at every station (`max-places: 2`)" */
function whereWords({ everywhere, shorter }: PlacesAnswer): string {
  const at = (where: string, most: number) => `with places at ${where} (\`max-places: ${most}\`)`;
  if (everywhere !== null) {
    const where = everywhere.at === "every station" ? everywhere.at : "every station that they may stand at";
    return `, ${at(where, everywhere.maxPlaces)}`;
  }
  if (shorter === null) return "";
  return `, or ${countOf(shorter.stations, "station")} ${at("every station", shorter.maxPlaces)}`;
}

function splitWords(line: Line, answer: Answer<"split">): string {
  const { parts, fixedTo, equipment, result } = answer;
  const all = parts === 2 ? "both" : "all";
  const fixed = fixedTo === null ? "" : `, ${all} of them fixed to ${fixedTo.join(" or ")} as the whole is`;
  const more = equipment.length === 0 ? "" : `, with ${moreWords(equipment)}`;
  const then = result === null ? "" : ` ${resultWords(line, result)}`;
  return `split: ${partsWords(line, answer)}${fixed}${more}${then}`;
}

function partsWords({ unit }: Line, { parts, most, isOfModel }: Answer<"too-many-parts" | "split">): string {
  const what = isOfModel ? "of which no model takes more than" : "of at most";
  return `${thousands(parts)} parts ${what} ${showTimesDownIn(unit)(most)}`;
}

function benchWords(line: Line, { tasks, joinsAt, places, isGuess, result }: Answer<"bench">): string {
  const told = [
    ...(result === null ? [] : [benchResultWords(line, result)]),
    ...(isGuess ? [GUESS] : []),
  ].join("; ");
  const where = `${countOf(places, "place")} for ${tasks.join(", ")}, joining at ${joinsAt}`;
  return `bench: ${where}${told === "" ? "" : ` (${told})`}`;
}

function benchResultWords(line: Line, result: NonNullable<Answer<"bench">["result"]>): string {
  switch (result.kind) {
    case "plan":
      return `${countOf(result.stations, "station")} at the line and ${countPeople(result.people)} in all`;
    case "no-plan":
      return `no plan of the rest keeps the rules${whyWords(line.unit, result.obstacles, ", ")}`;
    case "others-too-long":
      return OTHERS;
  }
}

const OTHERS = "others are too long as well";

function slowerWords(line: Line, answer: SlowerAnswer, show: ShowTime): string {
  const { lineCycle, outcome, neededBy, result } = answer;
  const then = result === null ? "" : ` ${resultWords(line, result)}`;
  if (outcome === "none") return `slower pace: no pace helps${then}`;
  const needs =
    neededBy === null
      ? ""
      : neededBy.isEnough
        ? ` (${neededBy.task} needs it)`
        : ` (${neededBy.task} alone needs ${show(neededBy.lineCycle)}, the rules of the line more)`;
  return `slower pace: a line cycle of ${show(lineCycle)}${OR[outcome]}${needs}, ${rateWords(answer)}${then}`;
}

const OR = { proved: "", found: " or less", open: " or more" };

function rateWords({ rate }: SlowerAnswer): string {
  const made = decimal(rate.units, 2);
  const good = `${made} good ${made === "1" ? "unit" : "units"} per`;
  if (rate.kind === "hour") return `${good} hour`;
  const { units, period } = rate.demand;
  return `${good} ${period} instead of ${decimal(units, 2)}`;
}

/** "(4 stations and 5 people in all, efficiency 80 % at the pace)", or why there is no plan. */
function resultWords(line: Line, result: ChangedResult, more = ""): string {
  switch (result.kind) {
    case "plan": {
      const { stations, people, isProved, efficiency } = result;
      const share = efficiency === null ? "" : `, efficiency ${percent(efficiency)} at the pace`;
      const open = isProved ? "" : ", not proved least";
      return `(${countOf(stations, "station")} and ${countPeople(people)} in all${open}${share}${more})`;
    }
    case "no-plan": {
      if (result.isToldBefore) return "(no plan then either, for the same reasons)";
      if (result.obstacles === null) return "(no plan was found before the search was stopped)";
      return `(no plan keeps the rules of the line then${whyWords(line.unit, result.obstacles, ", ")})`;
    }
    case "others-too-long":
      return `(${OTHERS})`;
  }
}

/** "2 x jig (1 exists)" for the equipment of which there must be more. */
const moreWords = (equipment: readonly MoreEquipment[]): string =>
  equipment.map(({ name, needed, count }) => `${needed} x ${name} (${existWords(count)})`).join(" and ");
