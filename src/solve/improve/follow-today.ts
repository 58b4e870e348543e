import { countedTime, reachableByPerson } from "../bounds/least-moves.js";
import { OverfullHomes } from "../bounds/overfull-homes.js";
import type { PricesAlongLine } from "../bounds/prices-along-line.js";
import type { Cost } from "../cost.js";
import type { Carried, Closed } from "../station/constraint.js";
import { OpenStation } from "../station/open-station.js";
import type { BlockPlan, FilledStation, Today, Work } from "../work.js";
import { MovesOnTheWay, type WayBehind } from "./moves-on-the-way.js";

/** How wide a beam is, and what it looks at first. */
export interface BeamSize {
  /** Partial plans kept after each position. */
  readonly width: number;
  /** Loads of the next station of one partial plan; where there are more, only those that differ least from today's are looked at. */
  readonly loads: number;
  /** Moves that a person's whole idle time counts for. */
  readonly idle: number;
  /** Goes no further once something had to be left out, or the end would hardly be reached in so many steps. */
  readonly whole?: { readonly mostSteps: number };
}

/**
 * Follows today's plan along the line by a beam of partial plans (Lowerre 1976): at each position a station of today is kept, given up,
 * or a new one is put in. Partial plans of the same tasks are held against each other by their moves, all others by what moves at the
 * least, and by idle time. Where no partial plan had to be left out on the way, nothing below the ceiling moves less than what is found.
 */
export class FollowToday {
  /** The whole plan with the fewest moves so far, and what its moves cost. */
  plan: BlockPlan | null = null;
  cost: number;
  steps = 0;
  /** Nothing was left out so far but what cannot cost less. */
  isWhole: boolean;
  private readonly station: OpenStation;
  private readonly moves: MovesOnTheWay;
  private readonly perPerson: number;
  private readonly mostPeople: number;
  private readonly mostStations: number;
  private readonly time: readonly number[];
  private readonly all: number;
  private readonly spare: number;
  private readonly perBlock: number;
  private readonly dueAt: readonly (readonly number[])[];
  private readonly mayLeave: readonly boolean[];
  /** The last label at which each block has a home; -1 without one. */
  private readonly lastHome: readonly number[];
  private stage = new Map<string, Child[]>();
  /** Not where nothing is to be left out, nor on floors: what has to be done by some position leaves few of the best to go on from. */
  private readonly mayCut: boolean;
  /** How many partial plans that holds. */
  private staged = 0;
  /** By the next label: with such a score a partial plan is kept no more. */
  private readonly cutOff = new Map<number, number>();
  // Of the walk through the loads of one station.
  private list: number[] = [];
  private chosen: number[] = [];
  private passed: number[] = [];
  private from!: Node;
  private position = 0;
  private loads: number;
  private stepsLeft = 0;
  private isOut = false;
  // Of one of its loads.
  private doneHere = 0;
  private blocksHere: readonly number[] | null = null;
  private alike: Child[] | null = null;
  /** By the ways to close it; undefined where the line has not got what one takes. */
  private handedOn: (Carried | undefined)[] | null = null;

  /** @param cost plans whose moves cost as much or more are not looked for */
  constructor(
    private readonly work: Work,
    private readonly today: Today,
    ceiling: Cost,
    cost: number,
    private readonly size: BeamSize,
    private readonly prices: PricesAlongLine | null = null,
  ) {
    this.cost = cost;
    this.mayCut = size.whole === undefined && !work.isPositional;
    this.loads = size.loads;
    this.isWhole = today.beside === undefined;
    this.station = new OpenStation(work);
    this.moves = new MovesOnTheWay(today, new OverfullHomes(work, today));
    this.perPerson = reachableByPerson(work);
    this.mostPeople = ceiling.stations > 0 ? ceiling.people : ceiling.people - 1;
    this.mostStations = ceiling.stations > 0 ? ceiling.stations - 1 : this.mostPeople;
    this.time = countedTime(work);
    this.all = this.time.reduce((sum, each) => sum + each, 0);
    this.perBlock = this.all / work.size;
    this.spare = this.mostPeople * this.perPerson - this.all;
    const due: number[][] = Array.from({ length: work.positions }, () => []);
    for (const [block, last] of work.last.entries()) due[last]?.push(block);
    this.dueAt = due;
    this.lastHome = today.homes.map((own) => Math.max(NEW, ...own.map(({ label }) => label)));
    const { supports } = this.station;
    this.mayLeave = work.loads.map((_, block) => supports.every((each) => each.mayLeave?.(block) ?? true));
  }

