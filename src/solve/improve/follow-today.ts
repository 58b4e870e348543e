import { reachableByPerson } from "../bounds/least-moves.js";
import { OverfullHomes } from "../bounds/overfull-homes.js";
import type { Cost } from "../cost.js";
import type { Carried, Closed } from "../station/constraint.js";
import { OpenStation } from "../station/open-station.js";
import type { BlockPlan, FilledStation, Today, Work } from "../work.js";

/** How wide a beam is, and what it looks at first. */
export interface BeamSize {
  /** Partial plans kept after each position. */
  readonly width: number;
  /** Steps through the loads of one station of one partial plan. */
  readonly steps: number;
  /** Moves that a person's whole idle time counts for. */
  readonly idle: number;
}

/**
 * Follows today's plan along the line by a beam of partial plans (Lowerre 1976): at each position a station of today is kept, given up,
 * or a new one is put in, with today's tasks as far as they fit and few others. Best are the partial plans that have moved least, and
 * left least idle; those that have come as far along today's line are held against each other. Proves nothing.
 */
export class FollowToday {
  /** The whole plan with the fewest moves so far, and what its moves cost. */
  plan: BlockPlan | null = null;
  cost: number;
  steps = 0;
  private readonly station: OpenStation;
  private readonly homes: OverfullHomes;
  private readonly perPerson: number;
  private readonly mostPeople: number;
  private readonly mostStations: number;
  private readonly spare: number;
  private readonly perBlock: number;
  private readonly dueAt: readonly (readonly number[])[];
  private readonly hashes: Float64Array;
  private stage = new Map<number, Child>();
  // Of the walk through the loads of one station.
  private list: number[] = [];
  private chosen: number[] = [];
  private passed: number[] = [];
  private from!: Node;
  private label = NEW;
  private firstAhead = 0;
  private stepsLeft = 0;
  private isOut = false;

  /** @param cost plans whose moves cost as much or more are not looked for */
  constructor(
    private readonly work: Work,
    private readonly today: Today,
    ceiling: Cost,
    cost: number,
    private readonly size: BeamSize,
  ) {
    this.cost = cost;
    this.station = new OpenStation(work);
    this.homes = new OverfullHomes(work, today);
    this.perPerson = reachableByPerson(work);
    this.mostPeople = ceiling.stations > 0 ? ceiling.people : ceiling.people - 1;
    this.mostStations = ceiling.stations > 0 ? ceiling.stations - 1 : Number.POSITIVE_INFINITY;
    const all = work.work.reduce((sum, each) => sum + each, 0);
    this.perBlock = all / work.size;
    this.spare = this.mostPeople * this.perPerson - all;
    const { labels } = today;
    const due: number[][] = Array.from({ length: work.positions }, () => []);
    for (const [block, last] of work.last.entries()) due[last]?.push(block);
    this.dueAt = due;
    this.hashes = Float64Array.from({ length: work.size + labels + 1 }, (_, at) => hashOf(at + 1));
  }

  /** Goes on to the end of the line; gives null now and then. */
  *stretches(): Generator<null> {
    let nodes: Node[] = [this.firstNode()];
    let told = this.steps;
    for (let position = 0; position < this.work.positions && nodes.length > 0; position++) {
      this.stage = new Map();
      for (const node of nodes) {
        this.extend(node, position);
        if (this.steps - told < STRETCH) continue;
        told = this.steps;
        yield null;
      }
      nodes = this.choose();
    }
  }

  private firstNode(): Node {
    const { work } = this;
    const blockers = Int32Array.from(work.before, (each) => each.length);
    return {
      parent: null,
      station: null,
      people: 0,
      stations: 0,
      next: 0,
      moves: 0,
      done: 0,
      placed: new Uint8Array(work.size),
      blockers,
      ready: [...work.loads.keys()].filter((block) => blockers[block] === 0),
      left: work.size,
      carried: this.station.nothingCarried,
      hash: 0,
    };
  }

  private extend(node: Node, position: number): void {
    const { today, work } = this;
    const { labelAt, labels } = today;
    if (labelAt !== null) {
      const label = labelAt[position] ?? NEW;
      this.fill(node, position, label, label === NEW ? node.next : label);
      this.leaveEmpty(node, position, label === NEW ? node.next : label + 1);
      return;
    }
    const mostGivenUp = Math.max(0, labels - this.mostStations, labels - this.mostPeople) + 1;
    const givenUp = node.next - node.stations;
    for (let label = node.next; label < labels && label - node.next <= MOST_SKIPPED; label++)
      if (label === node.next || givenUp + label - node.next <= mostGivenUp)
        this.fill(node, position, label, label);
    if (node.stations < this.mostStations) this.fill(node, position, NEW, node.next);
    if (work.isPositional) this.leaveEmpty(node, position, node.next);
  }

