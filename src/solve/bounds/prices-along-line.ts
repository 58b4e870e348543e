import type { Cost } from "../cost.js";
import { positionalWeights } from "../order-of-work.js";
import { commonDivisor } from "../search/exact-sums.js";
import { type Home, kindAt, mayHold, type Today, type Work } from "../work.js";
import { ceilingDivision } from "./whole-numbers.js";

/**
 * What plans of so many stations move at the least, by prices (a Lagrangian relaxation, Geoffrion 1974). Every block has a price, and each
 * station in turn takes what is worth most to it: the prices of blocks that fit together, less what moves. Only that is asked of
 * stations, that blocks stand no sooner and no later than those before and behind them leave room for, by the turn of the station and
 * on a floor by its position as well, and that the labels of today's plan ascend. As every block stands somewhere once, a plan moves
 * at least the prices of all blocks less what the stations could take. That holds for any prices; subgradients look for good ones (Held,
 * Wolfe & Crowder 1974), each with a share of those before it, from the best prices so far (Barahona & Anbil 2000). The same is true of
 * what a partial plan leaves.
 *
 * Prices are whole parts of a move, so that sums are exact. Supports every work: it speaks of time and of places of blocks alone.
 */
export class PricesAlongLine {
  steps = 0;
  private readonly slots: readonly Slot[];
  /** On a floor, what stations may take by position, and at each by turn; none elsewhere. */
  private readonly cells: readonly Cell[];
  private readonly mostStations: number;
  /** On a floor, positions from this one on are all alike. */
  private readonly distinct: number;
  /** What a move of each block costs, in parts; dear ones count as no more than the most. */
  private readonly costs: Float64Array;
  private readonly weights: Int32Array;
  /** The most that stations from each turn on can take, by row. */
  private readonly ahead: readonly Float64Array[];
  /** By block, in parts of a move. */
  readonly prices: Float64Array;
  /** Of all blocks. */
  private all = 0;
  // What blocks of one slot come to, by room: those from each on, those up to one, and these with those that stay.
  private readonly from: Float64Array[];
  private readonly tables: readonly Float64Array[];
  private readonly upTo: Float64Array;
  private readonly withOwn: Float64Array;
  private readonly worths: Float64Array;
  private readonly isIn: Uint8Array;

  /** @param prices of blocks and arrows; where nothing is said they are looked for before anything is asked of them */
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
    const turns = turnsOf(work, this.mostStations);
    const { labelAt } = today;
    this.distinct = labelAt === null ? 0 : distinctPositions(work, labelAt);
    const layout = new SlotLayout(work, today, turns, this.mostStations, unit);
    this.cells = labelAt === null ? [] : layout.floor(labelAt, this.distinct);
    if (labelAt === null) layout.line();
    this.slots = layout.slots;
    const columns = (labelAt === null ? today.labels : this.mostStations) + 1;
    const rows = labelAt === null ? this.mostStations : this.distinct;
    this.ahead = Array.from({ length: rows + 1 }, () => new Float64Array(columns));
    const rooms = Math.floor(most / unit) + 1;
    const widest = Math.max(0, ...this.slots.map(({ blocks }) => blocks.length));
    this.tables = Array.from({ length: widest + 1 }, () => new Float64Array(rooms));
    this.from = this.tables.slice();
    this.upTo = new Float64Array(rooms);
    this.withOwn = new Float64Array(rooms);
    this.worths = new Float64Array(widest);
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

  /** What the prices of the blocks of one station come to, in parts of a move, less what moves where it keeps the label. */
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
   * @param worth what its stations came to, each under its label and by its turn
   */
  leastWith(worth: number, position: number, stations: number, nextLabel: number): number {
    const ahead =
      this.today.labelAt === null
        ? this.ahead[stations]![nextLabel]!
        : this.ahead[Math.min(position, this.distinct)]![stations]!;
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
    const center = prices.slice();
    const slope = new Float64Array(prices.length);
    this.look();
    if (this.steps * FEWEST_LOOKS > mostSteps) return;
    let best = this.worth;
    let [step, waited] = [1, 0];
    this.slopeAt(slope);
    const way = slope.slice();
    while (this.steps < mostSteps && step > SMALLEST_STEP && best <= aim - SCALE) {
      const norm = way.reduce((sum, each) => sum + each ** 2, 0);
      if (norm === 0) break;
      const length = (step * Math.max(aim - best, SCALE / 2)) / norm;
      for (let block = 0; block < prices.length; block++)
        prices[block] = Math.round(center[block]! + length * way[block]!);
      this.look();
      yield null;
      this.slopeAt(slope);
      const dot = slope.reduce((sum, each, block) => sum + each * way[block]!, 0);
      if (this.worth > best) {
        best = this.worth;
        center.set(prices);
        if (dot >= 0) step *= LONGER;
        waited = 0;
      } else if (++waited >= PATIENCE) {
        step *= SHORTER;
        waited = 0;
      }
      for (let block = 0; block < way.length; block++)
        way[block]! += SHARE_OF_SLOPE * (slope[block]! - way[block]!);
    }
    prices.set(center);
    this.look();
  }