  /** Goes on to the end of the line; gives null now and then. */
  *stretches(): Generator<null> {
    let nodes: Node[] = [this.firstNode()];
    let told = this.steps;
    for (let position = 0; position < this.work.positions && nodes.length > 0; position++) {
      this.stage = new Map();
      this.staged = 0;
      this.cutOff.clear();
      this.position = position;
      const before = this.steps;
      for (const node of nodes) {
        this.extend(node);
        if (this.size.whole !== undefined && !this.isWhole) return;
        if (this.steps - told < STRETCH) continue;
        told = this.steps;
        yield null;
      }
      const eachTook = (this.steps - before) / nodes.length;
      nodes = this.choose().map((child) => this.nodeOf(child));
      if (nodes.length > 0 && this.wouldTakeLong(nodes, eachTook)) return;
    }
  }

  /** There are ever more partial plans up to the middle of the line, and ever fewer after it. */
  private wouldTakeLong(nodes: readonly Node[], eachTook: number): boolean {
    const { steps, position, work, size } = this;
    if (size.whole === undefined) return false;
    const { left } = nodes[0]!;
    const positionsLeft = (left * (position + 1)) / Math.max(1, work.size - left);
    const ahead = nodes.length * eachTook * Math.max(POSITIONS_TO_COME, positionsLeft / POSITIONS_TO_COME);
    if (steps + ahead <= size.whole.mostSteps) return false;
    this.isWhole = false;
    return true;
  }

  private firstNode(): Node {
    const { work } = this;
    const blockers = Int32Array.from(work.before, (each) => each.length);
    return {
      trail: null,
      people: 0,
      stations: 0,
      worth: 0,
      behind: this.moves.first,
      done: 0,
      placed: new Uint8Array(work.size),
      first: 0,
      last: -1,
      blockers,
      ready: [...work.loads.keys()].filter((block) => blockers[block] === 0),
      left: work.size,
      carried: this.station.nothingCarried,
    };
  }

  private extend(node: Node): void {
    const { position, today, work, moves } = this;
    const { behind } = node;
    this.from = node;
    this.doneHere = node.done;
    moves.goOnFrom(behind);
    const label = today.labelAt?.[position] ?? NEW;
    if (node.stations < this.mostStations && node.people < this.mostPeople) this.fill(node);
    if (!work.isPositional || this.dueAt[position]!.some((block) => node.placed[block] === 0)) return;
    this.chosen.length = 0;
    this.lookHere();
    this.offer(label === NEW ? behind.next : label + 1, NEW, null, node.carried);
  }

  /** Walks through all loads of the next station, or, where there are too many, through those with the fewest moves. */
  private fill(node: Node): void {
    const { behind, ready } = node;
    const home = (block: number) => this.today.homes[block]![0]?.label ?? -1;
    this.list = [...ready].sort((one, two) => home(one) - home(two) || one - two);
    this.stepsLeft = this.loads;
    this.isOut = false;
    this.station.startAfter(this.position, node.carried);
    this.walkAll(0);
    // Where there are too many once, there mostly are again.
    this.loads = this.isOut
      ? Math.max(FEWEST_LOADS, this.loads / 2)
      : Math.min(this.size.loads, this.loads * 2);
    if (!this.isOut) return;
    this.isWhole = false;
    const { labelAt, labels } = this.today;
    if (labelAt !== null) {
      const label = labelAt[this.position] ?? NEW;
      this.fillNear(node, label, label === NEW ? behind.next : label + 1);
      return;
    }
    const mostGivenUp = Math.max(0, labels - this.mostStations) + 1;
    const givenUp = behind.next - node.stations;
    for (let label = behind.next; label < labels && label - behind.next <= MOST_SKIPPED; label++)
      if (label === behind.next || givenUp + label - behind.next <= mostGivenUp)
        this.fillNear(node, label, label + 1);
    this.fillNear(node, NEW, behind.next);
  }

