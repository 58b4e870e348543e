/** What the best plan of a small line reaches, found by looking at every way to cut it into stations. */
export interface Evenest {
  /** The shortest longest station. */
  readonly limit: number;
  /** With that longest station, the least sum of squared station times. */
  readonly squares: number;
}

/**
 * Plain dynamic programming over all subsets of tasks that may come first: for each number of stations up to `count`,
 * none of them empty, the shortest longest station and then, with no station above it, the least sum of squares. `exactly`
 * counts plans of `count` stations only. For up to about 10 tasks.
 */
export function evenest(
  times: readonly number[],
  before: readonly (readonly number[])[],
  count: number,
  exactly: boolean,
): Evenest {
  const first = cut(times, before, count, exactly, Number.POSITIVE_INFINITY, Math.max, (load) => load);
  const squares = cut(
    times,
    before,
    count,
    exactly,
    first,
    (one, two) => one + two,
    (load) => load * load,
  );
  return { limit: first, squares };
}

function cut(
  times: readonly number[],
  before: readonly (readonly number[])[],
  count: number,
  exactly: boolean,
  most: number,
  join: (one: number, two: number) => number,
  worth: (load: number) => number,
): number {
  const every = 2 ** times.length - 1;
  const needed = before.map((tasks) => tasks.reduce((set, task) => set | (1 << task), 0));
  const has = (set: number, task: number) => (set & (1 << task)) !== 0;
  const load = (set: number) => times.reduce((sum, own, task) => sum + (has(set, task) ? own : 0), 0);
  const starts = Array.from({ length: every + 1 }, (_, set) => set).filter((set) =>
    needed.every((tasks, task) => !has(set, task) || (tasks & ~set) === 0),
  );
  let known = new Map([[0, 0]]);
  let best = every === 0 ? 0 : Number.POSITIVE_INFINITY;
  for (let station = 1; station <= count; station++) {
    const next = new Map<number, number>();
    for (const [from, value] of known) {
      for (const to of starts) {
        const own = to === from || (from & ~to) !== 0 ? Number.POSITIVE_INFINITY : load(to & ~from);
        if (own === Number.POSITIVE_INFINITY || own > most) continue;
        next.set(to, Math.min(next.get(to) ?? Number.POSITIVE_INFINITY, join(value, worth(own))));
      }
    }
    known = next;
    const whole = known.get(every) ?? Number.POSITIVE_INFINITY;
    if (!exactly || station === count) best = Math.min(best, whole);
  }
  return best;
}
