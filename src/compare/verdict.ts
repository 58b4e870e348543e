import { countOf } from "../findings/count-of.js";
import type { Ratio } from "../time/ratio.js";
import { decimal } from "../time/show-values.js";
import { type Beside, besideOf, isAbove, isOther, listOf, peopleWords, whole } from "./beside.js";
import { benchPlaces, kits, stations } from "./figures.js";
import { costsOf, gainsOf, hours, movesWords } from "./gains-and-costs.js";
import { obstacleOf } from "./obstacle.js";
import type { OptionAnswer } from "./option-answer.js";
import { paysWords } from "./pays-words.js";
import type { RowOfFigures } from "./rows.js";
import { missWords, perWords } from "./shortfall-words.js";
import { demandBeside, hoursWords, isSetAside, shiftsBeside, wantedBeside } from "./terms.js";

/**
 * One sentence from the numbers: what each option gains over the first, and what it costs; a further one for tables. No word that no
 * number carries. What an option saves by missing its demand is no gain, and what it needs to make up what the first misses no cost.
 */
export function verdictOf(options: readonly OptionAnswer[], rows: readonly RowOfFigures[]): string {
  const [first] = options;
  if (first === undefined) return "";
  return [`${clausesOf(options, rows).join("; ")}.`, ...paysWords(options)].join(" ");
}

function clausesOf(options: readonly OptionAnswer[], rows: readonly RowOfFigures[]): string[] {
  const [first, ...others] = options;
  const withPlan = others.filter((option) => option.posts.length > 0 && !isSetAside(option));
  const none = [...setAsideWords(others), ...planlessWords(options)];
  const beside = (option: OptionAnswer) => besideOf(option, rows, options.indexOf(option));
  if (first!.posts.length === 0)
    return [...none, ...withPlan.map((each) => absolute(first!, each, beside(each)))];
  if (others.length === 0) return [absolute(first!, first!, beside(first!))];
  const isMissed = missWords(first!) !== "";
  const clauses = withPlan.map((option) => {
    if (missWords(option) !== "") return missing(first!, option, beside(option));
    if (isMissed) return meeting(first!, option, beside(option));
    return demandBeside(option, first!) === 0
      ? against(first!, option, beside(option))
      : forOther(first!, option, beside(option));
  });
  return [...(isMissed ? [`${first!.asked.name} ${missWords(first!)}`] : []), ...clauses, ...none];
}

/** The options that change nothing but what a given line cycle sets aside. */
function setAsideWords(others: readonly OptionAnswer[]): string[] {
  const names = others.flatMap((each) =>
    each.posts.length > 0 && isSetAside(each) ? [each.asked.name] : [],
  );
  if (names.length === 0) return [];
  return [
    `the line cycle that is given sets all aside that ${listOf(names)} ${names.length === 1 ? "changes" : "change"}`,
  ];
}

/** The options without a plan, in one clause for each reason. */
function planlessWords(options: readonly OptionAnswer[]): string[] {
  const byReason = new Map<string | null, string[]>();
  for (const option of options) {
    if (option.posts.length > 0) continue;
    const reason = option.outcome === "stopped" ? null : (obstacleOf(option) ?? "");
    byReason.set(reason, [...(byReason.get(reason) ?? []), option.asked.name]);
  }
  return [...byReason].map(([reason, names]) => {
    const isOne = names.length === 1;
    if (reason === null) return `${listOf(names)} ${isOne ? "was" : "were"} not worked out`;
    return `${listOf(names)} ${isOne ? "has" : "have"} no balance${reason === "" ? "" : ` (${reason})`}`;
  });
}

function absolute(first: OptionAnswer, option: OptionAnswer, { value }: Beside): string {
  const people = value("peoplePerShift")!;
  const [perShift, perDay] = [value("outputPerShift"), value("outputPerDay")];
  const output = perShift ?? perDay;
  const period = perShift === null ? "day" : "shift";
  const units = output === null ? "" : `, output ${decimal(output, 0)} units a ${period}`;
  const miss = missWords(option);
  return `${option.asked.name}${demandWords(first, option)} needs ${peopleWords(people)} (${postsOf(option)})${units}${miss === "" ? "" : ` and ${miss}`}`;
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
  const isSame = (first.balance === null) === (option.balance === null);
  return isSame ? "" : `with ${postsOf(option)} in place of ${postsOf(first)}`;
}

function postsOf(option: OptionAnswer): string {
  if (option.balance === null) return countOf(kits(option)!, "table");
  const atBenches = benchPlaces(option)!;
  const line = countOf(stations(option)!, "station");
  return atBenches === 0 ? line : `${line} and ${countOf(atBenches, "bench place")}`;
}

function withWords(first: OptionAnswer, option: OptionAnswer, beside: Beside): string {
  const changes = listOf(changesOf(first, option, beside));
  return changes === "" ? "" : ` (${changes})`;
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
  const moves = value("moves");
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
    isAbove(moves) ? movesWords(option, moves!) : "",
  ].filter((each) => each !== "");
}

function against(first: OptionAnswer, option: OptionAnswer, beside: Beside): string {
  const [gained, cost] = [listOf(gainsOf(first, option, beside)), listOf(costsOf(first, option, beside))];
  const words = [gained, cost === "" ? "" : `costs ${cost}`].filter((each) => each !== "");
  return `${nameWords(first, option)} ${words.join(", and ")}${doubtWords(first, option)}`;
}

function doubtWords(first: OptionAnswer, option: OptionAnswer): string {
  const open = [first, option].filter(({ outcome }) => outcome !== "proved");
  const isOf = (cycle: boolean) => open.some(({ asked }) => (asked.option?.stations != null) === cycle);
  const words = [
    ...(isOf(false) ? ["fewest people not proved"] : []),
    ...(isOf(true) ? ["shortest cycle not proved"] : []),
  ];
  return words.length === 0 ? "" : ` (${words.join(", ")})`;
}

/** Which demand an option is for, where it is another than that of the first. */
function demandWords(first: OptionAnswer, option: OptionAnswer): string {
  if (demandBeside(option, first) === 0) return "";
  const { now, before, period } = wantedBeside(option, first)!;
  return `, for ${decimal(now, 1)} units ${perWords(period)} instead of ${decimal(before, 1)},`;
}
