import { compare, type Ratio, ratio } from "../../time/ratio.js";

/** A task of every unit; times in one whole measure. */
export interface PeriodicTask {
  readonly hands: bigint;
  /** Hands and what a machine then runs. */
  readonly whole: bigint;
  /** Who has their hands on it. */
  readonly takers: readonly (number | string)[];
  /** Tasks of the same unit whose hands must be done before it starts, and those that must be over with their machines. */
  readonly hangsOn: readonly number[];
  readonly follows: readonly number[];
}

/** What a unit keeps of something of which there is one, from the start of a task until so long after the start of a task. */
export interface PeriodicUse {
  readonly by: number | string;
  readonly from: number;
  readonly until: number;
  readonly time: bigint;
}

export interface PeriodicTerms {
  /** So many units, each at times of its own, are worked in one period. */
  readonly units: number;
  /** Places that take them in turn, each with people of its own. */
  readonly places: number;
  /** What the places share. */
  readonly shared: readonly PeriodicUse[];
  /** A unit stands for so many periods at the most, less the time lost. */
  readonly stays: number;
  readonly lost: bigint;
  /** The shortest period looked at. */
  readonly from: Ratio;
}

/** How long a period must be. */
export interface LeastPeriod {
  readonly isFromFirst: boolean;
  /** Null where the nodes ran out on the way to it. */
  readonly least: Ratio | null;
}

/** A lower bound on start - start along a path: time - periods x period, with that as a number of parts. */
interface Gap {
  readonly time: bigint;
  readonly periods: bigint;
  readonly parts: bigint;
}

/** Two uses of a person or of what is shared, and how many periods later or earlier the second may be paired with the first. */
interface Pair {
  readonly one: PeriodicUse;
  readonly two: PeriodicUse;
  readonly shifts: readonly bigint[];
}

/** The longest path from each start to each other; null where none leads there. */
type Gaps = (Gap | null)[][];

/**
 * The least period, not below `from`, after which the same work can begin again: nobody has hands on two tasks at a time, nothing shared
 * is kept by two units, tasks follow each other, no unit stands too long. Starts are free. Of each two uses of a person one is over before the other begins, so many periods
 * shifted: these shifts are tried, and what they ask of the starts are differences. Where all fail, each by a closed path, a shorter period
 * than the least that opens one of these paths fails likewise. Longer ones than the least only stretch its starts.
 *
 * @returns null where the nodes ran out before it was known whether `from` is enough
 */
