import { countOf } from "../findings/count-of.js";
import type { Ratio } from "../time/ratio.js";
import { decimal } from "../time/show-values.js";
import { type Beside, besideOf, isOther, listOf, peopleWords, whole } from "./beside.js";
import { benchPlaces, kits, stations } from "./figures.js";
import { costsOf, gainsOf, hours } from "./gains-and-costs.js";
import { obstacleOf } from "./obstacle.js";
import type { OptionAnswer } from "./option-answer.js";
import { paysWords } from "./pays-words.js";
import type { RowOfFigures } from "./rows.js";
import { missWords, perWords } from "./shortfall-words.js";
import { demandBeside, hoursWords, shiftsBeside, wantedBeside } from "./terms.js";

/**
 * One sentence from the numbers: what each option gains over the first, and what it costs; a further one for tables. No word that no
 * number carries. What an option saves by missing its demand is no gain, and what it needs to make up what the first misses no cost.
 */
export function verdictOf(options: readonly OptionAnswer[], rows: readonly RowOfFigures[]): string {
  const [first] = options;
  if (first === undefined) return "";
  return [`${clausesOf(options, rows).join("; ")}.`, ...paysWords(options)].join(" ");
}

function clausesOf([first, ...others]: readonly OptionAnswer[], rows: readonly RowOfFigures[]): string[] {
  if (others.length === 0) return [absolute(first!, besideOf(first!, rows, 0))];
  const isMissed = missWords(first!) !== "";
  const clauses = others.map((option, at) => {
    const beside = besideOf(option, rows, at + 1);
    if (option.posts.length === 0) return `${option.asked.name} ${withoutPlan(option)}`;
    if (first!.posts.length === 0) return absolute(option, beside);
    if (missWords(option) !== "") return missing(first!, option, beside);
    if (isMissed) return meeting(first!, option, beside);
    return demandBeside(option, first!) === 0
      ? against(first!, option, beside)
      : forOther(first!, option, beside);
  });
  if (first!.posts.length === 0) return [`${first!.asked.name} ${withoutPlan(first!)}`, ...clauses];
  return isMissed ? [`${first!.asked.name} ${missWords(first!)}`, ...clauses] : clauses;
}

function withoutPlan(option: OptionAnswer): string {
  if (option.outcome === "stopped") return "was not worked out";
  const reason = obstacleOf(option);
  return `has no balance${reason === null ? "" : ` (${reason})`}`;
}

function absolute(option: OptionAnswer, { value }: Beside): string {
  const people = value("peoplePerShift");
  if (people === null) return `${option.asked.name} ${withoutPlan(option)}`;
  const [perShift, perDay] = [value("outputPerShift"), value("outputPerDay")];
  const output = perShift ?? perDay;
  const period = perShift === null ? "day" : "shift";
  const units = output === null ? "" : `, output ${decimal(output, 0)} units a ${period}`;
  const miss = missWords(option);
  return `${option.asked.name} needs ${peopleWords(people)}${units}${miss === "" ? "" : ` and ${miss}`}`;
}

/** An option that makes less than it is asked for: whatever it does with, it is no gain. */
function missing(first: OptionAnswer, option: OptionAnswer, beside: Beside): string {
  return `${nameWords(first, option)}${demandWords(first, option)} ${missWords(option)} and is no gain${withWords(first, option, beside)}${doubtWords(first, option)}`;
}

/** An option beside a first one that misses its demand: what it needs, and not what it costs. */
function meeting(first: OptionAnswer, option: OptionAnswer, beside: Beside): string {
  const asked = option.asked.takt === null ? "keeps its line cycle" : "meets its demand";
  return `${nameWords(first, option)}${demandWords(first, option)} ${asked}${needWords(first, option, beside)}${doubtWords(first, option)}`;
}

