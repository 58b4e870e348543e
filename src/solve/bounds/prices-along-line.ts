import type { Cost } from "../cost.js";
import { positionalWeights } from "../order-of-work.js";
import { commonDivisor } from "../search/exact-sums.js";
import { type Home, kindAt, mayHold, type Today, type Work } from "../work.js";
import { ceilingDivision } from "./whole-numbers.js";

/**
 * What plans of so many stations move at the least, by prices (a Lagrangian relaxation, Geoffrion 1974). Every block has a price, and each
 * station in turn takes what is worth most to it: the prices of blocks that fit together, less what moves. Only that is asked of
 * stations, that blocks stand no sooner and no later than those before and behind them leave room for, and that the labels of today's
 * plan ascend. As every block stands somewhere once, a plan moves at least the prices of all blocks less what the stations could
 * take. That holds for any prices; subgradients look for good ones (Held, Wolfe & Crowder 1974). The same is true of what a
 * partial plan leaves.
 *
 * Prices are whole parts of a move, so that sums are exact. Supports every work: it speaks of time and of places of blocks alone.
 */
export class PricesAlongLine {
  steps = 0;
  private readonly slots: readonly Slot[];
  private readonly mostStations: number;
  /** What a move of each block costs, in parts; dear ones count as no more than the most. */
  private readonly costs: Float64Array;
  private readonly weights: Int32Array;
  /** The most that stations from each slot on can take, by the labels passed, on a floor by the stations used. */
  private readonly ahead: readonly Float64Array[];
  /** By block, in parts of a move. */
  readonly prices: Float64Array;
  /** Of all blocks. */
  private all = 0;
  // What blocks of one slot come to, by room: those from each on, those up to one, and these with those that stay.
  private readonly from: readonly Float64Array[];
  private readonly upTo: Float64Array;
  private readonly withOwn: Float64Array;
  private readonly isIn: Uint8Array;

  /** @param prices by block, in parts of a move; where nothing is said they are looked for before anything is asked of them */
  constructor(
    work: Work,
    private readonly today: Today,
    private readonly ceiling: Cost,
    prices: Float64Array | null = null,
  ) {
    const { people, stations } = ceiling;
    this.mostStations = Math.min(work.size, (stations > 0 ? Math.max(stations, people) : people) - 1);
    this.costs = Float64Array.from(
      today.homes,
      (homes) => SCALE * homes.reduce((sum, home) => sum + costOf(home), 0),
    );
    const most = Math.max(...work.kinds.map((_, kind) => roomOf(work, [kind]).shared));
    const unit = Math.max(1, commonDivisor(work.loads), Math.ceil(most / MOST_UNITS));
    this.weights = Int32Array.from(work.loads, (load) => Math.floor(load / unit));
    this.slots = layOutSlots(work, today, this.mostStations, unit);
    const columns = (today.labelAt === null ? today.labels : this.mostStations) + 1;
    this.ahead = Array.from({ length: this.slots.length + 1 }, () => new Float64Array(columns));
    const rooms = Math.floor(most / unit) + 1;
    const widest = Math.max(0, ...this.slots.map(({ blocks }) => blocks.length));
    this.from = Array.from({ length: widest + 1 }, () => new Float64Array(rooms));
    this.upTo = new Float64Array(rooms);
    this.withOwn = new Float64Array(rooms);
    this.isIn = new Uint8Array(widest * rooms);
    this.prices =
      prices?.slice() ?? Float64Array.from(work.loads, (load) => Math.round((SCALE * load) / most));
    if (prices !== null) this.look();
  }

  /** Whether prices say anything: not where stations have several places, nor where many blocks have several homes. */
  static suits(work: Work, { homes, beside }: Today): boolean {
    const several = homes.filter((own) => own.length > 1).length;
    return (
      work.size <= MOST_BLOCKS &&
      work.kinds.every(({ limits, atOnce }) => limits.length === 1 && atOnce === 1) &&
      several * FEW_OF <= work.size &&
      beside === undefined
    );
  }

  /** The same prices along the same line, read from its other end. */
  turned(work: Work, today: Today): PricesAlongLine {
    return new PricesAlongLine(work, today, this.ceiling, this.prices);
  }

  /** No plan moves less. */
  get bound(): number {
    return Math.max(0, Math.ceil(this.worth / SCALE));
  }

