import type { Work } from "../work.js";

/** Another block along the arrows, and how many positions lie between both at the least. */
export interface Reached {
  readonly block: number;
  readonly gap: number;
}

/** What comes before and after each block, however many arrows away; looked up once for each block that is asked about. */
export class Reach {
  private readonly earlier: (readonly Reached[] | undefined)[] = [];
  private readonly later: (readonly Reached[] | undefined)[] = [];
  private readonly next: Record<"before" | "after", Reached[][]> = { before: [], after: [] };
  private readonly gaps = new Map<number, number>();

  private constructor(private readonly work: Work) {
    for (const { from, to, stations } of work.waits) {
      const key = from * work.size + to;
      this.gaps.set(key, Math.max(stations, this.gaps.get(key) ?? 0));
    }
  }

  /** One for all works that have the same arrows and waits. */
  static of(work: Work): Reach {
    const known = KNOWN.get(work.before);
    if (known !== undefined && known.work.after === work.after && known.work.waits === work.waits)
      return known;
    const made = new Reach(work);
    KNOWN.set(work.before, made);
    return made;
  }

  /** The next blocks along the arrows alone. */
  neighbours(block: number, side: "before" | "after"): readonly Reached[] {
    const known = this.next[side];
    known[block] ??= this.work[side][block]!.map((other) => ({
      block: other,
      gap: side === "before" ? this.gapOf(other, block) : this.gapOf(block, other),
    }));
    return known[block]!;
  }

  before(block: number): readonly Reached[] {
    this.earlier[block] ??= this.walk(block, this.work.before, (from, to) => this.gapOf(to, from), -1);
    return this.earlier[block]!;
  }

  after(block: number): readonly Reached[] {
    this.later[block] ??= this.walk(block, this.work.after, (from, to) => this.gapOf(from, to), 1);
    return this.later[block]!;
  }

  private gapOf(from: number, to: number): number {
    return this.gaps.size === 0 ? 0 : (this.gaps.get(from * this.work.size + to) ?? 0);
  }

  /** The longest way to each block; blocks are numbered along the arrows, so in order of numbers each is known before it is left. */
  private walk(
    start: number,
    next: readonly (readonly number[])[],
    gapOf: (from: number, to: number) => number,
    step: 1 | -1,
  ): Reached[] {
    const gaps = new Map([[start, 0]]);
    const found: Reached[] = [];
    const open = [start];
    while (open.length > 0) {
      const each = open.pop()!;
      for (const other of next[each]!) {
        if (gaps.has(other)) continue;
        gaps.set(other, 0);
        open.push(other);
      }
    }
    const inOrder = [...gaps.keys()].sort((one, two) => step * (one - two));
    for (const each of inOrder) {
      const gap = gaps.get(each)!;
      if (each !== start) found.push({ block: each, gap });
      for (const other of next[each]!) gaps.set(other, Math.max(gaps.get(other)!, gap + gapOf(each, other)));
    }
    return found;
  }
}

const KNOWN = new WeakMap<Work["before"], Reach>();