  /** Every set of blocks that fits, each once. */
  private walkAll(from: number): void {
    const { station, list, from: node, work } = this;
    if (this.stepsLeft-- <= 0) {
      this.isOut = true;
      return;
    }
    this.steps++;
    for (let at = from; at < list.length && !this.isOut; at++) {
      const block = list[at]!;
      if (!station.canTake(block)) continue;
      const { length } = list;
      this.take(block);
      for (const each of work.after[block]!) if (--node.blockers[each]! === 0) list.push(each);
      this.walkAll(at + 1);
      while (list.length > length) list.pop();
      for (const each of work.after[block]!) node.blockers[each]!++;
      this.leave(block);
    }
    if (this.chosen.length > 0 && !this.isOut) this.closeForAll();
  }

  private take(block: number): void {
    this.station.take(block);
    this.chosen.push(block);
    this.doneHere += this.time[block]!;
    this.from.placed[block] = 1;
  }

  private leave(block: number): void {
    this.from.placed[block] = 0;
    this.chosen.pop();
    this.doneHere -= this.time[block]!;
    this.station.leave(block);
  }

  /** Closes the station under every label that it may keep, and as a new one. */
  private closeForAll(): void {
    const { labelAt, labels } = this.today;
    const { next } = this.from.behind;
    const closings = this.closings();
    if (closings.length === 0) return;
    const end = this.needlessFrom(closings, next);
    if (end < next) return;
    this.lookHere();
    if (labelAt !== null) {
      const label = labelAt[this.position] ?? NEW;
      if (label < end) this.closeAs(label, label === NEW ? next : label + 1, closings);
      return;
    }
    this.closeAs(NEW, next, closings);
    const mostSkipped = Math.max(0, labels - next - this.mostStations + this.from.stations) + MOST_SKIPPED;
    for (let label = next; label < end; label++) {
      if (!this.closeAs(label, label + 1, closings)) return;
      if (label - next < mostSkipped || this.size.whole !== undefined) continue;
      this.isWhole = false;
      return;
    }
  }

  /**
   * Under labels from this one on the load is needless: a block that fits as well costs nothing there, and may as well be here. Below the
   * next label: as a new station too.
   */
  private needlessFrom(closings: readonly Closed[], next: number): number {
    const { station, list, lastHome } = this;
    let end = this.today.labels;
    for (const block of list) {
      if (lastHome[block]! >= end || station.has(block)) continue;
      if (!this.mayLeave[block]! || !station.couldHold(block, closings)) continue;
      end = lastHome[block]!;
      if (end < next) return end;
    }
    return end;
  }

  /** Ways to close it that leave no one too much idle. */
  private closings(): Closed[] {
    const { station, from: node, doneHere: done } = this;
    // As most loads are too small for a single person, that is asked first.
    const mostPeople = Math.min(this.mostPeople, Math.floor((this.spare + done) / this.perPerson));
    if (node.people >= mostPeople) return NO_WAYS;
    for (const block of this.dueAt[this.position]!) if (node.placed[block] === 0) return NO_WAYS;
    const all = station.closings();
    const isAllowed = ({ places, crew }: Closed) => node.people + places * crew <= mostPeople;
    return all.every(isAllowed) ? all : all.filter(isAllowed);
  }