  /** The prices of all blocks less what all stations can take. */
  private get worth(): number {
    return this.all - this.ahead[0]![0]!;
  }

  /** What the prices of blocks come to, in parts of a move, less what moves where their station keeps the label. */
  worthAt(blocks: readonly number[], label: number): number {
    let worth = 0;
    for (const block of blocks) {
      worth += this.prices[block]! - this.costs[block]!;
      for (const home of this.today.homes[block]!) if (home.label === label) worth += SCALE * costOf(home);
    }
    return worth;
  }

  /**
   * What a partial plan moves at the least, in moves and parts of one.
   *
   * @param worth what its stations came to, each under its label
   */
  leastWith(worth: number, position: number, stations: number, nextLabel: number): number {
    const { labelAt } = this.today;
    const ahead = labelAt === null ? this.ahead[stations]![nextLabel]! : this.ahead[position]![stations]!;
    return (this.all - worth - ahead) / SCALE;
  }

  /**
   * Looks for prices with a higher bound; gives null now and then.
   *
   * @param known no bound is higher
   */
  *raise(known: number, mostSteps: number): Generator<null> {
    const { prices, costs } = this;
    const aim = Math.min(
      known * SCALE,
      costs.reduce((sum, each) => sum + each, 0),
    );
    const at = Float64Array.from(prices);
    const taken = new Int32Array(prices.length);
    this.look();
    let best = { worth: this.worth, prices: prices.slice() };
    let [step, waited] = [1, 0];
    while (this.steps < mostSteps && step > SMALLEST_STEP && best.worth <= aim - SCALE) {
      taken.fill(0);
      this.takeAll(taken);
      let norm = 0;
      for (const count of taken) norm += (1 - count) ** 2;
      if (norm === 0) break;
      const length = (step * Math.max(aim - this.worth, SCALE / 2)) / norm;
      for (let block = 0; block < at.length; block++) {
        at[block]! += length * (1 - taken[block]!);
        prices[block] = Math.round(at[block]!);
      }
      this.look();
      yield null;
      if (this.worth > best.worth) {
        best = { worth: this.worth, prices: prices.slice() };
        waited = 0;
      } else if (++waited >= PATIENCE) {
        step *= SHORTER;
        waited = 0;
        at.set(best.prices);
        prices.set(best.prices);
        this.look();
      }
    }
    prices.set(best.prices);
    this.look();
  }

  /** Steps that it takes to look once at what all stations can take. */
  get stepsToLook(): number {
    return this.slots.reduce(
      (sum, { blocks, groups, room }) => sum + (3 * blocks.length + 2 * groups.length) * (room + 1),
      0,
    );
  }

  /** What stations from each slot on can take at the prices. */
  private look(): void {
    const { slots, ahead, today } = this;
    this.all = this.prices.reduce((sum, each) => sum + each, 0);
    this.steps += this.stepsToLook;
    for (let at = slots.length - 1; at >= 0; at--) {
      const slot = slots[at]!;
      this.valueAt(slot);
      const [now, next] = [ahead[at]!, ahead[at + 1]!];
      const last = now.length - 1;
      if (today.labelAt !== null) {
        const value = Math.max(slot.asNew, ...slot.groups.map((group) => group.value));
        for (let used = 0; used < last; used++) now[used] = Math.max(next[used]!, value + next[used + 1]!);
        continue;
      }
      for (let label = 0; label <= last; label++) now[label] = slot.asNew + next[label]!;
      for (const { label, value } of slot.groups)
        if (label >= 0) now[label] = Math.max(now[label]!, value + next[label + 1]!);
      for (let label = last - 1; label >= 0; label--) now[label] = Math.max(now[label]!, now[label + 1]!);
    }
  }

