import { kindAt } from "../work.js";
import { NOWHERE, type PartialPlan } from "./partial-plan.js";

/** The most people and stations that a plan may take. */
export interface Budget {
  readonly people: number;
  readonly stations: number;
}

/**
 * Finds stations for blocks that have none (the ejection pool of Nagata & Bräysy 2009, from routes to stations that stand at positions).
 * Each block in turn joins a station that holds it within the budget. Where none does, it takes the place of others that then wait
 * in its stead, those that were hard to place least often, of equals the least work: blocks on the wrong side of it along the
 * arrows, one to three of the station or all, and blocks of another station where they hold the people or the
 * equipment that it takes. Moves and swaps at random in between keep the stations from settling.
 */
export class EjectionPool {
  /** Blocks without a station; the last has its turn first. */
  private readonly waiting: number[] = [];
  /** How often each block found no room, and once more. */
  private readonly costs: Int32Array;
  private choice: Choice | null = null;
  private ties = 0;

  constructor(
    private readonly plan: PartialPlan,
    private readonly budget: Budget,
    /** A whole number from 0 to below `end`; goes on where it was, so that a second try does not repeat the first. */
    private readonly draw: (end: number) => number,
  ) {
    const { loads, size } = plan.work;
    this.costs = new Int32Array(size).fill(1);
    this.waiting = plan.left().sort((one, two) => loads[one]! - loads[two]! || two - one);
  }

  get isEmpty(): boolean {
    return this.waiting.length === 0;
  }

  /** One turn of the block that waits last. */
  turn(): void {
    const block = this.waiting.pop()!;
    if (this.joinWithin(block)) return;
    this.costs[block]!++;
    this.chooseEjection(block);
    if (this.choice === null || !this.eject(block, this.choice)) this.waiting.unshift(block);
    for (let tries = 0; tries < SHAKES; tries++) this.shake();
  }

  private eject(block: number, { position, leaving }: Choice): boolean {
    for (const each of leaving) {
      this.plan.remove(each);
      this.waiting.push(each);
    }
    return this.plan.tryPut(block, position);
  }

  /** Joins the station that takes the fewest further people for it, of equals one at random. */
  private joinWithin(block: number): boolean {
    const { plan, budget } = this;
    const { from, to } = plan.roomOf(block);
    let best: { readonly position: number; readonly closed: ReturnType<PartialPlan["joined"]> } | null = null;
    let [least, ties] = [budget.people - plan.people, 0];
    for (let position = from; position <= Math.min(to, Math.max(from, plan.end())); position++) {
      const isNew = plan.blocksAt(position).length === 0;
      if (isNew && (plan.stations >= budget.stations || least < 1)) continue;
      const closed = plan.joined(block, position);
      if (closed === null) continue;
      const more = closed.places * closed.crew - plan.peopleAt(position);
      if (more > least) continue;
      if (more < least) ties = 0;
      least = more;
      if (this.draw(++ties) === 0) best = { position, closed };
    }
    if (best !== null) plan.put(block, best.position, best.closed!);
    return best !== null;
  }

  private chooseEjection(block: number): void {
    this.choice = null;
    this.ties = 0;
    this.chooseWithout(block, []);
    for (const users of this.sharers(block)) {
      if (this.choice !== null && this.costOf(users) > (this.choice as Choice).cost) continue;
      const before = this.plan.snapshot();
      for (const each of users) this.plan.remove(each);
      this.chooseWithout(block, users);
      this.plan.restore(before);
    }
  }

  /** Sets of blocks elsewhere that hold counted equipment or people with skills which the block needs. */
  private sharers(block: number): number[][] {
    const { plan } = this;
    const { equipment, skills } = plan.work;
    const own = equipment.filter(({ needs }) => needs[block]!);
    const isSkilled = skills !== null && skills.needs[block] !== 0n;
    if (own.length === 0 && !isSkilled) return [];
    const shares = (each: number) =>
      own.some(({ needs }) => needs[each]!) || (isSkilled && skills!.needs[each] !== 0n);
    const sets = plan
      .usedPositions()
      .map((position) => plan.blocksAt(position).filter(shares))
      .filter((users) => users.length > 0);
    return sets.length > 1 ? [...sets, sets.flat()] : sets;
  }

  /** Considers every position, `gone` having left their stations already. */
  private chooseWithout(block: number, gone: readonly number[]): void {
    const { plan } = this;
    const first = plan.work.first[block]!;
    const last = Math.min(plan.work.last[block]!, Math.max(first, plan.end()));
    const [ofGone, inTheWay] = [this.costOf(gone), plan.weighInTheWay(block, this.costs)];
    for (let position = first; position <= last; position++) {
      const cost = ofGone + inTheWay[position]!;
      if (this.choice !== null && cost > this.choice.cost) continue;
      this.considerSubsets(block, position, [...gone, ...plan.inTheWay(block, position)], cost);
    }
  }

  private costOf(blocks: readonly number[]): number {
    let sum = 0;
    for (const block of blocks) sum += this.costs[block]!;
    return sum;
  }