  private leaveEmpty(node: Node, position: number, next: number): void {
    if (this.dueAt[position]!.some((block) => node.placed![block] === 0)) return;
    const moves = node.moves + this.costOfPassing(node, next, []);
    this.offer({ node, blocks: [], closed: null, position, label: NEW, next, moves, carried: node.carried });
  }

  /** Walks through loads of a station that keeps this label, those with the fewest moves first. */
  private fill(node: Node, position: number, label: number, firstAhead: number): void {
    if (node.stations >= this.mostStations || node.people >= this.mostPeople) return;
    this.from = node;
    this.label = label;
    this.firstAhead = label === NEW ? firstAhead : label + 1;
    this.stepsLeft = this.size.steps;
    const late: number[] = [];
    const own: number[] = [];
    const ahead: number[] = [];
    for (const block of node.ready) {
      if (this.skipCost(block) > 0) own.push(block);
      else if (this.takeCost(block) > 0) ahead.push(block);
      else late.push(block);
    }
    ahead.sort((one, two) => this.labelOf(one) - this.labelOf(two) || one - two);
    this.list = [...own, ...late, ...ahead.slice(0, MOST_AHEAD)];
    for (let budget = 0, found = 0; budget <= MOST_DIFFERENCES && this.stepsLeft > 0; budget++) {
      this.isOut = false;
      this.station.startAfter(position, node.carried);
      const before = found;
      found += this.walk(0, budget, position);
      if (!this.isOut || (before > 0 && found > ENOUGH)) return;
    }
  }

  private labelOf(block: number): number {
    return this.today.homes[block]![0]!.label;
  }

  /** What the block costs when it stands here, beyond what is certain already. */
  private takeCost(block: number): number {
    let cost = 0;
    for (const home of this.today.homes[block]!)
      if (home.label !== this.label && home.label >= this.firstAhead) cost += home.cost;
    return cost;
  }

  /** What it costs to leave the block for a later station. */
  private skipCost(block: number): number {
    for (const home of this.today.homes[block]!) if (home.label === this.label) return home.cost;
    return 0;
  }

  /** @param budget the differences from today that are still to be made, all of them: fewer have been looked at before */
  private walk(from: number, budget: number, position: number): number {
    const { station, list } = this;
    let at = from;
    for (; at < list.length; at++) {
      const block = list[at]!;
      const leaves = this.skipCost(block) > 0 ? 1 : 0;
      const comes = this.takeCost(block) > 0 ? 1 : 0;
      if (comes > budget) {
        this.isOut = true;
        continue;
      }
      if (this.stepsLeft-- <= 0) return 0;
      this.steps++;
      let found = 0;
      const canTake = station.canTake(block);
      if (canTake && comes === 0) found += this.take(block, at, budget, position);
      if (leaves <= budget) {
        this.passed.push(block);
        found += this.walk(at + 1, budget - leaves, position);
        this.passed.pop();
      } else this.isOut = true;
      if (canTake && comes > 0) found += this.take(block, at, budget - comes, position);
      return found;
    }
    return budget === 0 ? this.close(position) : 0;
  }

  private take(block: number, at: number, budget: number, position: number): number {
    const { station, list, from, work } = this;
    const length = list.length;
    station.take(block);
    this.chosen.push(block);
    for (const each of work.after[block]!) if (--from.blockers![each]! === 0) list.push(each);
    const found = this.walk(at + 1, budget, position);
    list.length = length;
    for (const each of work.after[block]!) from.blockers![each]!++;
    this.chosen.pop();
    station.leave(block);
    return found;
  }

  private close(position: number): number {
    const { station, from: node, chosen } = this;
    if (chosen.length === 0) return 0;
    for (const block of this.passed) if (this.takeCost(block) === 0 && station.canTake(block)) return 0;
    const closed = station.closings().at(-1);
    if (closed === undefined) return 0;
    const people = node.people + closed.places * closed.crew;
    if (people > this.mostPeople) return 0;
    const done = node.done + chosen.reduce((sum, block) => sum + this.work.work[block]!, 0);
    if (people * this.perPerson - done > this.spare) return 0;
    if (this.dueAt[position]!.some((block) => node.placed![block] === 0 && !station.has(block))) return 0;
    const [carried] = station.carriedOn(closed);
    if (carried === undefined) return 0;
    const next = this.label === NEW ? node.next : this.label + 1;
    let moves = node.moves;
    for (const block of chosen) moves += this.takeCost(block);
    moves += this.costOfPassing(node, next, chosen);
    this.offer({ node, blocks: [...chosen], closed, position, label: this.label, next, moves, carried });
    return 1;
  }

