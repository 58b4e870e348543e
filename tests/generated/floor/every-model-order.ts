import type { Line } from "../../../src/line/line.js";

type Sided = Pick<Line, "before"> & {
  readonly tasks: readonly Pick<Line["tasks"][number], "side" | "people">[];
};

/** One way to work a station of a wide product: how many people, and the end of each row of loads. */
export interface SideWay {
  readonly crew: 1 | 2;
  readonly ends: readonly number[];
}

/**
 * Every order of some tasks, each from every side that it may be worked from, worked off once for each row of loads: a task starts
 * when its side is free and the tasks before it at the station have ended. Ways that are nowhere sooner are left out; for up to 6
 * tasks.
 *
 * @param rows loads by task, one row for the mean and one for each model
 */
export function everyModelOrder(
  line: Sided,
  tasks: readonly number[],
  rows: readonly (readonly number[])[],
): SideWay[] {
  const ways = new Map<string, SideWay>();
  const done: { task: number; sides: readonly number[] }[] = [];
  const tell = () => {
    const ends = rows.map((loads) => workOff(line, done, loads));
    const crew = new Set(done.flatMap(({ sides }) => sides)).size > 1 ? 2 : 1;
    ways.set(`${crew}:${ends.join()}`, { crew, ends });
  };
  const go = () => {
    if (done.length === tasks.length) return tell();
    for (const task of tasks) {
      if (done.some((each) => each.task === task)) continue;
      const waits = line.before[task]!.some(
        (earlier) => tasks.includes(earlier) && !done.some((each) => each.task === earlier),
      );
      if (waits) continue;
      for (const sides of sidesOf(line.tasks[task]!)) {
        done.push({ task, sides });
        go();
        done.pop();
      }
    }
  };
  go();
  return [...ways.values()];
}

function workOff(
  line: Sided,
  done: readonly { readonly task: number; readonly sides: readonly number[] }[],
  loads: readonly number[],
): number {
  const free = [0, 0];
  const endOf = new Map<number, number>();
  for (const { task, sides } of done) {
    const ready = line.before[task]!.map((earlier) => endOf.get(earlier) ?? 0);
    const end = Math.max(0, ...ready, ...sides.map((side) => free[side]!)) + loads[task]!;
    for (const side of sides) free[side] = end;
    endOf.set(task, end);
  }
  return Math.max(0, ...endOf.values());
}

function sidesOf({ side, people }: Sided["tasks"][number]): readonly (readonly number[])[] {
  if (people > 1) return [[0, 1]];
  return side === "left" ? [[0]] : side === "right" ? [[1]] : [[0], [1]];
}