  /** By how much each block is taken less than once: its price is the better the higher. */
  private slopeAt(slope: Float64Array): void {
    slope.fill(1);
    this.takeAll(slope);
  }

  /** What stations from each turn on can take at the prices. */
  private look(): void {
    const { slots, ahead, today } = this;
    this.all = this.prices.reduce((sum, each) => sum + each, 0);
    for (const slot of slots) this.valueAt(slot);
    if (today.labelAt !== null) {
      this.lookAlongFloor();
      return;
    }
    for (let at = slots.length - 1; at >= 0; at--) {
      const slot = slots[at]!;
      const [now, next] = [ahead[at]!, ahead[at + 1]!];
      const last = now.length - 1;
      for (let label = 0; label <= last; label++) now[label] = slot.asNew + next[label]!;
      for (const { label, value } of slot.groups)
        if (label >= 0) now[label] = Math.max(now[label]!, value + next[label + 1]!);
      for (let label = last - 1; label >= 0; label--) now[label] = Math.max(now[label]!, now[label + 1]!);
    }
  }

  private lookAlongFloor(): void {
    const { cells, ahead, distinct } = this;
    let at = cells.length - 1;
    const behind = ahead[distinct]!;
    for (; at >= 0 && cells[at]!.position === distinct; at--)
      behind[cells[at]!.turn] = worthOfCell(cells[at]!) + behind[cells[at]!.turn + 1]!;
    for (let position = distinct - 1; position >= 0; position--) {
      const [now, next] = [ahead[position]!, ahead[position + 1]!];
      now.set(next);
      for (; at >= 0 && cells[at]!.position === position; at--) {
        const { turn } = cells[at]!;
        now[turn] = Math.max(next[turn]!, worthOfCell(cells[at]!) + next[turn + 1]!);
      }
    }
  }

  /** What a new station takes there, and one of each label of which blocks may stand there. */
  private valueAt(slot: Slot): void {
    const { from, tables, upTo, withOwn, weights, worths } = this;
    const { blocks, room, groups } = slot;
    this.steps += blocks.length;
    this.setWorths(slot.blocks);
    const none = tables[blocks.length]!;
    none.fill(0, 0, room + 1);
    from[blocks.length] = none;
    for (let at = blocks.length - 1; at >= 0; at--) {
      if (worths[at]! <= 0) {
        from[at] = from[at + 1]!;
        continue;
      }
      const table = tables[at]!;
      table.set(from[at + 1]!);
      this.add(table, room, weights[blocks[at]!]!, worths[at]!);
      from[at] = table;
    }
    slot.asNew = from[0]![room]!;
    for (const block of slot.alone) slot.asNew = Math.max(slot.asNew, this.worthOf(block));
    if (groups.length === 0) return;
    upTo.fill(0, 0, room + 1);
    let added = 0;
    for (const group of groups) {
      for (; added < group.start; added++) this.add(upTo, room, weights[blocks[added]!]!, worths[added]!);
      withOwn.set(upTo);
      for (let at = group.start; at < group.end; at++)
        this.add(withOwn, room, weights[blocks[at]!]!, worths[at]! + group.saved[at - group.start]!);
      const behind = from[group.end]!;
      let best = 0;
      for (let used = 0; used <= room; used++) {
        const sum = withOwn[used]! + behind[room - used]!;
        if (sum > best) best = sum;
      }
      this.steps += room;
      for (const { block, saved } of group.alone) best = Math.max(best, this.worthOf(block) + saved);
      group.value = best + group.more;
    }
  }

  private worthOf(block: number): number {
    return this.prices[block]! - this.costs[block]!;
  }

