import { hasTask, lowestBit } from "./bit-sets.js";
import type { Instance } from "./instance.js";

/**
 * Which sums of task times the rest of a station can still come to. Of each task and those numbered after it, every
 * subset counts (subset sums, as one row of bits: Bellman 1957), save for the tasks that need more than a whole station
 * together with all that is to be placed before them. The arrows among the others are set aside, so a sum that is missing
 * is out of reach, and one that is there may be.
 */
export class SumsAhead {
  /** Words of a row: bit `sum` is set where tasks come to `sum`. */
  readonly words: number;
  private readonly ancestors: Int32Array;
  private rows: Int32Array | null = null;
  /** The row of a task and those after it; one more, of no task at all, is the last. */
  private readonly rowOf: Int32Array;
  /** The task that each row but the first adds to the one before: rows stay as long as the last tasks are the same. */
  private readonly tasks: Int32Array;
  private readonly mayStand: Uint8Array;

  constructor(private readonly instance: Instance) {
    this.words = Math.floor(instance.limit / BITS) + 1;
    this.rowOf = new Int32Array(instance.size + 1);
    this.tasks = new Int32Array(instance.size).fill(NONE);
    this.mayStand = new Uint8Array(instance.size);
    this.ancestors = turnOver(instance);
  }

  /** Whether the rows of the line are few and short enough to be worth it. */
  static suit({ size, limit }: Instance): boolean {
    return (size + 1) * (limit / BITS + 1) <= MOST_WORDS;
  }

  /** Writes the rows for a station after the tasks of a set. */
  start(sets: Int32Array, offset: number): void {
    const { size, times } = this.instance;
    this.rows ??= new Int32Array((size + 1) * this.words);
    this.rows[0] = 1;
    this.markTasks(sets, offset);
    let row = 0;
    let isKept = true;
    for (let task = size - 1; task >= 0; task--) {
      if (this.mayStand[task] === 1 && times[task]! > 0) {
        isKept &&= this.tasks[row] === task;
        if (!isKept) this.addTime(times[task]!, row);
        this.tasks[row++] = task;
      }
      this.rowOf[task] = row;
    }
    // Rows of longer lists before this one rest on other tasks.
    if (row < size) this.tasks[row] = NONE;
  }

  /** Whether tasks from number `from` on may come to `least` or more, but no more than `most`, which is within the limit. */
  reach(from: number, least: number, most: number): boolean {
    if (least <= 0) return true;
    const rows = this.rows!;
    const begin = this.rowOf[from]! * this.words;
    let at = begin + (most >>> 5);
    let bits = rows[at]! & (ALL >>> (31 - (most & 31)));
    for (const last = begin + (least >>> 5); at > last; bits = rows[--at]!) if (bits !== 0) return true;
    return (bits & (ALL << (least & 31))) !== 0;
  }

  private addTime(time: number, row: number): void {
    const { words } = this;
    const rows = this.rows!;
    const from = row * words;
    const to = from + words;
    const skip = time >>> 5;
    const shift = time & 31;
    for (let word = 0; word < skip; word++) rows[to + word] = rows[from + word]!;
    let carry = 0;
    for (let word = skip; word < words; word++) {
      const moved = rows[from + word - skip]!;
      rows[to + word] = rows[from + word]! | (moved << shift) | carry;
      carry = (moved >>> 1) >>> (BITS - 1 - shift);
    }
  }

  /** Marks the tasks outside the set that fit a station with all outside it that must come before them. */
  private markTasks(sets: Int32Array, offset: number): void {
    const { size, before } = this.instance;
    const { mayStand } = this;
    for (let task = 0; task < size; task++) {
      mayStand[task] = 0;
      if (hasTask(sets, offset, task)) continue;
      if (!before[task]!.every((earlier) => mayStand[earlier] === 1 || hasTask(sets, offset, earlier)))
        continue;
      if (this.fits(task, sets, offset)) mayStand[task] = 1;
    }
  }

  private fits(task: number, sets: Int32Array, offset: number): boolean {
    const { words, times, limit } = this.instance;
    let room = limit - times[task]!;
    for (let word = 0; word < words && room >= 0; word++) {
      let left = this.ancestors[task * words + word]! & ~sets[offset + word]!;
      for (; left !== 0; left &= left - 1) room -= times[word * BITS + lowestBit(left)]!;
    }
    return room >= 0;
  }
}

/** The sets of all that must come before each task, from those of all that comes after. */
function turnOver({ size, words, followers }: Instance): Int32Array {
  const ancestors = new Int32Array(size * words);
  for (let task = 0; task < size; task++)
    for (let word = 0; word < words; word++)
      for (let left = followers[task * words + word]!; left !== 0; left &= left - 1) {
        const later = word * BITS + lowestBit(left);
        ancestors[later * words + (task >>> 5)]! |= 1 << (task & 31);
      }
  return ancestors;
}

const NONE = -1;
const BITS = 32;
/** Every bit of a word. */
const ALL = -1;
/** Four megabytes. */
const MOST_WORDS = 2 ** 20;
