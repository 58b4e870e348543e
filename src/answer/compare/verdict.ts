import type { Finding } from "../../findings/finding.js";
import { compare, type Ratio, ZERO } from "../../time/ratio.js";
import type { TimeUnit } from "../../time/units.js";
import { benchPlaces, kits, stations } from "./figures.js";
import { type Cost, costsOf, type Gain, gainsOf, movesTo, onceOf } from "./gains-and-costs.js";
import type { OptionAnswer, WhereLinePays } from "./option-answer.js";
import { type Beside, besideOf, isOther, type RowKey, type RowOfFigures } from "./rows.js";
import { type Shortfall, shortfallOf } from "./shortfall.js";
import {
  demandBeside,
  type HoursBeside,
  hoursBeside,
  isSetAside,
  shiftsBeside,
  type WantedBeside,
  wantedBeside,
} from "./terms.js";

/** What the numbers of a comparison say: a clause for each option beside the first, and where a line pays against tables. */
export interface Verdict {
  readonly clauses: readonly VerdictClause[];
  readonly pays: readonly LinePays[];
}

/** Where people of an option work. */
export type PostCounts =
  | { readonly kind: "tables"; readonly tables: number }
  | { readonly kind: "line"; readonly stations: number; readonly benchPlaces: number };

/** An option by its name, with what it is asked for and does in place of the first. */
export interface OptionTerms {
  readonly name: string;
  readonly hours: HoursBeside;
  /** Tables in place of stations, or the other way round; null where both have the same. */
  readonly inPlace: { readonly posts: PostCounts; readonly of: PostCounts } | null;
  /** Null where its demand is that of the first. */
  readonly demand: WantedBeside | null;
  /** What is not proved of it or of the first: so the difference is not certain. */
  readonly doubts: readonly ("fewest people" | "shortest cycle")[];
}

/** A shortfall with the unit that times are written in. */
export interface Miss extends Shortfall {
  readonly unit: TimeUnit | null;
}

/** Something that differs, as it is beside as it was, with no word for better or worse. */
export type Change =
  | {
      readonly kind: Extract<
        RowKey,
        "peoplePerShift" | "peoplePerDay" | "stations" | "benchPlaces" | "stock" | "overtimeHours"
      >;
      readonly now: Ratio;
      readonly before: Ratio;
    }
  | {
      readonly kind: "costPerUnit";
      readonly now: Ratio;
      readonly before: Ratio;
      readonly currency: string | null;
    }
  | Extract<Cost, { kind: "moves" | "once" }>;

/**
 * What is said of an option. What it saves by missing its demand is no gain, and what it needs to make up what the first misses no
 * cost.
 */
export type VerdictClause =
  /** It changes nothing but what a given line cycle sets aside. */
  | { readonly kind: "set-aside"; readonly name: string }
  | { readonly kind: "not-worked-out"; readonly name: string }
  /** The reason is what its balance found first. */
  | { readonly kind: "no-balance"; readonly name: string; readonly reason: Finding | null }
  /** What it needs by itself, where nothing stands beside it. */
  | {
      readonly kind: "needs";
      readonly terms: OptionTerms;
      readonly people: Ratio;
      readonly posts: PostCounts;
      readonly output: { readonly units: Ratio; readonly period: "shift" | "day" } | null;
      readonly miss: Miss | null;
    }
  /** The first option, where it makes less than it is asked for. */
  | { readonly kind: "first-misses"; readonly name: string; readonly miss: Miss }
  /** It makes less than it is asked for. */
  | {
      readonly kind: "misses";
      readonly terms: OptionTerms;
      readonly miss: Miss;
      readonly changes: readonly Change[];
    }
  /** It makes what it is asked for, and the first does not. */
  | {
      readonly kind: "meets";
      readonly terms: OptionTerms;
      readonly what: "demand" | "line cycle";
      readonly changes: readonly Change[];
    }
  /** It is for fewer units, or for more, than the first. */
  | {
      readonly kind: "other-demand";
      readonly terms: OptionTerms;
      readonly wanted: WantedBeside;
      readonly isFewer: boolean;
      readonly changes: readonly Change[];
    }
  /** The same demand, met by both. */
  | {
      readonly kind: "against";
      readonly terms: OptionTerms;
      readonly gains: readonly Gain[];
      readonly costs: readonly Cost[];
    };