  private setWorths(blocks: readonly number[]): void {
    for (let at = 0; at < blocks.length; at++) this.worths[at] = this.worthOf(blocks[at]!);
  }

  /** One more block for what fits each room. */
  private add(table: Float64Array, room: number, weight: number, worth: number): void {
    if (worth <= 0) return;
    this.steps += room;
    for (let left = room; left >= weight; left--) {
      const sum = table[left - weight]! + worth;
      if (sum > table[left]!) table[left] = sum;
    }
  }

  /** What stations take that take the most: each block less from its slope. */
  private takeAll(slope: Float64Array): void {
    const { slots, ahead, today } = this;
    if (today.labelAt !== null) {
      this.takeAlongFloor(slope);
      return;
    }
    let column = 0;
    for (const [at, slot] of slots.entries()) {
      const [now, next] = [ahead[at]!, ahead[at + 1]!];
      while (column < today.labels && now[column] === now[column + 1]) column++;
      const kept = slot.groups.find(
        ({ label, value }) => label === column && now[column] === value + next[column + 1]!,
      );
      this.take(slot, kept ?? null, slope);
      if (kept !== undefined) column++;
    }
  }

  private takeAlongFloor(slope: Float64Array): void {
    const { cells, ahead, distinct } = this;
    let [turn, last] = [0, -1];
    for (const { position, turn: own, slot, group } of cells) {
      // Behind all positions that differ every turn is taken, before that one at each at the most.
      const isTaken = position === distinct || ahead[position]![turn]! > ahead[position + 1]![turn]!;
      if (own !== turn || position === last || !isTaken) continue;
      this.take(slot, group, slope);
      turn++;
      if (position < distinct) last = position;
    }
  }

  /** What a station takes that keeps the label of a group, or is new. */
  private take(slot: Slot, group: Group | null, slope: Float64Array): void {
    const { upTo, weights, isIn, worths } = this;
    const { blocks, room, alone, asNew } = slot;
    this.setWorths(slot.blocks);
    if (group !== null)
      for (let at = group.start; at < group.end; at++) worths[at]! += group.saved[at - group.start]!;
    upTo.fill(0, 0, room + 1);
    for (let at = 0; at < blocks.length; at++) {
      const [row, weight, worth] = [at * (room + 1), weights[blocks[at]!]!, worths[at]!];
      isIn.fill(0, row, row + room + 1);
      if (worth <= 0) continue;
      this.steps += room;
      for (let left = room; left >= weight; left--) {
        const sum = upTo[left - weight]! + worth;
        if (sum <= upTo[left]!) continue;
        upTo[left] = sum;
        isIn[row + left] = 1;
      }
    }
    const most = group === null ? asNew : group.value - group.more;
    if (upTo[room]! < most) {
      const single = group?.alone.find(({ block, saved }) => this.worthOf(block) + saved === most);
      const block = single?.block ?? alone.find((each) => this.worthOf(each) === most);
      if (block !== undefined) slope[block]!--;
      return;
    }
    for (let at = blocks.length - 1, left = room; at >= 0; at--) {
      if (isIn[at * (room + 1) + left] === 0) continue;
      slope[blocks[at]!]!--;
      left -= weights[blocks[at]!]!;
    }
  }
}

/** A station of the new plan by its turn, on a floor at one of some positions that may hold the same. */
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

/** The station of a turn at a position of a floor, with what has its home there. */
interface Cell {
  readonly position: number;
  readonly turn: number;
  readonly slot: Slot;
  readonly group: Group | null;
}

const worthOfCell = ({ slot, group }: Cell): number => group?.value ?? slot.asNew;

/** The first and the last turn of each block. */
interface Turns {
  readonly first: readonly number[];
  readonly last: readonly number[];
}

/** Whether two blocks never share a station. */
function areParted(work: Work, one: number, two: number): boolean {
  const { zones, apart, waits, loads, kinds, allowed } = work;
  if (apart[one]!.includes(two)) return true;
  if (zones[one] !== null && zones[two] !== null && zones[one] !== zones[two]) return true;
  if (waits.some(({ from, to }) => (from === one && to === two) || (from === two && to === one))) return true;
  if (!kinds.some((_, kind) => allowed[one]![kind]! && allowed[two]![kind]!)) return true;
  if (loads[one] === 0 || loads[two] === 0) return false;
  const sum = loads[one]! + loads[two]!;
  return kinds.every(({ limits }) => sum > limits.at(-1)!);
}

