import type { SideStation } from "./side-station.js";

/** When the sides are free and tasks can start; lists by row from `at`, and by row and task. */
export interface SideTimes {
  readonly at: number;
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly ready: Float64Array;
}

/** Remembers the sets of tasks that a side search has taken, with the times at which what is left can start. */
export class SideMemory {
  private readonly known = new Map<number | string, number[][]>();

  constructor(private readonly station: SideStation) {}

  /**
   * Whether the same tasks were taken before with both sides free no later and every task left ready no later; otherwise this is
   * remembered.
   *
   * @param isEven no task left is bound to the left or the right, so the sides may change places
   */
  isKnown(key: number | string, times: SideTimes, isTaken: Uint8Array, isEven: boolean): boolean {
    const list = this.listOf(times, isTaken);
    const known = this.known.get(key);
    if (known === undefined) {
      this.known.set(key, [list]);
      return false;
    }
    if (known.some((other) => isNoLater(other, list))) return true;
    if (isEven) {
      const mirrored = this.mirror(list);
      if (known.some((other) => isNoLater(other, mirrored))) return true;
    }
    let kept = 0;
    for (const other of known) if (!isNoLater(list, other)) known[kept++] = other;
    known.length = kept;
    known.push(list);
    return false;
  }

  /** By row: left, right, and each task left that waits for one taken; what is ready before either side is free starts then. */
  private listOf({ at, left, right, ready }: SideTimes, isTaken: Uint8Array): number[] {
    const { rows, size, before } = this.station;
    const list: number[] = [];
    for (let row = 0; row < rows; row++) {
      const [onLeft, onRight] = [left[at + row]!, right[at + row]!];
      const soonest = Math.min(onLeft, onRight);
      list.push(onLeft, onRight);
      for (let task = 0; task < size; task++) {
        if (isTaken[task] || before[task]!.length === 0) continue;
        list.push(Math.max(soonest, ready[(at + row) * size + task]!));
      }
    }
    return list;
  }

  private mirror(list: readonly number[]): number[] {
    const width = list.length / this.station.rows;
    const other = [...list];
    for (let at = 0; at < list.length; at += width) [other[at], other[at + 1]] = [list[at + 1]!, list[at]!];
    return other;
  }
}

function isNoLater(one: readonly number[], two: readonly number[]): boolean {
  for (let at = 0; at < one.length; at++) if (one[at]! > two[at]!) return false;
  return true;
}
