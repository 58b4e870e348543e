import * as z from "zod";
import { compareNaturally } from "../../findings/natural-order.js";
import { unseenCharacters } from "../../findings/visible-text.js";
import { availableTime, availableTimeOf } from "../../time/calendar.js";
import { NUMBER, readNumber } from "../../time/exact-number.js";
import { explainNumberSlip } from "../../time/number-slips.js";
import { quoted } from "../../time/quoted.js";
import { divide, floor, leastCommonMultiple, multiply, type Ratio, ratio } from "../../time/ratio.js";
import { accept, type Reading, refuse } from "../../time/reading.js";
import { idKey } from "../ids.js";
import {
  type FloorStation,
  LIMITED,
  type Limit,
  type Limited,
  type Line,
  type Task,
  type Use,
} from "../line.js";
import type { ObjectDraft } from "../read/draft.js";
import { choice, named, textOrNumber } from "../read/leaf.js";
import { readChoice } from "../text-values.js";
import { visitsPerGoodUnit } from "../visits.js";

/** What a station or a person may be given at the most, at the line or at one station. */
export const limitKeys = (description: string) => ({
  limits: z
    .record(
      named("The name of the limit."),
      z
        .strictObject({
          per: choice(
            "choice",
            "Who has the limit: station (each parallel workplace has the whole) or person (the people at a workplace share it). With -and-shift, a use counts as often as it is done in the longest shift, which parallel workplaces share.",
            LIMITED,
            readChoice("what a limit is for", LIMITED),
          ),
          most: textOrNumber(
            "amount",
            "The most, above 0, in any unit that you name, such as 1.2 m.",
            readMost,
          ),
        })
        .meta({ description: "Whom a limit is for, and the most." }),
    )
    .meta({ description })
    .optional(),
});

/** What a task takes of limits. */
export const useKeys = () => ({
  uses: z
    .record(
      named("A limit of `limits`."),
      textOrNumber("amount", "How much of it the task takes, in the unit of the limit.", readAmount),
    )
    .meta({
      description:
        "How much the task takes of each limit, such as {shelf: 0.3 m}. Per shift it counts each time that the task is done.",
    })
    .optional(),
});

/** A number in a unit that the user names; no unit is a unit too, as of pieces. */
export interface Amount {
  readonly value: Ratio;
  readonly unit: string;
}

/** A unit begins with no digit and with no sign of a number that was cut off. */
const AMOUNT = new RegExp(`^(${NUMBER})\\s*(?![\\d.,+/⁄-])(\\S.{0,39})?$`, "u");

function readAmount(text: string): Reading<Amount> {
  const trimmed = text.trim();
  const expected = "a number and its unit are expected, such as 0.3 m";
  if (trimmed === "") return refuse(`an amount is missing (blank is never 0): ${expected}`);
  const [, number = "", unit = ""] = AMOUNT.exec(trimmed) ?? [];
  const value = readNumber(number);
  if (value === null || unseenCharacters(unit).length > 0)
    return refuse(`${quoted(trimmed)} is not an amount: ${explainNumberSlip(trimmed) ?? expected}`);
  return accept({ value, unit: unit.normalize("NFC") });
}

function readMost(text: string): Reading<Amount> {
  const read = readAmount(text);
  if (!read.ok || read.value.value.num > 0n) return read;
  return refuse(`${quoted(text.trim())} would allow nothing: the most is above 0`);
}

type LimitKeys = ObjectDraft<ReturnType<typeof limitKeys>>["at"];
type UseKeys = ObjectDraft<ReturnType<typeof useKeys>>["at"];

/** Where limits stand and who uses them. */
interface LimitsInUse {
  readonly keys: LimitKeys;
  readonly floor: { readonly stations: readonly { readonly id: string; readonly keys: LimitKeys }[] };
  readonly tasks: readonly { readonly keys: UseKeys }[];
}

/** The line with its limits and with what tasks take of them, of a draft without errors. */
export function withLimits(line: Line, { keys, floor: { stations }, tasks }: LimitsInUse): Line {
  const spelt = new Map<string, string>();
  for (const { limits } of [keys, ...stations.map((each) => each.keys)]) {
    for (const { id } of limits?.entries ?? []) if (!spelt.has(idKey(id))) spelt.set(idKey(id), id);
  }
  const limitsOf = ({ limits }: LimitKeys): Limit[] =>
    (limits?.entries ?? [])
      .map(({ id, value }) => {
        const { per, most } = value!.at;
        return {
          name: spelt.get(idKey(id))!,
          per: per!.value,
          most: most!.value.value,
          unit: most!.value.unit,
        };
      })
      .sort((one, two) => compareNaturally(one.name, two.name));
  const usesOf = ({ uses }: UseKeys): Use[] =>
    (uses?.entries ?? [])
      .map(({ id, value }) => ({ limit: spelt.get(idKey(id))!, amount: value!.value.value }))
      .sort((one, two) => compareNaturally(one.limit, two.limit));
  return {
    ...line,
    limits: limitsOf(keys),
    floor: line.floor.map((station, at) => ({ ...station, limits: limitsOf(stations[at]!.keys) })),
    tasks: line.tasks.map((task, at) => ({ ...task, uses: usesOf(tasks[at]!.keys) })),
  };
}