/** From which demand on a line needs fewer people than tables, for all options at tables that have it alike. */
export interface LinePays {
  readonly pays: WhereLinePays;
  readonly names: readonly string[];
  /** Somebody repairs beside the line, and is not counted. */
  readonly hasRepairs: boolean;
}

export function verdictOf(options: readonly OptionAnswer[], rows: readonly RowOfFigures[]): Verdict {
  return { clauses: clausesOf(options, rows), pays: paysOf(options) };
}

function clausesOf(options: readonly OptionAnswer[], rows: readonly RowOfFigures[]): VerdictClause[] {
  const [first, ...others] = options;
  if (first === undefined) return [];
  const planned = others.filter((option) => option.posts.length > 0 && !isSetAside(option));
  const withPlan = planned.toSorted((one, two) => rankOf(one, two, options, rows));
  const none = [...others.flatMap(setAside), ...options.flatMap(planless)];
  const beside = (option: OptionAnswer) => besideOf(rows, options.indexOf(option));
  if (first.posts.length === 0) return [...none, ...withPlan.map((each) => needs(first, each, beside(each)))];
  if (others.length === 0) return [needs(first, first, beside(first))];
  const firstMiss = missOf(first);
  const clauses = withPlan.map((option): VerdictClause => {
    const miss = missOf(option);
    const common = { terms: termsOf(first, option), changes: changesOf(first, option, beside(option)) };
    if (miss !== null) return { kind: "misses", ...common, miss };
    if (firstMiss !== null)
      return { kind: "meets", ...common, what: option.asked.takt === null ? "line cycle" : "demand" };
    const demand = demandBeside(option, first);
    if (demand !== 0)
      return { kind: "other-demand", ...common, wanted: wantedBeside(option, first)!, isFewer: demand < 0 };
    const [gains, costs] = [gainsOf(first, option, beside(option)), costsOf(first, option, beside(option))];
    return { kind: "against", terms: common.terms, gains, costs };
  });
  const missed: VerdictClause[] =
    firstMiss === null ? [] : [{ kind: "first-misses", name: first.asked.name, miss: firstMiss }];
  const last = (kind: VerdictClause["kind"]) => ["other-demand", "misses"].indexOf(kind);
  return [...missed, ...clauses.toSorted((one, two) => last(one.kind) - last(two.kind)), ...none];
}

/** Those with fewer people first, then those that cost less, per unit and then once; the others as they come. */
function rankOf(
  one: OptionAnswer,
  two: OptionAnswer,
  options: readonly OptionAnswer[],
  rows: readonly RowOfFigures[],
): number {
  const [first, second] = [one, two].map((each) => besideOf(rows, options.indexOf(each)));
  const keys = ["peoplePerDay", "peoplePerShift", "costPerUnit"] as const;
  const differ = keys
    .map((key) => [first!.value(key), second!.value(key)] as const)
    .map(([own, other]) => (own === null || other === null ? 0 : compare(own, other)));
  return differ.find((each) => each !== 0) ?? compare(onceFor(one), onceFor(two));
}

const onceFor = ({ asked }: OptionAnswer): Ratio => asked.option?.once?.amount ?? ZERO;

function setAside(option: OptionAnswer): VerdictClause[] {
  const isAside = option.posts.length > 0 && isSetAside(option);
  return isAside ? [{ kind: "set-aside", name: option.asked.name }] : [];
}