export function leastPeriod(
  tasks: readonly PeriodicTask[],
  terms: PeriodicTerms,
  nodes: number,
): LeastPeriod | null {
  const { units, stays, lost, from } = terms;
  let left = nodes;
  let opens: Ratio | null = null;
  let period = from;
  const count = tasks.length;
  const size = count * units;

  const gapOf = (time: bigint, periods: bigint): Gap => ({
    time,
    periods,
    parts: time * period.den - periods * period.num,
  });
  const join = (one: Gap, two: Gap): Gap => ({
    time: one.time + two.time,
    periods: one.periods + two.periods,
    parts: one.parts + two.parts,
  });
  /** Whether the path back leaves room for the gap; where it does not, from which period on it does. */
  const hasRoom = (gaps: Gaps, first: number, second: number, gap: Gap): boolean => {
    const back = gaps[second]![first]!;
    if (back === null || back.parts + gap.parts <= 0n) return true;
    const circle = join(back, gap);
    if (circle.periods > 0n) {
      const opening = ratio(circle.time, circle.periods);
      if (opens === null || compare(opening, opens) < 0) opens = opening;
    }
    return false;
  };
  /** Second start >= first start + gap, on every path. */
  const keepApart = (gaps: Gaps, first: number, second: number, gap: Gap): boolean => {
    if (!hasRoom(gaps, first, second, gap)) return false;
    const known = gaps[first]![second]!;
    if (known !== null && known.parts >= gap.parts) return true;
    const behind = [...gaps[second]!];
    for (const row of gaps) {
      const before = row[first]!;
      if (before === null) continue;
      const until = join(before, gap);
      for (let to = 0; to < size; to++) {
        const after = behind[to]!;
        if (after === null) continue;
        const now = row[to]!;
        if (now === null || until.parts + after.parts > now.parts) row[to] = join(until, after);
      }
    }
    return true;
  };
  const keepShift = (gaps: Gaps, { one, two }: Pair, shift: bigint): boolean =>
    keepApart(gaps, one.until, two.from, gapOf(one.time, shift)) &&
    keepApart(gaps, two.until, one.from, gapOf(two.time, 1n - shift));
  const isOpen = (gaps: Gaps, { one, two }: Pair, shift: bigint): boolean =>
    hasRoom(gaps, one.until, two.from, gapOf(one.time, shift)) &&
    hasRoom(gaps, two.until, one.from, gapOf(two.time, 1n - shift));

  /** What each unit asks for by itself; units begin in the order of their numbers, all within one period. */
  const layOut = (gaps: Gaps): boolean => {
    for (let base = 0; base < size; base += count) {
      for (const [at, { hangsOn, follows }] of tasks.entries()) {
        const waits = [
          ...hangsOn.map((each) => [each, tasks[each]!.hands] as const),
          ...follows.map((each) => [each, tasks[each]!.whole] as const),
        ];
        for (const [each, time] of waits)
          if (!keepApart(gaps, base + each, base + at, gapOf(time, 0n))) return false;
        for (let first = 0; first < count; first++) {
          const stand = gapOf(tasks[at]!.whole + lost, BigInt(stays));
          if (!keepApart(gaps, base + at, base + first, stand)) return false;
        }
      }
      if (base > 0 && !keepApart(gaps, base - count, base, gapOf(0n, 0n))) return false;
    }
    return units === 1 || keepApart(gaps, size - count, 0, gapOf(0n, 1n));
  };

  /** True where starts exist, false where none do, null where the nodes ran out. */
  const search = (gaps: Gaps, pairs: readonly Pair[]): boolean | null => {
    if (left-- <= 0) return null;
    const open: Pair[] = [];
    for (const pair of pairs) {
      const shifts = pair.shifts.filter((shift) => isOpen(gaps, pair, shift));
      if (shifts.length === 0) return false;
      open.push({ ...pair, shifts });
    }
    if (open.length === 0) return true;
    const next = open.reduce((best, each) => (each.shifts.length < best.shifts.length ? each : best));
    const others = open.filter((each) => each !== next);
    for (const shift of next.shifts) {
      const copy = next.shifts.length === 1 ? gaps : gaps.map((row) => [...row]);
      if (!keepShift(copy, next, shift)) continue;
      const found = search(copy, others);
      if (found !== false) return found;
    }
    return false;
  };

  const pairs = pairsOf(tasks, terms);
  for (;;) {
    const none = gapOf(0n, 0n);
    const gaps: Gaps = Array.from({ length: size }, (_, at) =>
      Array.from({ length: size }, (_, to) => (at === to ? none : null)),
    );
    opens = null;
    const found = layOut(gaps) ? search(gaps, pairs) : false;
    const isFirst = period === from;
    if (found === true) return { isFromFirst: isFirst, least: period };
    if (found === null || opens === null)
      return isFirst && found === null ? null : { isFromFirst: false, least: null };
    period = opens;
  }
}

/** Starts of two units differ by the time that each stands and a period at the most, which bounds the shifts. */
function pairsOf(tasks: readonly PeriodicTask[], { units, places, shared, stays }: PeriodicTerms): Pair[] {
  const shifts: bigint[] = [];
  for (let shift = -2 - 2 * stays; shift <= 2 + 2 * stays; shift++) shifts.push(BigInt(shift));
  const uses: PeriodicUse[] = [];
  for (let unit = 0; unit < units; unit++) {
    const base = unit * tasks.length;
    for (const [at, { hands, takers }] of tasks.entries())
      for (const taker of takers)
        uses.push({ by: `${unit % places}: ${taker}`, from: base + at, until: base + at, time: hands });
    for (const { by, from, until, time } of shared)
      uses.push({ by, from: base + from, until: base + until, time });
  }
  const pairs = new Map<string, Pair>();
  for (const [at, one] of uses.entries())
    for (const two of uses.slice(at + 1))
      if (one.by === two.by && one.time > 0n && two.time > 0n) {
        // Two people who do both tasks together ask it once.
        const key = [one.from, one.until, two.from, two.until].join();
        if (!pairs.has(key)) pairs.set(key, { one, two, shifts });
      }
  return [...pairs.values()];
}
