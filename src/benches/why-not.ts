import type { Line } from "../line/line.js";
import { reducedOrder } from "../line/reduced-order.js";
import { everyBlock, type JoinedBlock } from "./every-block.js";
import {
  ascending,
  inOrderOfWork,
  joinsOf,
  tasksHandedOn,
  tasksOnBase,
  withPredecessors,
} from "./find-blocks.js";
import { type Hold, holdsOf } from "./held-on-line.js";

/** What keeps tasks from being built away from the line. */
export type Hindrance =
  /** It is marked so itself. */
  | { readonly kind: "on-base"; readonly task: number; readonly arrow: null }
  /** It needs a task that is on the base unit: the chain leads there from one that is marked; null where that task is itself. */
  | {
      readonly kind: "on-base";
      readonly task: number;
      readonly arrow: Arrow;
      readonly chain: readonly number[] | null;
    }
  | { readonly kind: "needs-the-line"; readonly task: number; readonly arrow: Arrow }
  /** Nothing waits for these tasks; for none of the block where there are none. */
  | { readonly kind: "joins-nowhere"; readonly ends: readonly number[]; readonly arrow: null }
  | { readonly kind: "joins-at-several"; readonly arrows: readonly Arrow[]; readonly arrow: Arrow }
  | (Hold & { readonly arrow: null });

/** From the earlier task to the later. */
type Arrow = readonly [number, number];

/** Whether tasks can be built away from the line, and if not, why not and what comes near. */
export interface BlockVerdict extends JoinedBlock {
  /** None where the tasks can go. */
  readonly hindrances: readonly Hindrance[];
  /** The smallest block that holds what of these tasks can leave the base unit and is needed there; null where there is none, and where they can go. */
  readonly nearest: readonly number[] | null;
}

/** Judges a set of tasks, with every arrow that forbids it; `several` lets the result join at several tasks. */
export function judgeBlock(line: Line, asked: readonly number[], several: boolean): BlockVerdict {
  const tasks = ascending(new Set(asked));
  const inside = new Set(tasks);
  const onBase = tasksOnBase(line);
  const found = inOrderOfWork(line, tasks).flatMap((task) => hindrancesOf(line, task, inside, onBase));
  // What works on the base unit can never go; what needs another task may, together with it.
  const standing = [...found].sort(
    (one, two) => Number(two.kind === "on-base") - Number(one.kind === "on-base"),
  );
  const joinsAt = joinsOf(line, tasks);
  const joining = standing.length > 0 ? [] : joinHindrances(line, tasks, joinsAt, several);
  const held = holdsOf(line, tasks).map((each) => ({ ...each, arrow: null as null }));
  const hindrances = [...standing, ...joining, ...held];
  const nearest = hindrances.length === 0 ? null : nearestBlock(line, tasks, onBase, several);
  return { tasks, joinsAt, hindrances, nearest };
}

/** What the task itself needs outside the block. */
function hindrancesOf(
  line: Line,
  task: number,
  inside: ReadonlySet<number>,
  onBase: readonly boolean[],
): Hindrance[] {
  if (line.tasks[task]!.onBase) return [{ kind: "on-base", task, arrow: null }];
  return line.before[task]!.filter((earlier) => !inside.has(earlier)).map((earlier): Hindrance => {
    const arrow = [earlier, task] as const;
    if (!onBase[earlier]) return { kind: "needs-the-line", task, arrow };
    const chain = line.tasks[earlier]!.onBase ? null : chainToBase(line, task, onBase);
    return { kind: "on-base", task, arrow, chain };
  });
}

/** From a task that is marked to this one, along the first arrows that lead there. */
function chainToBase(line: Line, task: number, onBase: readonly boolean[]): number[] {
  const chain = [task];
  while (!line.tasks[chain[0]!]!.onBase) {
    chain.unshift(line.before[chain[0]!]!.find((earlier) => onBase[earlier])!);
  }
  return chain;
}

function joinHindrances(
  line: Line,
  tasks: readonly number[],
  joinsAt: readonly number[],
  several: boolean,
): Hindrance[] {
  if (joinsAt.length === 0) return [{ kind: "joins-nowhere", ends: [], arrow: null }];
  const isHandedOn = tasksHandedOn(line);
  const ends = tasks.filter((task) => !isHandedOn[task]);
  if (ends.length > 0) return [{ kind: "joins-nowhere", ends, arrow: null }];
  if (several || joinsAt.length === 1) return [];
  const inside = new Set(tasks);
  const before = reducedOrder(line.before);
  const arrows = joinsAt.map((later) => {
    const earlier = before[later]!.find((each) => inside.has(each))!;
    return [earlier, later] as const;
  });
  return [{ kind: "joins-at-several", arrows, arrow: arrows[1]! }];
}

function nearestBlock(
  line: Line,
  tasks: readonly number[],
  onBase: readonly boolean[],
  several: boolean,
): readonly number[] | null {
  const isHandedOn = tasksHandedOn(line);
  const away = tasks.filter((task) => !onBase[task] && isHandedOn[task]);
  if (away.length === 0) return null;
  const wanted = withPredecessors(line, away);
  const holding = everyBlock(line, several).blocks.filter((block) =>
    [...wanted].every((task) => block.tasks.includes(task)),
  );
  if (holding.length === 0) return null;
  return holding.reduce((one, two) => (two.tasks.length < one.tasks.length ? two : one)).tasks;
}