function planless(option: OptionAnswer): VerdictClause[] {
  const { name } = option.asked;
  if (option.posts.length > 0) return [];
  return option.outcome === "stopped"
    ? [{ kind: "not-worked-out", name }]
    : [{ kind: "no-balance", name, reason: obstacleOf(option) }];
}

/** The first reason why an option has no plan, which the verdict names; null where it has one, and where it was not worked out. */
export function obstacleOf({ outcome, posts, findings }: OptionAnswer): Finding | null {
  if (outcome === "stopped" || posts.length > 0) return null;
  return findings.find(({ severity }) => severity === "error") ?? null;
}

function needs(first: OptionAnswer, option: OptionAnswer, { value }: Beside): VerdictClause {
  const [perShift, perDay] = [value("outputPerShift"), value("outputPerDay")];
  const units = perShift ?? perDay;
  return {
    kind: "needs",
    terms: termsOf(first, option),
    people: value("peoplePerShift")!,
    posts: postsOf(option),
    output: units === null ? null : { units, period: perShift === null ? "day" : "shift" },
    miss: missOf(option),
  };
}

function missOf(option: OptionAnswer): Miss | null {
  const shortfall = shortfallOf(option);
  return shortfall && { ...shortfall, unit: option.asked.line.unit };
}

function termsOf(first: OptionAnswer, option: OptionAnswer): OptionTerms {
  const isSame = (first.balance === null) === (option.balance === null);
  return {
    name: option.asked.name,
    hours: hoursBeside(option, first),
    inPlace: isSame ? null : { posts: postsOf(option), of: postsOf(first) },
    demand: demandBeside(option, first) === 0 ? null : wantedBeside(option, first),
    doubts: doubtsOf(first, option),
  };
}

function postsOf(option: OptionAnswer): PostCounts {
  return option.balance === null
    ? { kind: "tables", tables: kits(option)! }
    : { kind: "line", stations: stations(option)!, benchPlaces: benchPlaces(option)! };
}

function doubtsOf(first: OptionAnswer, option: OptionAnswer): OptionTerms["doubts"] {
  const open = [first, option].filter(({ outcome }) => outcome !== "proved");
  const isOf = (cycle: boolean) => open.some(({ asked }) => (asked.option?.stations != null) === cycle);
  return [
    ...(isOf(false) ? ["fewest people" as const] : []),
    ...(isOf(true) ? ["shortest cycle" as const] : []),
  ];
}

function changesOf(first: OptionAnswer, option: OptionAnswer, beside: Beside): Change[] {
  const { value, first: before, change } = beside;
  const differs = <Kind extends RowKey>(kind: Kind) =>
    isOther(change(kind)) ? [{ kind, now: value(kind)!, before: before(kind)! }] : [];
  const [perShift, perDay] = [differs("peoplePerShift"), differs("peoplePerDay")];
  const isByDay = perShift.length === 0 || (perDay.length > 0 && shiftsBeside(option, first) !== 0);
  const currency = option.asked.line.rates?.currency ?? null;
  return [
    ...(isByDay ? perDay : perShift),
    ...differs("stations"),
    ...differs("benchPlaces"),
    ...differs("stock"),
    ...differs("overtimeHours"),
    ...differs("costPerUnit").map((each) => ({ ...each, currency })),
    ...onceOf(first, option),
    ...movesTo(option, beside),
  ];
}

function paysOf(options: readonly OptionAnswer[]): LinePays[] {
  const alike = new Map<string, { readonly pays: WhereLinePays; readonly names: string[] }>();
  for (const { asked, pays } of options) {
    if (pays === null) continue;
    const key = JSON.stringify(pays);
    alike.set(key, { pays, names: [...(alike.get(key)?.names ?? []), asked.name] });
  }
  const hasRepairs = options.some(({ repairPeople }) => repairPeople > 0);
  return [...alike.values()].map((each) => ({ ...each, hasRepairs }));
}
