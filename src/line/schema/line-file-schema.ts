import { z } from "zod";
import { readDemand } from "../../time/demand.js";
import { readDuration, TIME_UNITS, type TimeUnit } from "../../time/duration.js";
import { readShare } from "../../time/share.js";
import { readUnit, readWords } from "../text-values.js";
import { calendarSchema } from "./calendar-schema.js";
import { choice, notHonouredYet, text, textOrNumber } from "./leaf.js";
import { taskId, tasksSchema } from "./task-schema.js";

const KEYS_TO_COME = [
  "apart",
  "benches",
  "equipment",
  "fixed",
  "models",
  "options",
  "parts",
  "people",
  "policy",
  "sides",
  "skills",
  "stations",
  "together",
  "zones",
];

/**
 * The one description of a line file: its keys, what each means, how its text is read. Every value arrives as text,
 * since the file is read without guessing at types. `unit` is what a bare task time or handling is in.
 */
export function lineFileSchema(unit: TimeUnit | null) {
  return z
    .strictObject({
      line: textOrNumber(
        "blank",
        "What the line is called; the name of the file when left out.",
        readWords,
      ).optional(),
      unit: unitSchema.optional(),
      demand: textOrNumber(
        "demand",
        "Good units per hour (of available time), shift, day, week, month or year, such as 176 per day.",
        readDemand,
      ).optional(),
      calendar: calendarSchema().optional(),
      uptime: share("Share of the available time in which the line runs; 100 % when left out."),
      yield: share("Good units leaving / units started, after repair; 100 % when left out."),
      handling: textOrNumber(
        "handling",
        "Time per unit and station lost to moving and positioning; 0 when left out.",
        (typed) => readDuration(typed, unit),
      ).optional(),
      "plan-to": share("Share of the working time that planners load; 100 % when left out."),
      chains: z
        .array(
          z
            .array(taskId("A task of the chain."))
            .meta({ description: "Tasks in order of work, two or more." }),
        )
        .meta({ description: "Arrows between the neighbours of each chain, besides `after`." })
        .optional(),
      tasks: tasksSchema(unit),
    })
    .meta({ title: "linepoise line file", description: "An assembly line: its pace and its tasks." })
    .register(notHonouredYet, { keys: KEYS_TO_COME });
}

export type LineFileSchema = ReturnType<typeof lineFileSchema>;

/** On its own, because a file's unit must be known before its times are read. */
export const unitSchema = choice(
  "unit",
  "What a bare number means in task times and handling.",
  TIME_UNITS,
  readUnit,
);

function share(description: string) {
  return text("share", description, readShare).optional();
}