  /** Whether labels further on may come below the cost as well. */
  private closeAs(label: number, next: number, closings: readonly Closed[]): boolean {
    const { station, from: node, moves } = this;
    if (moves.movesWith(label, next) >= this.cost)
      return node.behind.moves + moves.costToPass(node.behind.next, next) < this.cost;
    this.handedOn ??= closings.map((closed) => station.carriedOn(closed)[0]);
    for (let at = 0; at < closings.length; at++) {
      const carried = this.handedOn[at];
      if (carried !== undefined) this.offer(next, label, closings[at]!, carried);
    }
    return true;
  }

  /** Walks through loads of a station that keeps this label, those with the fewest moves first. */
  private fillNear(node: Node, label: number, next: number): void {
    const { moves } = this;
    this.stepsLeft = STEPS_NEAR;
    const late: number[] = [];
    const own: number[] = [];
    const ahead: number[] = [];
    for (const block of node.ready) {
      if (moves.costToSkip(block, label) > 0) own.push(block);
      else if (moves.costToTake(block, label, next) > 0) ahead.push(block);
      else late.push(block);
    }
    const home = (block: number) => this.today.homes[block]![0]!.label;
    ahead.sort((one, two) => home(one) - home(two) || one - two);
    this.list = [...own, ...late, ...ahead.slice(0, MOST_AHEAD)];
    for (let budget = 0, found = 0; budget <= MOST_DIFFERENCES && this.stepsLeft > 0; budget++) {
      this.isOut = false;
      this.station.startAfter(this.position, node.carried);
      const before = found;
      found += this.walkNear(0, budget, label, next);
      if (!this.isOut || (before > 0 && found > ENOUGH)) return;
    }
  }

  /** @param budget the differences from today that are still to be made, all of them: fewer have been looked at before */
  private walkNear(from: number, budget: number, label: number, next: number): number {
    const { station, list, moves } = this;
    for (let at = from; at < list.length; at++) {
      const block = list[at]!;
      const leaves = moves.costToSkip(block, label) > 0 ? 1 : 0;
      const comes = moves.costToTake(block, label, next) > 0 ? 1 : 0;
      if (comes > budget) {
        this.isOut = true;
        continue;
      }
      if (this.stepsLeft-- <= 0) return 0;
      this.steps++;
      let found = 0;
      const canTake = station.canTake(block);
      if (canTake && comes === 0) found += this.takeNear(block, at, budget, label, next);
      if (leaves <= budget) {
        this.passed.push(block);
        found += this.walkNear(at + 1, budget - leaves, label, next);
        this.passed.pop();
      } else this.isOut = true;
      if (canTake && comes > 0) found += this.takeNear(block, at, budget - comes, label, next);
      return found;
    }
    return budget === 0 ? this.closeNear(label, next) : 0;
  }

  private takeNear(block: number, at: number, budget: number, label: number, next: number): number {
    const { list, from: node, work } = this;
    const { length } = list;
    this.take(block);
    for (const each of work.after[block]!) if (--node.blockers[each]! === 0) list.push(each);
    const found = this.walkNear(at + 1, budget, label, next);
    list.length = length;
    for (const each of work.after[block]!) node.blockers[each]!++;
    this.leave(block);
    return found;
  }

  private closeNear(label: number, next: number): number {
    const { station, moves } = this;
    if (this.chosen.length === 0) return 0;
    for (const block of this.passed)
      if (moves.costToTake(block, label, next) === 0 && station.canTake(block)) return 0;
    this.lookHere();
    const closings = this.closings();
    if (closings.length === 0) return 0;
    this.closeAs(label, next, closings);
    return 1;
  }

