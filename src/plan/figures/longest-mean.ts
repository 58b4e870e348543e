import { leastCommonMultiple, type Ratio, ratio } from "../../time/ratio.js";

/** `to` comes no sooner than so much time after `from`, which is so many moves of the line before it. */
export interface Arc {
  readonly from: number;
  readonly to: number;
  readonly time: Ratio;
  /** Whole, from 0; no way round has none. */
  readonly moves: number;
}

/**
 * The most time a move on any way round, where one move takes `least` at least: how often the line moves on in the long run. By Newton's steps
 * from `least` upwards (Dinkelbach 1967): a way round that takes longer is looked for by Bellman's method (1958), and gives the next.
 *
 * @param count moments in which the line moves, which are numbered first and follow each other round
 */
export function longestMean(count: number, arcs: readonly Arc[], least: Ratio): Ratio {
  const part = [least, ...arcs.map(({ time }) => time)].reduce(
    (den, each) => leastCommonMultiple(den, each.den),
    1n,
  );
  const inParts = ({ num, den }: Ratio) => num * (part / den);
  const moving = Array.from({ length: count }, (_, from) => ({
    from,
    to: (from + 1) % count,
    time: least,
    moves: 1,
  }));
  const all = [...moving, ...arcs]
    .sort((one, two) => (one.from % count) - (two.from % count) || one.from - two.from)
    .map(({ from, to, time, moves }) => ({ from, to, time: inParts(time), moves: BigInt(moves) }));
  let mean = ratio(inParts(least));
  for (;;) {
    const round = longerWayRound(all, mean);
    if (round === null) return ratio(mean.num, mean.den * part);
    const [time, moves] = [
      round.reduce((sum, each) => sum + each.time, 0n),
      round.reduce((sum, each) => sum + each.moves, 0n),
    ];
    mean = ratio(time, moves);
  }
}

interface WholeArc {
  readonly from: number;
  readonly to: number;
  readonly time: bigint;
  readonly moves: bigint;
}

/** Arcs that lead round and take longer than `mean` a move; null where none do. */
function longerWayRound(arcs: readonly WholeArc[], { num, den }: Ratio): WholeArc[] | null {
  const size = 1 + arcs.reduce((most, { from, to }) => Math.max(most, from, to), 0);
  const lengths = arcs.map(({ time, moves }) => time * den - moves * num);
  const latest = new Array<bigint>(size).fill(0n);
  const by = new Array<WholeArc | null>(size).fill(null);
  for (;;) {
    let isLater = false;
    for (const [at, arc] of arcs.entries()) {
      const time = latest[arc.from]! + lengths[at]!;
      if (time <= latest[arc.to]!) continue;
      latest[arc.to] = time;
      by[arc.to] = arc;
      isLater = true;
    }
    if (!isLater) return null;
    const round = wayRound(by);
    if (round !== null) return round;
  }
}

/** A way round along the arcs by which moments became latest; null where there is none. */
function wayRound(by: readonly (WholeArc | null)[]): WholeArc[] | null {
  const seenFrom = new Array<number>(by.length).fill(-1);
  for (const start of by.keys()) {
    let at = start;
    while (seenFrom[at] === -1 && by[at] !== null) {
      seenFrom[at] = start;
      at = by[at]!.from;
    }
    if (seenFrom[at] !== start) continue;
    const round: WholeArc[] = [];
    let each = at;
    do {
      round.push(by[each]!);
      each = by[each]!.from;
    } while (each !== at);
    return round;
  }
  return null;
}
