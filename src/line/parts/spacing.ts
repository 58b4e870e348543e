import * as z from "zod";
import { compareNaturally } from "../../findings/natural-order.js";
import { quoted } from "../../time/quoted.js";
import { type Ratio, ratio } from "../../time/ratio.js";
import { accept, type Reading, refuse } from "../../time/reading.js";
import { idKey, type NumberOf } from "../ids.js";
import type { Line, Spacing } from "../line.js";
import type { ObjectDraft } from "../read/draft.js";
import { named, text } from "../read/leaf.js";
import type { ModelsDraft } from "./models.js";
import { partUses } from "./part-use.js";
import { modelTimes } from "./piece-times.js";

/** How close units of a kind may follow each other. */
export const spacingKeys = () => ({
  spacing: z
    .record(
      named("A model, or a task or a part that only some models have, as of an option."),
      text("spacing", "The most of it in so many units in a row, such as 2 in 5.", readSpacing),
    )
    .meta({
      description:
        "How close units may follow each other, by model, or by task or part that only some models have. {basket: 2 in 5} allows 2 of any 5 units in a row. The proposed sequence keeps it. A given sequence is checked against it.",
    })
    .optional(),
});

/** At most so many units of so many in a row. */
export interface Stretch {
  readonly most: number;
  readonly of: number;
}

/** No line is looked at over more units in a row. */
const MOST = 1000;

/** `2 in 5`. */
function readSpacing(typed: string): Reading<Stretch> {
  const trimmed = typed.trim();
  const expected = "write how many of how many units in a row, such as 2 in 5";
  if (trimmed === "") return refuse(`a spacing is missing: ${expected}`);
  const [, most, of] = (/^(\d{1,4})\s+in\s+(\d{1,4})$/u.exec(trimmed) ?? []).map(Number);
  if (most === undefined || of === undefined) return refuse(`${quoted(trimmed)} is no spacing: ${expected}`);
  if (most < 1) return refuse(`${quoted(trimmed)} would allow no unit at all: ${expected}`);
  if (most >= of)
    return refuse(`${quoted(trimmed)} would allow every unit: the first number is the smaller one`);
  if (of > MOST) return refuse(`${quoted(trimmed)} looks at more than ${MOST} units in a row`);
  return accept({ most, of });
}

type SpacingKeys = ObjectDraft<ReturnType<typeof spacingKeys>>["at"];

/** What the names of spacings are looked up in. */
interface NamedThings {
  readonly models: ModelsDraft;
  readonly tasks: Parameters<typeof partUses>[0];
  readonly numberOf: NumberOf;
}

/**
 * The models that a name stands for, each way that it can be read: a model itself, those that have the task of that name, those with the
 * part of that name; [] for any other name.
 */
export function modelsNamed(name: string, { models, tasks, numberOf }: NamedThings): number[][] {
  const [model, task] = [models.numberOf(name), numberOf(name)];
  const part = partUses(tasks, models).find((each) => idKey(each.name) === idKey(name));
  return [
    ...(model === undefined ? [] : [[model]]),
    ...(task === undefined ? [] : [numbersOf(modelTimes(tasks[task]!, models).map((time) => time !== null))]),
    ...(part === undefined ? [] : [numbersOf(part.byModel.map(({ num }) => num > 0n))]),
  ];
}

const numbersOf = (has: readonly boolean[]): number[] =>
  has.flatMap((each, number) => (each ? [number] : []));

/** The spacings of a draft without errors, in natural order of names. */
export function buildSpacings(keys: SpacingKeys, named: NamedThings): Pick<Line, "spacings"> {
  const spacings = (keys.spacing?.entries ?? [])
    .map(({ id, value }): Spacing => ({ name: id, models: modelsNamed(id, named)[0]!, ...value!.value }))
    .sort((one, two) => compareNaturally(one.name, two.name));
  return { spacings };
}

/** The share of units that a spacing allows in the long run. */
export const shareAllowed = ({ most, of }: Stretch): Ratio => ratio(most, of);

/** A stretch of units with too many: the number of its first unit from 0, and how many there are. */
export interface BrokenStretch {
  readonly from: number;
  readonly within: number;
}

/** Every stretch that breaks a spacing, of a sequence that is built again and again: one looked at from each unit on. */
export function brokenStretches(
  sequence: readonly number[],
  { models, most, of }: Omit<Spacing, "name">,
): BrokenStretch[] {
  const units = sequence.length;
  const counts = sequence.map((model) => (models.includes(model) ? 1 : 0));
  let within = 0;
  for (let at = 0; at < of; at++) within += counts[at % units]!;
  return sequence.flatMap((_, from) => {
    const found = within;
    within += counts[(from + of) % units]! - counts[from]!;
    return found > most ? [{ from, within: found }] : [];
  });
}