export const isPerShift = (per: Limited): boolean => per.endsWith("-and-shift");
export const isPerPerson = (per: Limited): boolean => per.startsWith("person");

/** The limits of a station of the floor, null for one behind it: its own in place of those of the line with the same name. */
export function limitsAt(
  line: Pick<Line, "limits">,
  station: Pick<FloorStation, "limits"> | null,
): readonly Limit[] {
  const own = station?.limits ?? [];
  const others = line.limits.filter(({ name }) => own.every((each) => each.name !== name));
  return [...others, ...own].sort((one, two) => compareNaturally(one.name, two.name));
}

/** Names of limits per shift, at the line or at a station: those that a given line cycle sets aside. */
export function limitsPerShift({ limits, floor: stations }: Pick<Line, "limits" | "floor">): string[] {
  const all = [...limits, ...stations.flatMap((each) => each.limits)].filter(({ per }) => isPerShift(per));
  return [...new Set(all.map(({ name }) => name))].sort(compareNaturally);
}

/** The line without its limits per shift, for paces that set demand and calendar aside. */
export function withoutShiftLimits(line: Line): Line {
  const kept = (limits: readonly Limit[]) => limits.filter(({ per }) => !isPerShift(per));
  return {
    ...line,
    limits: kept(line.limits),
    floor: line.floor.map((station) => ({ ...station, limits: kept(station.limits) })),
  };
}

/** Units started in the longest shift = its available time / takt / yield of the line; null without demand or calendar. */
export function unitsPerShift({
  demand,
  calendar,
  yield: good,
}: Pick<Line, "demand" | "calendar" | "yield">): Ratio | null {
  if (demand === null || calendar === null) return null;
  const period = availableTimeOf(calendar, demand.period);
  if (!period.ok || period.value.num <= 0n) return null;
  const longest = Math.max(...calendar.shifts.map(availableTime));
  return divide(divide(multiply(demand.units, ratio(longest)), period.value), good);
}

/**
 * What a task takes of a limit, in the unit of the limit: its use, per shift times how often it is done for a unit and times the units
 * started in the longest shift. Null where it takes none, or where the line does not say what a shift makes.
 */
export function amountOf(line: Line, task: Task, { name, per }: Limit): Ratio | null {
  const use = task.uses.find(({ limit }) => limit === name);
  if (use === undefined) return null;
  if (!isPerShift(per)) return use.amount;
  const units = unitsPerShift(line);
  return units && multiply(use.amount, multiply(visitsPerGoodUnit(line, task), units));
}

/**
 * One limit in whole numbers, for a search. A station may hold tasks while their uses together are at most
 * `most` x (places, where it is per place) x (people at a place, where it is per person).
 */
export interface LimitRow {
  readonly isPerPlace: boolean;
  readonly isPerPerson: boolean;
  /** By task. */
  readonly uses: readonly bigint[];
  /** By number of the station on the floor, the last for any behind it; null where it has no such limit. */
  readonly most: readonly (bigint | null)[];
}

/** Every limit that some task uses, as whole numbers of a part that is common to all its amounts: exact, whatever the units are. */
export function limitRows(line: Line): LimitRow[] {
  const stations = [...line.floor, null].map((station) => limitsAt(line, station));
  const kinds = new Map(stations.flat().map((limit) => [`${limit.per} ${limit.name}`, limit]));
  return [...kinds.values()].flatMap((limit) => {
    const amounts = line.tasks.map((task) => amountOf(line, task, limit));
    if (amounts.every((each) => each === null || each.num === 0n)) return [];
    const most = stations.map(
      (own) => own.find(({ name, per }) => name === limit.name && per === limit.per)?.most,
    );
    const parts = [...amounts, ...most].reduce((all, each) => leastCommonMultiple(all, each?.den ?? 1n), 1n);
    const whole = (value: Ratio) => floor(multiply(value, ratio(parts)));
    return [
      {
        isPerPlace: isPerShift(limit.per),
        isPerPerson: isPerPerson(limit.per),
        uses: amounts.map((each) => (each === null ? 0n : whole(each))),
        most: most.map((each) => (each === undefined ? null : whole(each))),
      },
    ];
  });
}