  /** Looks at the station as it is, then with one to three of its blocks gone, then with all. */
  private considerSubsets(block: number, position: number, forced: readonly number[], cost: number): void {
    const { plan } = this;
    const { work } = plan;
    if (this.consider(block, position, forced, cost)) return;
    const stay = plan.blocksAt(position).filter((each) => !forced.includes(each));
    const { limits, atOnce } = work.kinds[kindAt(work, position)]!;
    const most = atOnce * limits.at(-1)!;
    const load = stay.reduce((sum, each) => sum + work.loads[each]!, 0);
    const missing = load + work.loads[block]! - most;
    const extend = (start: number, leaving: readonly number[], freed: number, own: number) => {
      for (let at = start; at < stay.length; at++) {
        const each = stay[at]!;
        const sum = own + this.costs[each]!;
        if (this.choice !== null && sum > this.choice.cost) continue;
        const without = freed + work.loads[each]!;
        const isLast = leaving.length + 1 >= forced.length + MOST_LEAVING;
        if (without < missing && (isLast || (this.choice !== null && sum >= this.choice.cost))) continue;
        const now = [...leaving, each];
        if (without >= missing && this.consider(block, position, now, sum)) continue;
        if (!isLast) extend(at + 1, now, without, sum);
      }
    };
    extend(0, forced, 0, cost);
    const all = cost + this.costOf(stay);
    if (stay.length > 0 && (this.choice === null || all <= this.choice.cost))
      this.consider(block, position, [...forced, ...stay], all);
  }

  /** Whether the station holds the block within the budget when those have left; offers that, or what it takes besides. */
  private consider(block: number, position: number, leaving: readonly number[], cost: number): boolean {
    const { plan, budget } = this;
    const closed = plan.joined(block, position, leaving);
    if (closed === null) return false;
    const more = plan.people + closed.places * closed.crew - plan.peopleAt(position) - budget.people;
    const isNew = plan.blocksAt(position).length === 0 && plan.stations >= budget.stations;
    if (more <= 0 && !isNew) {
      this.offer(position, leaving, cost);
      return true;
    }
    const released = this.leastRelease(position, leaving, more, isNew);
    if (released !== null) this.offer(position, [...leaving, ...released], cost + this.costOf(released));
    return false;
  }

  private offer(position: number, leaving: readonly number[], cost: number): void {
    const { choice } = this;
    if (choice !== null && cost > choice.cost) return;
    const work = leaving.reduce((sum, each) => sum + this.plan.work.work[each]!, 0);
    if (choice === null || cost < choice.cost || work < choice.work) this.ties = 0;
    else if (work > choice.work) return;
    if (this.draw(++this.ties) === 0) this.choice = { position, leaving, cost, work };
  }

  /** The blocks of another station without which it takes so many people less, or is not needed at all. */
  private leastRelease(
    position: number,
    leaving: readonly number[],
    people: number,
    isWhole: boolean,
  ): readonly number[] | null {
    const { plan } = this;
    let [best, least]: [readonly number[] | null, number] = [null, Number.POSITIVE_INFINITY];
    for (let other = 0; other < plan.work.positions; other++) {
      const own = plan.blocksAt(other);
      if (other === position || own.length === 0) continue;
      for (const { blocks, freed } of plan.releasesAt(other)) {
        if (freed < people || (isWhole && blocks.length < own.length)) continue;
        const cost = this.costBeside(blocks, leaving);
        if (cost < least) [best, least] = [blocks, cost];
      }
    }
    return best?.filter((each) => !leaving.includes(each)) ?? null;
  }

  /** What blocks cost that do not leave anyway. */
  private costBeside(blocks: readonly number[], leaving: readonly number[]): number {
    let sum = 0;
    for (const block of blocks) if (!leaving.includes(block)) sum += this.costs[block]!;
    return sum;
  }

  /** Lets a block at random go to another station, or change places with one there, where the rules and the budget allow it. */
  private shake(): void {
    const { plan, draw } = this;
    const one = draw(plan.work.size);
    const here = plan.at[one]!;
    if (here === NOWHERE) return;
    const { from, to } = plan.roomOf(one);
    if (from >= to) return;
    const there = from + draw(to - from + 1);
    const others = plan.blocksAt(there);
    if (there === here || others.length === 0) return;
    const mostPeople = Math.max(plan.people, this.budget.people);
    if (plan.joined(one, there) !== null) {
      plan.remove(one);
      if (plan.tryPut(one, there) && plan.people <= mostPeople) return;
      this.goBack([one], [here]);
      return;
    }
    const two = others[draw(others.length)]!;
    if (plan.joined(one, there, [two]) === null) return;
    plan.remove(one);
    plan.remove(two);
    if (plan.tryPut(one, there) && plan.tryPut(two, here) && plan.people <= mostPeople) return;
    this.goBack([one, two], [here, there]);
  }

  private goBack(blocks: readonly number[], positions: readonly number[]): void {
    for (const block of blocks) if (this.plan.at[block] !== NOWHERE) this.plan.remove(block);
    for (const [each, block] of blocks.entries())
      if (!this.plan.tryPut(block, positions[each]!)) this.waiting.push(block);
  }
}

/** Where a block goes, and what must leave for it. */
interface Choice {
  readonly position: number;
  readonly leaving: readonly number[];
  /** Failures of those that leave, and their number. */
  readonly cost: number;
  readonly work: number;
}

/** Blocks of one station that leave at once; else all of them. */
const MOST_LEAVING = 3;
/** Moves and swaps tried after each turn that found no room. */
const SHAKES = 20;
