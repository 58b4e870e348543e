import type { Line } from "../../../src/line/line.js";

/** When the last of some tasks ends at one station of a wide product, at the earliest; endless where that cannot be. */
export interface SideEnds {
  /** All of them by one person at one side. */
  readonly one: number;
  /** By one person at each side, each of them with some work or a part in it. */
  readonly two: number;
}

type Sided = Pick<Line, "before"> & {
  readonly tasks: readonly Pick<Line["tasks"][number], "side" | "people">[];
};

/** Every order of the tasks, each from every side that it may be worked from, one after another; for up to 6 tasks. */
export function everySideOrder(line: Sided, tasks: readonly number[], loads: readonly number[]): SideEnds {
  const ends = { one: Number.POSITIVE_INFINITY, two: Number.POSITIVE_INFINITY };
  const endOf = new Map<number, number>();
  const startOf = (task: number) =>
    Math.max(0, ...line.before[task]!.flatMap((each) => (tasks.includes(each) ? [endOf.get(each)!] : [])));
  const isReady = (task: number) =>
    !endOf.has(task) && line.before[task]!.every((each) => !tasks.includes(each) || endOf.has(each));
  const go = (free: { left: number; right: number }, used: { left: boolean; right: boolean }) => {
    if (endOf.size === tasks.length) {
      const kind = used.left && used.right ? "two" : "one";
      ends[kind] = Math.min(ends[kind], Math.max(free.left, free.right));
      return;
    }
    for (const task of tasks.filter(isReady)) {
      for (const [left, right] of sidesOf(line.tasks[task]!)) {
        const start = Math.max(startOf(task), left ? free.left : 0, right ? free.right : 0);
        const end = start + loads[task]!;
        endOf.set(task, end);
        go(
          { left: left ? end : free.left, right: right ? end : free.right },
          { left: used.left || left, right: used.right || right },
        );
        endOf.delete(task);
      }
    }
  };
  go({ left: 0, right: 0 }, { left: false, right: false });
  return ends;
}

/** Which sides a task may take, as [left, right]. */
function sidesOf({ side, people }: Sided["tasks"][number]): readonly (readonly [boolean, boolean])[] {
  if (people > 1) return [[true, true]];
  if (side === "left") return [[true, false]];
  if (side === "right") return [[false, true]];
  return [
    [true, false],
    [false, true],
  ];
}
