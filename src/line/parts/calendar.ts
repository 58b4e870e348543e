import * as z from "zod";
import { compareNaturally } from "../../findings/natural-order.js";
import type { Calendar, CalendarCount, NamedTime, Shift } from "../../time/calendar.js";
import {
  grossBetween,
  readCalendarCount,
  readClock,
  readNamedTime,
  readShiftLength,
} from "../../time/read-calendar.js";
import { accept, type Reading, refuse } from "../../time/reading.js";
import { readId } from "../ids.js";
import type { Draft, RecordDraft, TextDraft } from "../read/draft.js";
import { text, textOrNumber } from "../read/leaf.js";

/** When the line works. Times of a calendar carry their own unit, since minutes and hours mix there. */
export function calendarSchema() {
  return z
    .strictObject({
      shifts: z
        .record(text("id", "The name of the shift.", readId), shiftSchema())
        .meta({ description: "The shifts of a working day, by name." }),
      "days-per-week": count("days-per-week", "Working days in a week, at most 7."),
      "days-per-month": count("days-per-month", "Working days in a month, such as 21.67."),
      "days-per-year": count("days-per-year", "Working days in a year."),
      "weeks-per-year": count("weeks-per-year", "Working weeks in a year."),
    })
    .meta({
      description: "When the line works. It is needed where demand is per shift, day, week, month or year.",
    });
}

function shiftSchema() {
  return z
    .strictObject({
      from: clock("Start of the shift, such as 06:00. With `to`, in place of `length`."),
      to: clock("End of the shift, such as 14:00. Earlier than `from` means the next day."),
      length: text(
        "calendar-time",
        "Length of the shift, such as 8 h, in place of `from` and `to`.",
        readShiftLength,
      ).optional(),
      breaks: takenOffSchema("break", "Breaks of the shift: one time for all, or a time for each by name."),
      stops: takenOffSchema(
        "stop",
        "Planned stops of the shift: one time for all, or a time for each by name.",
      ),
      changeovers: takenOffSchema(
        "changeover",
        "Changeovers of the shift, such as 3 x 10 min: one time for all, or each by name.",
      ),
      overtime: textOrNumber(
        "calendar-time",
        "Extra time worked on top of the shift, such as 30 min. Default: 0.",
        readShiftLength,
      ).optional(),
    })
    .meta({ description: "A shift by its clock times or its length, with what is taken off it." });
}

/** The text is kept beside the value, because reports show clock times as typed. */
function clock(description: string) {
  return text("clock", description, readClock).optional();
}

function count(key: CalendarCount["key"], description: string) {
  return textOrNumber("calendar-count", description, (typed) => readCalendarCount(key, typed)).optional();
}

function takenOffSchema(name: string, description: string) {
  const times = (words: string) => textOrNumber("calendar-time", words, readTimes);
  const byName = z.record(
    text("id", `The name of the ${name}.`, readId),
    times("A time, such as 15 min or 3 x 10 min."),
  );
  return z
    .union([times("One time for all of them, such as 45 min."), byName])
    .meta({ description })
    .optional();
}

/** How often and how long; whoever builds the calendar knows the name. */
function readTimes(typed: string): Reading<{ count: number; each: number }> {
  const reading = readNamedTime("", typed);
  return reading.ok ? accept({ count: reading.value.count, each: reading.value.each }) : reading;
}

type CalendarDraft = Draft<ReturnType<typeof calendarSchema>>;

/** The keys among which the calendar is. */
interface CalendarKeys {
  readonly calendar?: CalendarDraft;
}

type ShiftEntry = NonNullable<CalendarDraft["at"]["shifts"]>["entries"][number];
type ShiftKeys = NonNullable<ShiftEntry["value"]>["at"];
type TakenOff = NonNullable<ShiftKeys["breaks"]>;
type Times = Pick<NamedTime, "count" | "each">;

/** The calendar as far as it could be read: shifts without a length are left out. Null where there is none. */
export function draftCalendar(keys: CalendarKeys): Calendar | null {
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

export function shiftEntries(keys: CalendarKeys): readonly ShiftEntry[] {
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