  /** What a new station takes there, and one of each label of which blocks may stand there. */
  private valueAt(slot: Slot): void {
    const { from, upTo, withOwn, prices, costs, weights } = this;
    const { blocks, room, groups } = slot;
    from[blocks.length]!.fill(0, 0, room + 1);
    for (let at = blocks.length - 1; at >= 0; at--) {
      const block = blocks[at]!;
      const [table, behind] = [from[at]!, from[at + 1]!];
      table.set(behind);
      add(table, room, weights[block]!, prices[block]! - costs[block]!);
    }
    slot.asNew = from[0]![room]!;
    for (const block of slot.alone) slot.asNew = Math.max(slot.asNew, prices[block]! - costs[block]!);
    upTo.fill(0, 0, room + 1);
    let added = 0;
    for (const group of groups) {
      for (; added < group.start; added++)
        add(upTo, room, weights[blocks[added]!]!, prices[blocks[added]!]! - costs[blocks[added]!]!);
      withOwn.set(upTo);
      for (let at = group.start; at < group.end; at++)
        add(
          withOwn,
          room,
          weights[blocks[at]!]!,
          prices[blocks[at]!]! - costs[blocks[at]!]! + group.saved[at - group.start]!,
        );
      const behind = from[group.end]!;
      let best = 0;
      for (let used = 0; used <= room; used++) best = Math.max(best, withOwn[used]! + behind[room - used]!);
      for (const { block, saved } of group.alone)
        best = Math.max(best, prices[block]! - costs[block]! + saved);
      group.value = best + group.more;
    }
  }

  /** Counts how often each block is taken by stations that take the most. */
  private takeAll(taken: Int32Array): void {
    const { slots, ahead, today } = this;
    let column = 0;
    for (const [at, slot] of slots.entries()) {
      const [now, next] = [ahead[at]!, ahead[at + 1]!];
      if (today.labelAt !== null) {
        if (column === this.mostStations || now[column] === next[column]) continue;
        column++;
        const best = slot.groups.reduce<Group | null>(
          (one, two) => (two.value > (one?.value ?? slot.asNew) ? two : one),
          null,
        );
        this.take(slot, best, taken);
        continue;
      }
      while (column < today.labels && now[column] === now[column + 1]) column++;
      const kept = slot.groups.find(
        ({ label, value }) => label === column && now[column] === value + next[column + 1]!,
      );
      this.take(slot, kept ?? null, taken);
      if (kept !== undefined) column++;
    }
  }

  /** What a station takes that keeps the label of a group, or is new. */
  private take({ blocks, room, alone, asNew }: Slot, group: Group | null, taken: Int32Array): void {
    const { upTo, prices, costs, weights, isIn } = this;
    const worthOf = (at: number) => {
      const stays = group !== null && at >= group.start && at < group.end;
      return prices[blocks[at]!]! - costs[blocks[at]!]! + (stays ? group.saved[at - group.start]! : 0);
    };
    upTo.fill(0, 0, room + 1);
    for (let at = 0; at < blocks.length; at++) {
      const [row, weight, worth] = [at * (room + 1), weights[blocks[at]!]!, worthOf(at)];
      isIn.fill(0, row, row + room + 1);
      if (worth <= 0) continue;
      for (let left = room; left >= weight; left--) {
        const sum = upTo[left - weight]! + worth;
        if (sum <= upTo[left]!) continue;
        upTo[left] = sum;
        isIn[row + left] = 1;
      }
    }
    const most = group === null ? asNew : group.value - group.more;
    if (upTo[room]! < most) {
      const single = group?.alone.find(({ block, saved }) => prices[block]! - costs[block]! + saved === most);
      const block = single?.block ?? alone.find((each) => prices[each]! - costs[each]! === most);
      if (block !== undefined) taken[block]!++;
      return;
    }
    for (let at = blocks.length - 1, left = room; at >= 0; at--) {
      if (isIn[at * (room + 1) + left] === 0) continue;
      taken[blocks[at]!]!++;
      left -= weights[blocks[at]!]!;
    }
  }
}

/** One more block for what fits each room. */
function add(table: Float64Array, room: number, weight: number, worth: number): void {
  if (worth <= 0) return;
  for (let left = room; left >= weight; left--) {
    const sum = table[left - weight]! + worth;
    if (sum > table[left]!) table[left] = sum;
  }
}

/** A station of the new plan by its turn, on a floor a position of it. */
interface Slot {
  /** In units of weight. */
  readonly room: number;
  /** Those that may share a station there, by home. */
  readonly blocks: readonly number[];
  readonly groups: readonly Group[];
  /** Those that may only stand alone there. */
  readonly alone: readonly number[];
  asNew: number;
}

/** The blocks of one home, from one place of the list of its slot to another. */
interface Group {
  readonly label: number;
  readonly start: number;
  readonly end: number;
  /** What each of them costs less where it stays. */
  readonly saved: readonly number[];
  readonly alone: readonly { readonly block: number; readonly saved: number }[];
  /** What else may stay at that home, of blocks that have a home before it too. */
  readonly more: number;
  value: number;
}