function turnsOf(work: Work, mostStations: number): Turns {
  const anyKind = work.kinds.map((_, kind) => kind);
  const step = commonDivisor(work.loads);
  const shared = roomOf(work, anyKind).shared;
  const most = Math.max(1, shared - (shared % step));
  const times = work.loads.map((load) => Math.min(most, load));
  const reached = (before: Work["before"], order: readonly number[]) => {
    const turns = Array.from(
      positionalWeights({ times, limit: most, before: before === work.after ? work.before : work.after }),
      (sum) => Math.max(1, ceilingDivision(sum, most)),
    );
    for (const block of order)
      for (const each of before[block]!)
        turns[block] = Math.max(turns[block]!, turns[each]! + (areParted(work, each, block) ? 1 : 0));
    return turns;
  };
  const order = [...work.loads.keys()];
  return {
    first: reached(work.before, order).map((count) => count - 1),
    last: reached(work.after, order.toReversed()).map((count) => mostStations - count),
  };
}

/** Positions from this one on are all alike, and no label stands there. */
const distinctPositions = (work: Work, labelAt: readonly number[]): number =>
  Math.max(work.kinds.length - 1, labelAt.findLastIndex((label) => label >= 0) + 1);

/** The positions between which each block must stand, by the stations that may hold it and those before and behind it. */
function placesOnFloor(work: Work): Turns {
  const kinds = [...work.kinds.keys()];
  const may = kinds.map((kind) => work.loads.map((_, block) => mayHold(work, block, kind)));
  const beyond = kinds.length - 1;
  const first = work.first.map((own, block) => {
    const kind = kinds.findIndex((each) => may[each]![block]! && (each === beyond || each >= own));
    return kind < 0 ? own : Math.max(own, kind);
  });
  const last = work.last.map((own, block) => {
    if (may[beyond]![block]! && own >= beyond) return own;
    const kind = kinds.findLastIndex((each) => each < beyond && may[each]![block]! && each <= own);
    return kind < 0 ? own : Math.min(own, kind);
  });
  const between = (from: number, to: number) =>
    work.waits.reduce(
      (most, wait) => (wait.from === from && wait.to === to ? Math.max(most, wait.stations) : most),
      areParted(work, from, to) ? 1 : 0,
    );
  for (let block = 0; block < work.size; block++)
    for (const each of work.before[block]!)
      first[block] = Math.max(first[block]!, first[each]! + between(each, block));
  for (let block = work.size - 1; block >= 0; block--)
    for (const each of work.before[block]!)
      last[each] = Math.min(last[each]!, last[block]! - between(each, block));
  return { first, last };
}

/** Lays out what each station may take. */
class SlotLayout {
  readonly slots: Slot[] = [];
  private readonly inOrder: readonly number[];
  private readonly mayStand: readonly (readonly boolean[])[];

  constructor(
    private readonly work: Work,
    private readonly today: Today,
    private readonly turns: Turns,
    private readonly mostStations: number,
    private readonly unit: number,
  ) {
    this.inOrder = [...work.loads.keys()].sort(
      (one, two) => this.homeOf(one) - this.homeOf(two) || one - two,
    );
    this.mayStand = work.kinds.map((_, kind) => work.loads.map((_load, block) => mayHold(work, block, kind)));
  }

  /** By turn, under any label. */
  line(): void {
    const { work, mostStations, today, mayStand } = this;
    const kinds = [...work.kinds.keys()];
    for (let turn = 0; turn < mostStations; turn++) {
      const here = this.inOrder.filter(
        (block) => this.isInTurn(block, turn) && kinds.some((kind) => mayStand[kind]![block]!),
      );
      const homes = new Set(here.flatMap((block) => today.homes[block]!.map(({ label }) => label)));
      this.slots.push(this.slot(here, roomOf(work, kinds), homes));
    }
  }

