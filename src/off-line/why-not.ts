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
export interface Hindrance {
  readonly kind: "on-base" | "needs-the-line" | "joins-nowhere" | "joins-at-several" | Hold["kind"];
  /** The arrow that forbids it, from the earlier task to the later; null where it is no arrow. */
  readonly arrow: readonly [number, number] | null;
  /** In words, with the arrow. */
  readonly words: string;
}

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
  const held = holdsOf(line, tasks).map((each) => ({ ...each, arrow: null }));
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
  const idOf = (each: number) => line.tasks[each]!.id;
  const id = idOf(task);
  if (line.tasks[task]!.onBase) {
    const words = `${id} works on the base unit: it is marked \`on-base: true\``;
    return [{ kind: "on-base", arrow: null, words }];
  }
  return line.before[task]!.filter((earlier) => !inside.has(earlier)).map((earlier) => {
    const arrow = [earlier, task] as const;
    const arrowWords = `(${idOf(earlier)} -> ${id})`;
    if (!onBase[earlier]) {
      const words = `${id} needs ${idOf(earlier)}, which is on the line ${arrowWords}`;
      return { kind: "needs-the-line", arrow, words };
    }
    if (line.tasks[earlier]!.onBase) {
      const words = `${id} needs ${idOf(earlier)}, which is on the base unit ${arrowWords}`;
      return { kind: "on-base", arrow, words };
    }
    const chain = chainToBase(line, task, onBase).map(idOf);
    const words = `${id} works on the base unit: it needs ${idOf(earlier)}, which is on it (${chain.join(" -> ")})`;
    return { kind: "on-base", arrow, words };
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
  if (joinsAt.length === 0) {
    const words = "nothing on the line waits for it: no arrow says where it joins";
    return [{ kind: "joins-nowhere", arrow: null, words }];
  }
  const isHandedOn = tasksHandedOn(line);
  const ends = tasks.filter((task) => !isHandedOn[task]).map((task) => line.tasks[task]!.id);
  if (ends.length > 0) {
    const words = `nothing waits for ${ends.join(", ")}: no arrow says where ${ends.length === 1 ? "it joins" : "they join"}`;
    return [{ kind: "joins-nowhere", arrow: null, words }];
  }
  if (several || joinsAt.length === 1) return [];
  const inside = new Set(tasks);
  const before = reducedOrder(line.before);
  const arrows = joinsAt.map((later) => {
    const earlier = before[later]!.find((each) => inside.has(each))!;
    return [earlier, later] as const;
  });
  const words = arrows.map(([earlier, later]) => `${line.tasks[earlier]!.id} -> ${line.tasks[later]!.id}`);
  return [
    {
      kind: "joins-at-several",
      arrow: arrows[1]!,
      words: `it joins at ${joinsAt.length} tasks (${words.join(", ")})`,
    },
  ];
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