/** An option for another demand: what it saves is no gain where it makes less, and what it needs no cost where it makes more. */
function forOther(first: OptionAnswer, option: OptionAnswer, beside: Beside): string {
  const { now, before, period } = wantedBeside(option, first)!;
  const units = `(${decimal(now, 1)} ${perWords(period)} instead of ${decimal(before, 1)})`;
  const words =
    demandBeside(option, first) < 0
      ? ` is for fewer units ${units} and is no gain${withWords(first, option, beside)}`
      : ` is for more units ${units}${needWords(first, option, beside)}`;
  return `${nameWords(first, option)}${words}${doubtWords(first, option)}`;
}

/** The name with what it does in place of the first: other hours, tables instead of stations. */
function nameWords(first: OptionAnswer, option: OptionAnswer): string {
  const [hours, posts] = [hoursWords(option, first), inPlaceWords(first, option)];
  const words = [hours, posts].filter((each) => each !== "");
  return words.length === 0 ? option.asked.name : `${option.asked.name}, ${words.join(" and ")},`;
}

function inPlaceWords(first: OptionAnswer, option: OptionAnswer): string {
  const hasTables = ({ balance }: OptionAnswer) => balance === null;
  const postsOf = (answer: OptionAnswer) => {
    if (hasTables(answer)) return countOf(kits(answer)!, "table");
    const atBenches = benchPlaces(answer)!;
    const line = countOf(stations(answer)!, "station");
    return atBenches === 0 ? line : `${line} and ${countOf(atBenches, "bench place")}`;
  };
  return hasTables(first) === hasTables(option)
    ? ""
    : `with ${postsOf(option)} in place of ${postsOf(first)}`;
}

function withWords(first: OptionAnswer, option: OptionAnswer, beside: Beside): string {
  const changes = listOf(changesOf(first, option, beside));
  return changes === "" ? "" : ` with ${changes}`;
}

function needWords(first: OptionAnswer, option: OptionAnswer, beside: Beside): string {
  const changes = listOf(changesOf(first, option, beside));
  return ` with ${changes === "" ? "the same people and stations" : changes}`;
}

/** What differs, as it is beside as it was, with no word for better or worse. */
function changesOf(
  first: OptionAnswer,
  option: OptionAnswer,
  { value, first: before, change, money }: Beside,
): string[] {
  const instead = (key: string, words: (amount: Ratio) => string, bare: (amount: Ratio) => string): string =>
    isOther(change(key)) ? `${words(value(key)!)} instead of ${bare(before(key)!)}` : "";
  const counted = (key: string, what: string, after = "") =>
    instead(
      key,
      (amount) => `${countOf(whole(amount), what)}${after}`,
      (amount) => decimal(amount, 0),
    );
  const people = (key: string, after: string) =>
    instead(
      key,
      (amount) => `${peopleWords(amount)}${after}`,
      (amount) => decimal(amount, 0),
    );
  const [perShift, perDay] = [people("peoplePerShift", ""), people("peoplePerDay", " a day")];
  return [
    perShift === "" || (perDay !== "" && shiftsBeside(option, first) !== 0) ? perDay : perShift,
    counted("stations", "station"),
    counted("benchPlaces", "bench place"),
    counted("stock", "unit", " in stock"),
    instead("overtimeHours", (amount) => `${hours(amount)} of overtime a day`, hours),
    instead("costPerUnit", (amount) => `${money(amount)} a unit`, money),
  ].filter((each) => each !== "");
}

function against(first: OptionAnswer, option: OptionAnswer, beside: Beside): string {
  const [gained, cost] = [listOf(gainsOf(first, option, beside)), listOf(costsOf(first, option, beside))];
  const words = [gained, cost === "" ? "" : `costs ${cost}`].filter((each) => each !== "");
  return `${nameWords(first, option)} ${words.join(", and ")}${doubtWords(first, option)}`;
}

const doubtWords = (first: OptionAnswer, option: OptionAnswer): string =>
  first.outcome === "proved" && option.outcome === "proved" ? "" : " (fewest people not proved)";

/** Which demand an option is for, where it is another than that of the first. */
function demandWords(first: OptionAnswer, option: OptionAnswer): string {
  if (demandBeside(option, first) === 0) return "";
  const { now, before, period } = wantedBeside(option, first)!;
  return `, for ${decimal(now, 1)} units ${perWords(period)} instead of ${decimal(before, 1)},`;
}
