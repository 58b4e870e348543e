import * as z from "zod";
import { readHours } from "../../time/read-calendar.js";
import type { Micros } from "../../time/units.js";
import type { Line } from "../line.js";
import type { ObjectDraft, TextDraft } from "../read/draft.js";
import { named, textOrNumber } from "../read/leaf.js";
import type { Spellings } from "./resources.js";

/** How long one person is trained, by skill. */
export const trainingKeys = () => ({
  training: z
    .record(
      named("The name of a skill."),
      textOrNumber("training", "Time to train one person for the skill, such as 4 h.", readHours),
    )
    .meta({
      description: "Time to train one person for a skill, such as 4 h, where the task has no `training`.",
    })
    .optional(),
});

/** How long one person is trained for a task. */
export const trainingKeysOfTask = () => ({
  training: textOrNumber(
    "training",
    "Time to train one person for the task, such as 2 h, where nobody at the station did it before. Default: that of the skills that are new there.",
    readHours,
  ).optional(),
});

type TrainingKeys = ObjectDraft<ReturnType<typeof trainingKeys>>["at"];

/** Training by skill, of a draft without errors. */
export function buildTraining({ training }: TrainingKeys, spell: Spellings): Pick<Line, "trainings"> {
  return { trainings: new Map(training?.entries.map(({ id, value }) => [spell.skill(id), value!.value])) };
}

/** Training of a task, null where it says nothing. */
export const trainingOf = (keys: { readonly training?: TextDraft<Micros> }): Micros | null =>
  keys.training?.value ?? null;

/** What one person learns who takes over tasks at a station. */
export interface Training {
  readonly time: Micros;
  /** Tasks of which neither they nor any of their skills say how long that takes. */
  readonly unknown: readonly number[];
}

/**
 * Training of one person for tasks that nobody at a station did before = the sum of what the tasks say, and of the skills of those that say
 * nothing, each skill once and only where no task of the station needed it before.
 *
 * @param tasks that are taken over
 * @param known skills that tasks of the station needed before
 */
export function trainingFor(line: Line, tasks: readonly number[], known: ReadonlySet<string>): Training {
  const silent = tasks.filter((task) => line.tasks[task]!.training === null);
  const skills = new Set(
    silent.flatMap((task) => line.tasks[task]!.skills).filter((name) => !known.has(name)),
  );
  const ofTasks = tasks.map((task) => line.tasks[task]!.training ?? 0);
  const ofSkills = [...skills].map((name) => line.trainings.get(name) ?? 0);
  return {
    time: [...ofTasks, ...ofSkills].reduce((sum, each) => sum + each, 0),
    unknown: silent.filter((task) => !line.tasks[task]!.skills.some((name) => line.trainings.has(name))),
  };
}

/** Whether a line says anything of training. */
export const hasTraining = ({ trainings, tasks }: Line): boolean =>
  trainings.size > 0 || tasks.some(({ training }) => training !== null);