  /** Keeps the partial plan with this station, empty where it is not closed, unless another one makes it needless. */
  private offer(next: number, label: number, closed: Closed | null, carried: Carried): void {
    const { from: node, chosen, size } = this;
    const moves = this.moves.movesWith(label, next);
    if (moves >= this.cost) return;
    const people = node.people + (closed === null ? 0 : closed.places * closed.crew);
    const stations = node.stations + (closed === null ? 0 : 1);
    if (chosen.length === node.left) {
      this.cost = moves;
      this.plan = planOf({
        before: node.trail,
        station: stationOf(this.position, this.chosen.slice(), closed),
      });
      return;
    }
    const stationsLeft = Math.min(this.mostStations - stations, this.mostPeople - people);
    if (stationsLeft <= 0) return;
    const ahead = this.moves.aheadWith(next, stationsLeft);
    const { prices } = this;
    const worth = prices === null ? 0 : node.worth + prices.worthAt(chosen, label);
    const priced = prices?.leastWith(worth, this.position + 1, stations, next) ?? 0;
    const least = Math.max(moves + ahead, Math.ceil(priced));
    if (least >= this.cost) return;
    const done = this.doneHere;
    const idle = people * this.perPerson - done;
    const paced = (this.spare * people) / this.mostPeople;
    const score = least + (size.idle * Math.max(idle - paced, 0) + SLIGHTLY * idle) / this.perBlock;
    if (score >= this.cutOffAt(next)) {
      this.isWhole = false;
      return;
    }
    this.blocksHere ??= chosen.slice();
    const blocks = this.blocksHere;
    this.keep({ node, blocks, closed, next, moves, worth, least, people, stations, done, score, carried });
  }

  /** What the station holds is looked at anew. */
  private lookHere(): void {
    this.moves.look(this.chosen);
    this.alike = null;
    this.blocksHere = null;
    this.handedOn = null;
  }

  /** Of partial plans with the same blocks one is needless from which another can be come to for no more. */
  private keep(child: Child): void {
    const alike = this.alike ?? this.stage.get(this.keyOfPlaced());
    if (alike === undefined) {
      this.alike = [child];
      this.stage.set(this.keyOfPlaced(), this.alike);
      this.staged++;
      if (this.mayCut && this.staged > SPARE * this.size.width) this.cutDown();
      return;
    }
    this.alike = alike;
    for (const other of alike) if (this.comesTo(other, child)) return;
    let kept = 0;
    for (const other of alike) if (!this.comesTo(child, other)) alike[kept++] = other;
    this.staged += kept + 1 - alike.length;
    while (alike.length > kept) alike.pop();
    alike.push(child);
  }

  /** Whether the first is as good as the second, which has the same blocks. */
  private comesTo(one: Child, two: Child): boolean {
    if (one.next > two.next || one.people > two.people || one.stations > two.stations) return false;
    if (one.moves + this.moves.costToPass(one.next, two.next) > two.moves) return false;
    if (this.station.isNoWorse(one.carried, two.carried)) return true;
    // What stations hand on seldom decides.
    if (one.next < two.next || one.people < two.people) return false;
    this.isWhole = false;
    return true;
  }

  /** Tells sets of blocks apart: by the first that is not placed, and by those that are placed behind it. */
  private keyOfPlaced(): string {
    const { from: node, chosen } = this;
    const { placed } = node;
    let { first, last } = node;
    for (const block of chosen) last = Math.max(last, block);
    while (placed[first] === 1) first++;
    let key = String.fromCharCode(first);
    for (let at = first + 1; at <= last; at += BITS_OF_CODE) {
      let code = 0;
      const end = Math.min(last + 1, at + BITS_OF_CODE);
      for (let each = at, bit = 1; each < end; each++, bit *= 2) if (placed[each] === 1) code += bit;
      key += String.fromCharCode(code);
    }
    return key;
  }

  /** What is kept, the lowest score first; what else is as high is not worth looking at any more. */
  private choose(): Child[] {
    const all = [...this.stage.values()].flat().sort((one, two) => one.score - two.score);
    const { width } = this.size;
    const each = Math.ceil(width / GROUPS);
    const counts = new Map<number, number>();
    const kept: Child[] = [];
    for (const child of all) {
      if (child.least >= this.cost) continue;
      const count = counts.get(child.next) ?? 0;
      if (count < each && kept.length < width) {
        counts.set(child.next, count + 1);
        kept.push(child);
      } else {
        this.isWhole = false;
        this.cutOff.set(child.next, Math.min(child.score, this.cutOffAt(child.next)));
      }
    }
    return kept;
  }

