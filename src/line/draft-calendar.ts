import type { Calendar, NamedTime, Shift } from "../time/calendar.js";
import { grossBetween } from "../time/read-calendar.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import type { LineKeys } from "./line-keys.js";
import { compareNaturally } from "./natural-order.js";
import type { RecordDraft, TextDraft } from "./read/draft.js";

type CalendarDraft = NonNullable<LineKeys["calendar"]>;
export type ShiftEntry = NonNullable<CalendarDraft["at"]["shifts"]>["entries"][number];
type ShiftKeys = NonNullable<ShiftEntry["value"]>["at"];
type TakenOff = NonNullable<ShiftKeys["breaks"]>;
type Times = Pick<NamedTime, "count" | "each">;

/** The calendar as far as it could be read: shifts without a length are left out. Null where there is none. */
export function draftCalendar(keys: LineKeys): Calendar | null {
  if (keys.calendar === undefined) return null;
  const { at } = keys.calendar;
  const shifts = shiftEntries(keys).flatMap((entry) => draftShift(entry) ?? []);
  return {
    shifts: shifts.sort((one, two) => compareNaturally(one.name, two.name)),
    daysPerWeek: at["days-per-week"]?.value ?? null,
    daysPerMonth: at["days-per-month"]?.value ?? null,
    daysPerYear: at["days-per-year"]?.value ?? null,
    weeksPerYear: at["weeks-per-year"]?.value ?? null,
  };
}

export function shiftEntries(keys: LineKeys): readonly ShiftEntry[] {
  return keys.calendar?.at.shifts?.entries ?? [];
}

/** How long a shift is; what is missing or too much where its clock times and its length do not say so. */
export function readGross({ value }: ShiftEntry): Reading<number> | null {
  if (value === undefined) return null;
  const { at, keys } = value;
  const given = (["from", "to", "length"] as const).filter((key) => keys[key] !== undefined);
  const expected = "give `from` and `to`, or `length`";
  if (given.length === 0) return refuse(`nothing says how long it is; ${expected}`);
  if (given.includes("length") && given.length > 1) {
    return refuse(`\`length\` and \`${given[0]}\` both say how long it is; ${expected}, not both`);
  }
  if (given.length === 1 && given[0] !== "length") {
    return refuse(`\`${given[0]}\` alone does not say how long it is; ${expected}`);
  }
  if (at.length !== undefined) return accept(at.length.value);
  return at.from && at.to ? grossBetween(at.from.text, at.to.text) : null;
}

function draftShift(entry: ShiftEntry): Shift | null {
  const gross = readGross(entry);
  if (!gross?.ok) return null;
  const { at } = entry.value!;
  return {
    name: entry.id,
    from: at.from?.text ?? null,
    to: at.to?.text ?? null,
    gross: gross.value,
    breaks: takenOff("breaks", at.breaks),
    stops: takenOff("stops", at.stops),
    changeovers: takenOff("changeovers", at.changeovers),
    overtime: at.overtime?.value ?? 0,
  };
}

/** In natural order of names, so that reordering the file changes nothing; one time for all bears the key's name. */
function takenOff(key: string, given: TakenOff | undefined): NamedTime[] {
  if (given === undefined) return [];
  if (given.kind === "text") return [named(key, given)];
  const entries = (given as RecordDraft<TextDraft<Times>>).entries;
  return entries
    .flatMap(({ id, value }) => (value === undefined ? [] : [named(id, value)]))
    .sort((one, two) => compareNaturally(one.name, two.name));
}

function named(name: string, { value }: TextDraft<Times>): NamedTime {
  return { name, count: value.count, each: value.each };
}
