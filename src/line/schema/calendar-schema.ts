import { z } from "zod";
import type { CalendarCount } from "../../time/calendar.js";
import { readCalendarCount, readClock, readNamedTime, readShiftLength } from "../../time/read-calendar.js";
import { accept, type Reading } from "../../time/reading.js";
import { readId } from "../ids.js";
import { text, textOrNumber } from "../read/leaf.js";

/** When the line works. Times of a calendar carry their own unit, since minutes and hours mix there. */
export function calendarSchema() {
  return z
    .strictObject({
      shifts: z
        .record(text("id", "The name of the shift.", readId), shiftSchema())
        .meta({ description: "The shifts of a working day by name." }),
      "days-per-week": count("days-per-week", "Working days in a week, at most 7."),
      "days-per-month": count("days-per-month", "Working days in a month, such as 21.67."),
      "days-per-year": count("days-per-year", "Working days in a year."),
      "weeks-per-year": count("weeks-per-year", "Working weeks in a year."),
    })
    .meta({
      description: "When the line works; needed where demand is per shift, day, week, month or year.",
    });
}

function shiftSchema() {
  return z
    .strictObject({
      from: clock("Start of the shift, such as 06:00; with `to`, in place of `length`."),
      to: clock("End of the shift, such as 14:00; over midnight where it is before `from`."),
      length: text(
        "calendar-time",
        "Length of the shift, such as 8 h; in place of `from` and `to`.",
        readShiftLength,
      ).optional(),
      breaks: takenOff("break", "Breaks of the shift, all together or by name."),
      stops: takenOff("stop", "Planned stops of the shift, all together or by name."),
      changeovers: takenOff(
        "changeover",
        "Changeovers of the shift, all together or by name, such as 3 x 10 min.",
      ),
      overtime: textOrNumber(
        "calendar-time",
        "Time worked beyond the shift, such as 30 min; 0 when left out.",
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

function takenOff(name: string, description: string) {
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