  private cutOffAt(next: number): number {
    return this.cutOff.get(next) ?? Number.POSITIVE_INFINITY;
  }

  /** Leaves only what would be kept if no more came, so that what is worse is not written down at all. */
  private cutDown(): void {
    const kept = new Set(this.choose());
    for (const [key, alike] of this.stage) {
      const left = alike.filter((each) => kept.has(each));
      if (left.length === 0) this.stage.delete(key);
      else this.stage.set(key, left);
    }
    this.staged = kept.size;
    this.alike = null;
  }

  private nodeOf({ node, blocks, closed, next, moves, worth, people, stations, done, carried }: Child): Node {
    const placed = node.placed.slice();
    const blockers = node.blockers.slice();
    const ready = node.ready.filter((block) => !blocks.includes(block));
    for (const block of blocks) placed[block] = 1;
    for (const block of blocks)
      for (const each of this.work.after[block]!)
        if (--blockers[each]! === 0 && placed[each] === 0) ready.push(each);
    let { first } = node;
    while (placed[first] === 1) first++;
    this.moves.goOnFrom(node.behind);
    this.moves.look(blocks);
    return {
      trail: { before: node.trail, station: stationOf(this.position, blocks, closed) },
      people,
      stations,
      worth,
      behind: this.moves.after(next, moves),
      done,
      placed,
      first,
      last: Math.max(node.last, ...blocks),
      blockers,
      ready,
      left: node.left - blocks.length,
      carried,
    };
  }
}

const stationOf = (
  position: number,
  blocks: readonly number[],
  closed: Closed | null,
): FilledStation | null => closed && { position, blocks, ...closed };

function planOf(trail: Trail): BlockPlan {
  const plan: FilledStation[] = [];
  for (let each: Trail | null = trail; each !== null; each = each.before)
    if (each.station !== null) plan.push(each.station);
  return plan.reverse();
}

/** The stations of a partial plan from its last one on. */
interface Trail {
  readonly before: Trail | null;
  readonly station: FilledStation | null;
}

interface Node {
  readonly trail: Trail | null;
  readonly people: number;
  readonly stations: number;
  /** By prices. */
  readonly worth: number;
  readonly behind: WayBehind;
  readonly done: number;
  readonly placed: Uint8Array;
  /** The first block that is not placed, and the last one that is. */
  readonly first: number;
  readonly last: number;
  readonly blockers: Int32Array;
  readonly ready: readonly number[];
  readonly left: number;
  readonly carried: Carried;
}

interface Child {
  readonly node: Node;
  /** What the next station holds. */
  readonly blocks: readonly number[];
  /** null: it is empty. */
  readonly closed: Closed | null;
  readonly next: number;
  readonly moves: number;
  /** By prices. */
  readonly worth: number;
  /** With what moves ahead. */
  readonly least: number;
  readonly people: number;
  readonly stations: number;
  readonly done: number;
  readonly score: number;
  readonly carried: Carried;
}

const NEW = -1;
const NO_WAYS: Closed[] = [];
const FEWEST_LOADS = 50;
/** Where not all loads are looked at, so many steps through those of each label. */
const STEPS_NEAR = 200;
const MOST_AHEAD = 16;
const MOST_SKIPPED = 3;
const MOST_DIFFERENCES = 6;
const ENOUGH = 12;
const GROUPS = 3;
/** Before the best are chosen, there are up to so many times as many as are kept. */
const SPARE = 4;
const SLIGHTLY = 0.1;
/** So many positions take as many steps as the next, or one in so many of those that are left. */
const POSITIONS_TO_COME = 3;
const STRETCH = 5_000;
const BITS_OF_CODE = 16;
