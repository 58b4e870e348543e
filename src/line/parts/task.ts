import * as z from "zod";
import type { Place } from "../../findings/finding.js";
import { readDuration, type TimeUnit } from "../../time/duration.js";
import { quoted } from "../../time/quoted.js";
import type { Ratio } from "../../time/ratio.js";
import { accept, type Reading, refuse } from "../../time/reading.js";
import { KINDS_OF_WORK, SIDES, type Task } from "../line.js";
import { type Draft, type RecordEntry, valuesOf } from "../read/draft.js";
import { choice, flag, named, notHonouredYet, type TimeLeaf, text, textOrNumber } from "../read/leaf.js";
import { loadOf } from "../task-load.js";
import { readChoice, readWords, readYesNo } from "../text-values.js";
import { readEvery, readMoveCost, readPeople, readQuantity } from "../whole-numbers.js";
import { type AfterDraft, afterSchema, draftAfters } from "./arrows.js";
import { byModelSchema, valuesByModel } from "./by-model.js";
import { buildWindow, type FloorDraft, floorKeysOfTask } from "./floor.js";
import { learningKeysOfTask, learningOf } from "./learning.js";
import { buildLifting, liftingKeysOfTask } from "./lifting.js";
import { useKeys } from "./limits.js";
import type { ModelsDraft } from "./models.js";
import { partKeysOfTask } from "./part-use.js";
import { draftTimes, everyOf, modelTimes, type PieceTime, pieceTimeSchema } from "./piece-times.js";
import { resourceKeysOfTask, type Spellings, spellAll } from "./resources.js";
import { type TestsDraft, testSchema } from "./tests.js";
import { trainingKeysOfTask, trainingOf } from "./training.js";
import { measuredKeysOfTask, variationKeysOfTask, variationOf } from "./variation.js";

const KEYS_TO_COME = ["off-line", "places", "posture", "setup"];

/** The tasks of a line by id; a bare time is in `unit`, and refused where that is null. */
export function tasksSchema(unit: TimeUnit | null) {
  const time: TimeLeaf = (rule, description) =>
    textOrNumber(rule, description, (typed) => readDuration(typed, unit));
  return z
    .record(
      named("The id of the task, kept as typed."),
      z.union([time("task-time", "A bare time is enough."), taskSchema(time, unit)]),
    )
    .meta({ description: "The tasks by id. Each is a bare time, or a map of what is known of the task." });
}

function taskSchema(time: TimeLeaf, unit: TimeUnit | null) {
  return z
    .strictObject({
      name: textOrNumber("blank", "What the work is called.", readWords).optional(),
      time: pieceTimeSchema(time, unit),
      quantity: byModelSchema(
        textOrNumber,
        "quantity",
        {
          all: "Pieces per unit, of every model.",
          one: 'Its pieces per unit, or "-" where it does not have the task.',
          whole: "Pieces per unit, a whole number from 1, or a map with those of every model. Default: 1.",
        },
        readQuantity,
      ).optional(),
      after: afterSchema(time).optional(),
      walking: time(
        "other-time",
        "Walking to the place of the work and back, per unit. It counts like task time. Default: 0.",
      ).optional(),
      "machine-time": time(
        "other-time",
        "What a machine runs by itself after the hand work. The unit waits for it, the person does not. Not with several pieces.",
      ).optional(),
      "move-cost": textOrNumber(
        "count",
        "Points for moving the task to another station in a rebalance, a whole number from 1. Default: by its skills, or else 1.",
        readMoveCost,
      ).optional(),
      ...trainingKeysOfTask(),
      ...learningKeysOfTask(),
      ...variationKeysOfTask(),
      ...measuredKeysOfTask(time),
      every: textOrNumber(
        "count",
        "The task is done on one unit in so many, a whole number from 1. Tasks of one number meet on the same units. Default: 1.",
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
        "The side of a wide product: left, right or either. Where any task has one, stations have two sides.",
        SIDES,
        readChoice("a side", SIDES),
      ).optional(),
      test: testSchema(time).optional(),
      people: byModelSchema(
        textOrNumber,
        "count",
        {
          all: "People together at the task, on every model.",
          one: 'People together at it, or "-" where it does not have the task.',
          whole:
            "People together at the task, a whole number from 1, or a map with those on every model. Default: 1.",
        },
        readPeople,
      ).optional(),
      ...resourceKeysOfTask(),
      ...floorKeysOfTask(),
      ...useKeys(),
      ...partKeysOfTask(),
      "on-base": flag(
        "yes-no",
        "Whether the work is done on the product itself (the base unit), not on loose parts. Default: false.",
        readYesNo,
      ).optional(),
      check: z
        .union([quality("What is to be seen."), z.array(quality("One of them."))])
        .meta({
          description: "Quality points of the task, one or a list, printed on the sheet of its station.",
        })
        .optional(),
      caution: textOrNumber(
        "blank",
        "Words of caution, printed wherever the task is handed to people.",
        readWords,
      ).optional(),
      lift: text(
        "mass",
        "Mass to be lifted, such as 27 kg, by hand or by a hoist as the caution says. It is shown, never judged.",
        readMass,
      ).optional(),
      ...liftingKeysOfTask(),
      spread: time(
        "other-time",
        "Standard deviation of the time of one piece, as `study` writes it. Without a `variation` of the task, its time varies by it; pieces of a unit vary together.",
      ).optional(),
      readings: textOrNumber(
        "blank",
        "Where the time comes from, as `study` writes it.",
        readWords,
      ).optional(),
    })
    .meta({ description: "A task with what is known of it." })
    .register(notHonouredYet, { keys: KEYS_TO_COME });
}

