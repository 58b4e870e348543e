import { z } from "zod";
import { readDuration, type TimeUnit } from "../../time/duration.js";
import { readId } from "../ids.js";
import { readMass, readQuantity, readWords, readYesNo } from "../text-values.js";
import { flag, notHonouredYet, text, textOrNumber } from "./leaf.js";

const KEYS_TO_COME = [
  "apart",
  "crew",
  "equipment",
  "fixed",
  "fixed-to",
  "machine",
  "machine-time",
  "models",
  "off-line",
  "parts",
  "people",
  "places",
  "position",
  "posture",
  "readings",
  "setup",
  "share",
  "side",
  "sides",
  "skill",
  "skills",
  "spread",
  "station",
  "test",
  "times",
  "together",
  "tool",
  "tools",
  "unattended",
  "wait",
  "zone",
  "zones",
];

/** A task id where it is named: in `after` and `chains`. */
export const taskId = (description: string) =>
  textOrNumber("id", description, readId).register(notHonouredYet, { keys: ["wait", "task"] });

/** The tasks of a line by id; a bare time is in `unit`, and refused where that is null. */
export function tasksSchema(unit: TimeUnit | null) {
  const taskTime = (description: string) =>
    textOrNumber("task-time", description, (typed) => readDuration(typed, unit));
  return z
    .record(
      text("id", "The id of the task, kept as typed.", readId),
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
          taskId("The task that must be done before."),
          z.array(taskId("A task that must be done before.")),
        ])
        .meta({ description: "The task, or the list of tasks, that must be done before." })
        .optional(),
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
