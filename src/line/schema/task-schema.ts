import { z } from "zod";
import { readDuration, type TimeUnit } from "../../time/duration.js";
import { KINDS_OF_WORK, SIDES } from "../line.js";
import { readModelTime } from "../model-values.js";
import {
  choice,
  flag,
  named,
  namedOneOrMore,
  notHonouredYet,
  type TimeLeaf,
  text,
  textOrNumber,
} from "../read/leaf.js";
import { readChoice, readMass, readWords, readYesNo } from "../text-values.js";
import { readEvery, readMoveCost, readPeople, readQuantity, readStationsBetween } from "../whole-numbers.js";
import { testSchema } from "./test-schema.js";

const KEYS_TO_COME = [
  "crew",
  "fixed",
  "fixed-to",
  "machine",
  "off-line",
  "parts",
  "places",
  "position",
  "posture",
  "readings",
  "setup",
  "spread",
  "tool",
  "tools",
  "unattended",
];

/** The tasks of a line by id; a bare time is in `unit`, and refused where that is null. */
export function tasksSchema(unit: TimeUnit | null) {
  const time: TimeLeaf = (rule, description) =>
    textOrNumber(rule, description, (typed) => readDuration(typed, unit));
  return z
    .record(
      named("The id of the task, kept as typed."),
      z.union([time("task-time", "A bare time is enough."), taskSchema(time, unit)]),
    )
    .meta({ description: "The tasks by id: a bare time, or a map of what is known of the task." });
}

/** An arrow with what lies between its tasks. */
function afterSchema(time: TimeLeaf) {
  return z
    .strictObject({
      task: named("The task that must be done before."),
      wait: time(
        "other-time",
        "Time in which a unit only waits, such as for glue; the tasks never share a station then.",
      ).optional(),
      model: named("The only model that asks for it; one order serves all models.").optional(),
      stations: textOrNumber(
        "count",
        "At least so many stations from that task to this one, a whole number from 1; 1 where it waits.",
        readStationsBetween,
      ).optional(),
    })
    .meta({ description: "A task that must be done before, with what lies between." });
}

function taskSchema(time: TimeLeaf, unit: TimeUnit | null) {
  return z
    .strictObject({
      name: textOrNumber("blank", "What the work is called.", readWords).optional(),
      time: z
        .union([
          time("task-time", "Time of one piece, for every model."),
          z.record(
            named("A model."),
            textOrNumber(
              "task-time",
              'Its time of one piece, or "-" where it does not have the task.',
              (typed) => readModelTime(typed, unit),
            ),
          ),
        ])
        .meta({
          description:
            'Time of one piece: 40 s, 0.65 min, 65 cmin, 1000 tmu, mm:ss, or a bare number in `unit`; or a map with the time of every model, "-" where a model does not have the task.',
        }),
      quantity: textOrNumber(
        "quantity",
        "Pieces per unit, a whole number from 1; 1 when left out.",
        readQuantity,
      ).optional(),
      after: z
        .union([
          named("The task that must be done before."),
          afterSchema(time),
          z.array(z.union([named("A task that must be done before."), afterSchema(time)])),
        ])
        .meta({
          description:
            "The task, or the list of tasks, that must be done before; each may be a map that says what lies between.",
        })
        .optional(),
      walking: time(
        "other-time",
        "Walking to the place of the work and back, per unit; counts like task time, 0 when left out.",
      ).optional(),
      "machine-time": time(
        "other-time",
        "What a machine runs by itself once the hand work is done, per piece; nobody waits for it.",
      ).optional(),
      "move-cost": textOrNumber(
        "count",
        "What it costs to move the task to another station when the line is rebalanced, in whole points from 1; by its skills, or else 1, when left out.",
        readMoveCost,
      ).optional(),
      every: textOrNumber(
        "count",
        "The task is done on every so many units only, a whole number from 1; 1 when left out.",
        readEvery,
      ).optional(),
      kind: choice(
        "choice",
        "What the work does for the customer: value-adding, necessary or waste.",
        KINDS_OF_WORK,
        readChoice("a kind of work", KINDS_OF_WORK),
      ).optional(),
      side: choice(
        "choice",
        "The side of a wide product: left, right or either; where any task has one, stations have two sides.",
        SIDES,
        readChoice("a side", SIDES),
      ).optional(),
      test: testSchema(time).optional(),
      people: textOrNumber(
        "count",
        "People together at the task, a whole number from 1; 1 when left out.",
        readPeople,
      ).optional(),
      skill: namedOneOrMore("The skill that the work asks for, or a list of skills.").optional(),
      equipment: namedOneOrMore("The equipment that the work needs, or a list.").optional(),
      zone: named("The zone the work belongs to; tasks of two zones never share a station.").optional(),
      station: namedOneOrMore(
        "The only station that may hold the task, or a list; without `stations`, S1, S2, ... number them.",
      ).optional(),
      "not-before": named("The first station that may hold the task.").optional(),
      "not-after": named("The last station that may hold the task.").optional(),
      "on-base": flag(
        "yes-no",
        "Whether the work is done on the base unit; false when left out.",
        readYesNo,
      ).optional(),
      caution: textOrNumber(
        "blank",
        "Words of caution, printed wherever the task is handed to people.",
        readWords,
      ).optional(),
      lift: text("mass", "Mass lifted by hand, such as 27 kg; shown, never judged.", readMass).optional(),
    })
    .meta({ description: "A task with what is known of it." })
    .register(notHonouredYet, { keys: KEYS_TO_COME });
}