  /** By position and turn, each under the label that stands there; of positions from one on that are all alike only that one. */
  floor(labelAt: readonly number[], distinct: number): Cell[] {
    const { work, mostStations } = this;
    const places = placesOnFloor(work);
    const widest = roomOf(work, [...work.kinds.keys()]).shared;
    const stationsFor = (isMeant: (block: number) => boolean) =>
      ceilingDivision(
        work.loads.reduce((sum, load, block) => sum + (isMeant(block) ? Math.min(widest, load) : 0), 0),
        widest,
      );
    const seen = new Map<
      string,
      { readonly here: number[]; readonly kind: number; readonly labels: Set<number> }
    >();
    const wanted: {
      readonly position: number;
      readonly turn: number;
      readonly key: string;
      readonly label: number;
    }[] = [];
    for (let position = 0; position <= distinct; position++) {
      const isBehind = position === distinct;
      const kind = kindAt(work, position);
      const label = labelAt[position] ?? NEW;
      const there = this.inOrder.filter(
        (block) =>
          (isBehind || places.first[block]! <= position) &&
          position <= places.last[block]! &&
          this.mayStand[kind]![block]!,
      );
      const first = isBehind ? 0 : stationsFor((block) => places.last[block]! < position);
      const last =
        mostStations - 1 - (isBehind ? 0 : stationsFor((block) => places.first[block]! > position));
      for (let turn = first; turn <= (isBehind ? last : Math.min(position, last)); turn++) {
        const here = there.filter((block) => this.isInTurn(block, turn));
        if (here.length === 0 && !isBehind) continue;
        const { shared, alone } = roomOf(work, [kind]);
        const key = `${shared} ${alone} ${here.join()}`;
        const alike = seen.get(key) ?? { here, kind, labels: new Set() };
        seen.set(key, alike);
        alike.labels.add(label);
        wanted.push({ position, turn, key, label });
      }
    }
    const slots = new Map<string, Slot>();
    for (const [key, { here, kind, labels }] of seen) {
      const slot = this.slot(here, roomOf(work, [kind]), labels);
      this.slots.push(slot);
      slots.set(key, slot);
    }
    return wanted.map(({ position, turn, key, label }) => {
      const slot = slots.get(key)!;
      return { position, turn, slot, group: slot.groups.find((each) => each.label === label) ?? null };
    });
  }

  /** @param labels those that the station may keep */
  private slot(here: readonly number[], { shared, alone }: Room, labels: ReadonlySet<number>): Slot {
    const { work, today } = this;
    const blocks = here.filter((block) => work.loads[block]! <= shared);
    const single = here.filter((block) => work.loads[block]! > shared && work.loads[block]! <= alone);
    const several = blocks.filter((block) => today.homes[block]!.length > 1);
    const groups: Group[] = [];
    let end = 0;
    for (const label of [...labels].filter((each) => each >= 0).sort((one, two) => one - two)) {
      while (end < blocks.length && this.homeOf(blocks[end]!) < label) end++;
      const start = end;
      while (end < blocks.length && this.homeOf(blocks[end]!) === label) end++;
      groups.push({
        label,
        start,
        end,
        saved: blocks.slice(start, end).map((block) => this.savedAt(block, label)),
        alone: single
          .filter((block) => this.savedAt(block, label) > 0)
          .map((block) => ({ block, saved: this.savedAt(block, label) })),
        more: several.reduce(
          (sum, block) => sum + (this.homeOf(block) < label ? this.savedAt(block, label) : 0),
          0,
        ),
        value: 0,
      });
    }
    return { room: Math.floor(shared / this.unit), blocks, groups, alone: single, asNew: 0 };
  }

  private homeOf(block: number): number {
    return this.today.homes[block]![0]?.label ?? NEW;
  }

  private isInTurn(block: number, turn: number): boolean {
    return this.turns.first[block]! <= turn && turn <= this.turns.last[block]!;
  }

  private savedAt(block: number, label: number): number {
    const own = this.today.homes[block]!.filter((home) => home.label === label);
    return SCALE * own.reduce((sum, home) => sum + costOf(home), 0);
  }
}

interface Room {
  readonly shared: number;
  readonly alone: number;
}

/** Of any station of these kinds: the most that blocks share, and the most of one that stands alone. */
function roomOf(work: Work, kinds: readonly number[]): Room {
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
/** Prices that are looked at less often say less than what must leave each station by itself. */
const FEWEST_LOOKS = 150;
const SMALLEST_STEP = 1e-2;
/** A step is made shorter when so many in turn gave no higher bound. */
const PATIENCE = 8;
const SHORTER = 0.7;
const LONGER = 1.1;
/** Of a direction, so much is the last slope, the rest those before it. */
const SHARE_OF_SLOPE = 0.1;