const quality = (description: string) => textOrNumber("blank", description, readWords);

/** A mass such as `27 kg`, kept as typed: it is shown to people and never reckoned with. */
function readMass(text: string): Reading<string> {
  const trimmed = text.trim();
  const expected = "a number above 0 and kg, such as 27 kg";
  if (trimmed === "") return refuse(`a mass is missing: write ${expected}`);
  const found = /^(\d+(?:\.\d+)?)\s*kg$/u.exec(trimmed);
  if (found && /[1-9]/u.test(found[1]!)) return accept(trimmed);
  return refuse(`${quoted(trimmed)} is not a mass: write ${expected}`);
}

type TaskValue = NonNullable<Draft<ReturnType<typeof tasksSchema>>["entries"][number]["value"]>;
export type TaskKeys = Extract<TaskValue, { kind: "object" }>["at"];

export interface DraftTask {
  /** As typed. */
  readonly id: string;
  readonly place: Place;
  /** Times of one piece as far as they could be read; null where a model does not have the task. */
  readonly pieceTimes: readonly PieceTime[];
  readonly after: readonly AfterDraft[];
  /** What else is given of the task; empty where only a bare time is. */
  readonly keys: TaskKeys;
}

export function draftTask({ id, place, value }: RecordEntry<TaskValue>): DraftTask {
  if (value?.kind !== "object") return { id, place, pieceTimes: draftTimes(value), after: [], keys: {} };
  const { after, time } = value.at;
  return { id, place, pieceTimes: draftTimes(time), after: draftAfters(after), keys: value.at };
}

/** What a task is built from, beside itself. */
interface AroundTasks {
  readonly keys: Parameters<typeof learningOf>[0] & Parameters<typeof variationOf>[0];
  readonly tasks: readonly DraftTask[];
  readonly models: ModelsDraft;
  readonly floor: FloorDraft;
  readonly failures: TestsDraft;
}

/** A task of a draft without errors; `shares` are those of the models, or the one of a line that builds one. */
export function buildTask(
  draft: AroundTasks,
  number: number,
  spell: Spellings,
  shares: readonly Ratio[],
): Task {
  const task = draft.tasks[number]!;
  const { id, place, keys } = task;
  const quantities = valuesByModel(keys.quantity, 1, draft.models);
  const pieces = modelTimes(task, draft.models);
  const ofModels = (values: readonly (number | null)[]) =>
    values.map((value, model) => (pieces[model] === null ? 0 : value!));
  const [quantity, teams] = [ofModels(quantities), ofModels(valuesByModel(keys.people, 1, draft.models))];
  const times = pieces.map((each, model) => (each === null ? null : each * quantity[model]!));
  const walking = keys.walking?.value ?? 0;
  const visits = draft.failures.visits!.visits[number]!;
  return {
    id,
    name: keys.name?.value ?? null,
    quantity: Math.max(1, ...quantity),
    ...(keys.quantity?.kind === "record" && { quantityByModel: quantity }),
    times,
    walking,
    machineTime: keys["machine-time"]?.value ?? 0,
    every: everyOf(task),
    visits,
    load: loadOf({ times, walking, visits }, shares),
    people: Math.max(1, ...teams),
    ...(keys.people?.kind === "record" && { peopleByModel: teams }),
    side: keys.side?.value ?? null,
    skills: spellAll(spell.skill, keys.skill),
    equipment: spellAll(spell.equipment, keys.equipment),
    zone: keys.zone === undefined ? null : spell.zone(keys.zone.value),
    ...buildWindow(keys, draft.floor),
    moveCost: keys["move-cost"]?.value ?? null,
    training: trainingOf(keys),
    learning: learningOf(draft.keys, keys),
    variation: variationOf(draft.keys, keys, pieces),
    test: draft.failures.tests[number]!,
    kind: keys.kind?.value ?? null,
    onBase: keys["on-base"]?.value ?? false,
    uses: [],
    parts: [],
    checks: valuesOf(keys.check).map(({ value }) => value),
    caution: keys.caution?.value ?? null,
    lift: keys.lift?.value ?? null,
    lifting: buildLifting(keys, keys.lift?.value),
    place,
  };
}
