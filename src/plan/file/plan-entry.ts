import type { Line } from "../../line/line.js";
import { flowText } from "../../line/write/flow-text.js";
import type { Station } from "../plan.js";

/** A station or bench as a plan file has it; ids as in the line file. */
export interface PlanEntry {
  readonly id: string;
  readonly places: number;
  readonly tasks: readonly string[];
  /** The side of each task that may be worked from either; those of all others are said in the line file. */
  readonly sides: readonly (readonly [task: string, side: string])[];
  /** Who does each task where the people of a place share a unit; empty where they work together. */
  readonly persons: readonly (readonly [task: string, persons: readonly number[]])[];
}

export function entryOf(line: Line, { id, places, tasks, sides, persons }: Station): PlanEntry {
  const chosen = tasks.flatMap((task, at): [string, string][] => {
    const side = sides?.[at];
    const { id: name, side: asked } = line.tasks[task]!;
    const isFree = (asked === "either" || asked === null) && side !== "both";
    return side === undefined || !isFree ? [] : [[name, side]];
  });
  const names = tasks.map((task) => line.tasks[task]!.id);
  return {
    id,
    places,
    tasks: names,
    sides: chosen,
    persons: (persons ?? []).map((who, at) => [names[at]!, who]),
  };
}

/** `{id: S1, tasks: [load-frame]}`, in one line. */
export function entryText({ id, places, tasks, sides, persons }: PlanEntry): string {
  const parts = [
    `id: ${flowText(id)}`,
    ...(places > 1 ? [`places: ${places}`] : []),
    `tasks: ${listText(tasks)}`,
    ...(sides.length > 0 ? [`sides: ${sidesText(sides)}`] : []),
    ...(persons.length > 0 ? [`persons: ${personsText(persons)}`] : []),
  ];
  return `{${parts.join(", ")}}`;
}

export const listText = (texts: readonly string[]): string => `[${texts.map(flowText).join(", ")}]`;

export const sidesText = (sides: PlanEntry["sides"]): string =>
  `{${sides.map(([task, side]) => `${flowText(task)}: ${side}`).join(", ")}}`;

export const personsText = (persons: PlanEntry["persons"]): string =>
  `{${persons.map(([task, who]) => `${flowText(task)}: ${whoText(who)}`).join(", ")}}`;

/** `2`, or `[1, 2]` where several work together. */
const whoText = (who: readonly number[]): string =>
  who.length === 1 ? String(who[0]) : `[${who.join(", ")}]`;
