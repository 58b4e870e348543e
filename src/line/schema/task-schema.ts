import { z } from "zod";
import { readDuration, type TimeUnit } from "../../time/duration.js";
import { readMass, readWords, readYesNo } from "../text-values.js";
import { readPeople, readQuantity } from "../whole-numbers.js";
import { flag, named, namedOneOrMore, notHonouredYet, text, textOrNumber } from "./leaf.js";

const KEYS_TO_COME = [
  "crew",
  "fixed",
  "fixed-to",
  "machine",
  "machine-time",
  "off-line",
  "parts",
  "places",
  "position",
  "posture",
  "readings",
  "setup",
  "side",
  "spread",
  "test",
  "tool",
  "tools",
  "unattended",
];

/** The tasks of a line by id; a bare time is in `unit`, and refused where that is null. */
export function tasksSchema(unit: TimeUnit | null) {
  const taskTime = (description: string) =>
    textOrNumber("task-time", description, (typed) => readDuration(typed, unit));
  return z
    .record(
      named("The id of the task, kept as typed."),
      z.union([taskTime("A bare time is enough."), taskSchema(taskTime)]),
    )
    .meta({ description: "The tasks by id: a bare time, or a map of what is known of the task." });
}

function taskSchema(taskTime: (description: string) => ReturnType<typeof textOrNumber<number>>) {
  return z
    .strictObject({
      name: textOrNumber("blank", "What the work is called.", readWords).optional(),
      time: taskTime(
        "Time of one piece: 40 s, 0.65 min, 65 cmin, 1000 tmu, mm:ss, or a bare number in `unit`.",
      ),
      quantity: textOrNumber(
        "quantity",
        "Pieces per unit, a whole number from 1; 1 when left out.",
        readQuantity,
      ).optional(),
      after: z
        .union([
          named("The task that must be done before.").register(notHonouredYet, { keys: ["wait", "task"] }),
          z.array(
            named("A task that must be done before.").register(notHonouredYet, { keys: ["wait", "task"] }),
          ),
        ])
        .meta({ description: "The task, or the list of tasks, that must be done before." })
        .optional(),
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