function layOutSlots(work: Work, today: Today, mostStations: number, unit: number): Slot[] {
  const { labelAt } = today;
  const isFloor = labelAt !== null;
  const count = isFloor ? work.positions : mostStations;
  const anyKind = work.kinds.map((_, kind) => kind);
  const most = Math.max(...anyKind.map((kind) => roomOf(work, [kind]).shared));
  const times = work.loads.map((load) => Math.min(most, load));
  const reached = (before: Work["before"]) =>
    Array.from(positionalWeights({ times, limit: most, before }), (sum) =>
      Math.max(1, ceilingDivision(sum, most)),
    );
  const first = reached(work.after).map((stations) => stations - 1);
  const last = reached(work.before).map((stations) => count - stations);
  const homeOf = (block: number) => today.homes[block]![0]?.label ?? NEW;
  const inOrder = [...work.loads.keys()].sort((one, two) => homeOf(one) - homeOf(two) || one - two);
  const isSeveral = (block: number) => today.homes[block]!.length > 1;
  const savedAt = (block: number, label: number) =>
    SCALE * today.homes[block]!.reduce((sum, each) => sum + (each.label === label ? costOf(each) : 0), 0);
  const mayStand = work.kinds.map((_, kind) => work.loads.map((_, block) => mayHold(work, block, kind)));
  return Array.from({ length: count }, (_, at): Slot => {
    const kinds = isFloor ? [kindAt(work, at)] : anyKind;
    const { shared, alone } = roomOf(work, kinds);
    const isThere = (block: number) => !isFloor || (work.first[block]! <= at && at <= work.last[block]!);
    const here = inOrder.filter(
      (block) =>
        first[block]! <= at &&
        at <= last[block]! &&
        isThere(block) &&
        kinds.some((kind) => mayStand[kind]![block]!),
    );
    const blocks = here.filter((block) => work.loads[block]! <= shared);
    const single = here.filter((block) => work.loads[block]! > shared && work.loads[block]! <= alone);
    const homes = new Set(here.flatMap((block) => today.homes[block]!.map(({ label }) => label)));
    const several = blocks.filter(isSeveral);
    const groups: Group[] = [];
    let end = 0;
    for (const label of [...homes].sort((one, two) => one - two)) {
      while (end < blocks.length && homeOf(blocks[end]!) < label) end++;
      const start = end;
      while (end < blocks.length && homeOf(blocks[end]!) === label) end++;
      if (isFloor && label !== labelAt[at]) continue;
      groups.push({
        label,
        start,
        end,
        saved: blocks.slice(start, end).map((block) => savedAt(block, label)),
        alone: single
          .filter((block) => savedAt(block, label) > 0)
          .map((block) => ({ block, saved: savedAt(block, label) })),
        more: several.reduce((sum, block) => sum + (homeOf(block) < label ? savedAt(block, label) : 0), 0),
        value: 0,
      });
    }
    return { room: Math.floor(shared / unit), blocks, groups, alone: single, asNew: 0 };
  });
}

/** Of any station of these kinds: the most that blocks share, and the most of one that stands alone. */
function roomOf(work: Work, kinds: readonly number[]): { readonly shared: number; readonly alone: number } {
  const limits = kinds.map((kind) => work.kinds[kind]!);
  return {
    shared: Math.max(...limits.map((each) => each.limits.at(-1)!)),
    alone: Math.max(...limits.map((each) => Math.max(each.limits.at(-1)!, each.alone.at(-1)!))),
  };
}

const costOf = ({ cost }: Home): number => Math.min(cost, MOST_COST);

const NEW = -1;
/** Parts of a move. */
const SCALE = 2 ** 16;
/** Dearer moves count as no more than this, so that sums stay exact. */
const MOST_COST = 1_000;
/** Loads and limits are rounded down to so many units a station. */
const MOST_UNITS = 400;
/** One block in so many may have several homes. */
const FEW_OF = 8;
const MOST_BLOCKS = 2_000;
const SMALLEST_STEP = 1e-3;
/** A step is made shorter when so many in turn gave no higher bound. */
const PATIENCE = 8;
const SHORTER = 0.7;