  /** What has its home at labels that are passed now, and is not placed. */
  private costOfPassing(node: Node, next: number, here: readonly number[]): number {
    let cost = 0;
    for (let label = node.next; label < next; label++)
      for (const { block, cost: each } of this.homes.of(label))
        if (node.placed![block] === 0 && !(label === this.label && here.includes(block))) cost += each;
    return cost;
  }

  private offer(offered: Omit<Child, "people" | "done" | "hash" | "score">): void {
    const { node, blocks, closed, next, moves } = offered;
    const people = node.people + (closed === null ? 0 : closed.places * closed.crew);
    let { done, hash } = node;
    for (const block of blocks) {
      done += this.work.work[block]!;
      hash = mix(hash, this.hashes[block]!);
    }
    if (blocks.length === node.left) {
      if (moves < this.cost) {
        this.cost = moves;
        this.plan = planOf({ ...offered, node });
      }
      return;
    }
    const ahead = this.homes.aheadOf(next, (block) => node.placed![block] === 1 || blocks.includes(block));
    if (moves + ahead >= this.cost) return;
    const idle = people * this.perPerson - done;
    const paced = Number.isFinite(this.spare) ? (this.spare * people) / this.mostPeople : 0;
    const score =
      moves + ahead + (this.size.idle * Math.max(idle - paced, 0) + SLIGHTLY * idle) / this.perBlock;
    const key = mix(hash, this.hashes[this.work.size + next]!);
    const known = this.stage.get(key);
    if (known !== undefined && known.score <= score) return;
    this.stage.set(key, { ...offered, people, done, hash, score });
  }

  private choose(): Node[] {
    const all = [...this.stage.values()].sort((one, two) => one.score - two.score);
    const { width } = this.size;
    const each = Math.ceil(width / GROUPS);
    const counts = new Map<number, number>();
    const kept: Child[] = [];
    for (const child of all) {
      const count = counts.get(child.next) ?? 0;
      if (count >= each) continue;
      counts.set(child.next, count + 1);
      kept.push(child);
      if (kept.length === width) break;
    }
    return kept.map((child) => this.nodeOf(child));
  }

  private nodeOf({ node, blocks, closed, position, next, moves, people, done, hash, carried }: Child): Node {
    const placed = node.placed!.slice();
    const blockers = node.blockers!.slice();
    const ready = node.ready!.filter((block) => !blocks.includes(block));
    for (const block of blocks) placed[block] = 1;
    for (const block of blocks)
      for (const each of this.work.after[block]!)
        if (--blockers[each]! === 0 && placed[each] === 0) ready.push(each);
    return {
      parent: node,
      station: closed === null ? null : { position, blocks, places: closed.places, crew: closed.crew },
      people,
      stations: node.stations + (closed === null ? 0 : 1),
      next,
      moves,
      done,
      placed,
      blockers,
      ready,
      left: node.left - blocks.length,
      carried,
      hash,
    };
  }
}

function planOf({ node, blocks, closed, position }: Pick<Child, "node" | "blocks" | "closed" | "position">) {
  const plan: FilledStation[] = [{ position, blocks, places: closed!.places, crew: closed!.crew }];
  for (let each: Node | null = node; each !== null; each = each.parent)
    if (each.station !== null) plan.unshift(each.station);
  return plan;
}

function hashOf(at: number): number {
  let state = at * 0x9e3779b1;
  state ^= state >>> 16;
  state = Math.imul(state, 0x85ebca6b);
  state ^= state >>> 13;
  const high = Math.imul(state, 0xc2b2ae35) >>> 0;
  const low = Math.imul(state ^ 0x27d4eb2f, 0x165667b1) >>> 11;
  return high * 2097152 + low;
}

/** Sums of hashes in whole numbers below 2^53. */
function mix(one: number, two: number): number {
  const sum = one + two;
  return sum >= MODULUS ? sum - MODULUS : sum;
}
const MODULUS = 2 ** 52;

interface Node {
  readonly parent: Node | null;
  readonly station: FilledStation | null;
  readonly people: number;
  readonly stations: number;
  /** The first label that is still ahead. */
  readonly next: number;
  readonly moves: number;
  readonly done: number;
  placed: Uint8Array | null;
  blockers: Int32Array | null;
  ready: number[];
  readonly left: number;
  readonly carried: Carried;
  readonly hash: number;
}

interface Child {
  readonly node: Node;
  readonly blocks: readonly number[];
  readonly closed: Closed | null;
  readonly position: number;
  readonly label: number;
  readonly next: number;
  readonly moves: number;
  readonly people: number;
  readonly done: number;
  readonly hash: number;
  readonly score: number;
  readonly carried: Carried;
}

const NEW = -1;
const MOST_AHEAD = 16;
const MOST_SKIPPED = 2;
const MOST_DIFFERENCES = 6;
const ENOUGH = 12;
const GROUPS = 3;
const SLIGHTLY = 0.1;
const STRETCH = 5_000;
