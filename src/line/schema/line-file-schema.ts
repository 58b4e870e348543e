import { z } from "zod";
import { readDemand } from "../../time/demand.js";
import { readDuration, TIME_UNITS, type TimeUnit } from "../../time/duration.js";
import { readShare } from "../../time/share.js";
import { choice, named, namedOneOrMore, notHonouredYet, text, textOrNumber } from "../read/leaf.js";
import { readUnit, readWords } from "../text-values.js";
import { readEquipmentCount, readMoveCost, readPlaces } from "../whole-numbers.js";
import { benchesSchema } from "./bench-schema.js";
import { calendarSchema } from "./calendar-schema.js";
import { modelKeys } from "./model-schema.js";
import { optionsSchema, ratesSchema } from "./option-schema.js";
import { policySchema } from "./policy-schema.js";
import { staffingKeys } from "./staffing-schema.js";
import { stationsSchema } from "./station-schema.js";
import { supplySchema } from "./supply-schema.js";
import { tasksSchema } from "./task-schema.js";

const KEYS_TO_COME = ["fixed", "models", "off-line", "parts", "readings", "setup"];

/**
 * The one description of a line file: its keys, what each means, how its text is read. Every value arrives as text,
 * since the file is read without guessing at types. `unit` is what a bare task time or handling is in.
 */
export function lineFileSchema(unit: TimeUnit | null): LineFileSchema {
  const schema = schemas.get(unit) ?? describeLineFile(unit);
  schemas.set(unit, schema);
  return schema;
}

/** Made once for each unit: describing takes longer than reading a small file. */
const schemas = new Map<TimeUnit | null, LineFileSchema>();

function describeLineFile(unit: TimeUnit | null) {
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
      stations: stationsSchema().optional(),
      "max-places": textOrNumber(
        "count",
        "The most parallel places of a station; 1 when left out.",
        readPlaces,
      ).optional(),
      equipment: z
        .record(
          named("The name of the equipment."),
          textOrNumber("count", "How many of it exist, a whole number from 1.", readEquipmentCount),
        )
        .meta({
          description:
            "How many of each equipment exist, by name; it lists all that tasks name. Without it nothing is counted.",
        })
        .optional(),
      "move-costs": z
        .record(
          named("The name of a skill."),
          textOrNumber(
            "count",
            "What the move of a task with the skill costs, in whole points from 1.",
            readMoveCost,
          ),
        )
        .meta({ description: "What it costs to move tasks, by skill, where the task itself does not say." })
        .optional(),
      people: z
        .record(named("The name of a person, or of a post."), namedOneOrMore("The skills, one or a list."))
        .meta({
          description:
            "The people with skills, by name; each works at one place, and one person there has all of the skills that its tasks need, also where several work together or on two sides.",
        })
        .optional(),
      chains: groups(
        "Arrows between the neighbours of each chain, besides `after`.",
        "Tasks in order of work, two or more.",
      ),
      together: groups(
        "Tasks that share a station, whichever it is.",
        "Two tasks or more that stay together.",
      ),
      apart: groups("Tasks that never share a station.", "Two tasks or more, each at a station of its own."),
      ...modelKeys(),
      benches: benchesSchema(unit).optional(),
      ...staffingKeys(),
      options: optionsSchema(unit).optional(),
      rates: ratesSchema().optional(),
      policy: policySchema().optional(),
      supply: supplySchema().optional(),
      tasks: tasksSchema(unit),
    })
    .meta({ title: "linepoise line file", description: "An assembly line: its pace and its tasks." })
    .register(notHonouredYet, { keys: KEYS_TO_COME });
}

export type LineFileSchema = ReturnType<typeof describeLineFile>;

/** On its own, because a file's unit must be known before its times are read. */
export const unitSchema = choice(
  "unit",
  "What a bare number means in the times of tasks and in handling.",
  TIME_UNITS,
  readUnit,
);

function share(description: string) {
  return text("share", description, readShare).optional();
}

function groups(description: string, each: string) {
  return z
    .array(z.array(named("A task.")).meta({ description: each }))
    .meta({ description })
    .optional();
}
