import { drawNumbers } from "../level/draw-numbers.js";
import type { Closed } from "../station/open-station.js";
import { NOWHERE, type PartialPlan } from "./partial-plan.js";

/** The most people and stations that a plan may take. */
export interface Budget {
  readonly people: number;
  readonly stations: number;
}

/**
 * Finds stations for blocks that have none (the ejection pool of Nagata & Bräysy 2009, from routes to stations at positions). Each block in
 * turn joins a station that holds it within the budget; where none does, it goes where those that must leave for it were hard to place
 * least often: blocks on the wrong side of it along the arrows, one to three of its station, and, where it would cost too many people,
 * those for whom another station needs them. Moves and swaps at random in between keep the stations from settling.
 */
export class EjectionPool {
  /** Blocks without a station; the last has its turn first. */
  readonly waiting: number[] = [];
  /** How often each block found no room. */
  readonly failures: Int32Array;
  private readonly draw: (end: number) => number;
  private choice: Choice | null = null;
  private ties = 0;

  constructor(
    private readonly plan: PartialPlan,
    draw: ((end: number) => number) | null = null,
  ) {
    this.draw = draw ?? drawNumbers();
    this.failures = new Int32Array(plan.work.size);
  }

  /** One turn of the block that waits last. */
  turn(budget: Budget): void {
    const block = this.waiting.pop()!;
    const { plan } = this;
    const roomy = this.mostFitting(block, budget);
    if (roomy !== null) {
      plan.put(block, roomy.position, roomy.closed);
      return;
    }
    this.failures[block]!++;
    this.chooseEjection(block, budget);
    const { choice } = this;
    if (choice === null) {
      this.waiting.unshift(block);
    } else {
      for (const each of choice.leaving) {
        plan.remove(each);
        this.waiting.push(each);
      }
      const closed = plan.joined(block, choice.position);
      if (closed === null) this.waiting.unshift(block);
      else plan.put(block, choice.position, closed);
    }
    for (let tries = 0; tries < SHAKES; tries++) this.shake(budget);
  }

  /** The station that the block may join at the least cost; of equals the fullest. */
  private mostFitting(block: number, budget: Budget): { position: number; closed: Closed } | null {
    const { plan } = this;
    const { from, to } = plan.roomOf(block);
    let best: { position: number; closed: Closed } | null = null;
    let [leastMore, ties] = [Number.POSITIVE_INFINITY, 0];
    for (let position = from; position <= Math.min(to, Math.max(from, plan.end())); position++) {
      const isEmpty = plan.blocksAt(position).length === 0;
      if (isEmpty && (plan.stations >= budget.stations || plan.people >= budget.people)) continue;
      const closed = plan.joined(block, position);
      if (closed === null) continue;
      const more = closed.places * closed.crew - plan.peopleAt(position);
      if (plan.people + more > budget.people || more > leastMore) continue;
      if (more < leastMore) ties = 0;
      leastMore = more;
      if (this.draw(++ties) === 0) best = { position, closed };
    }
    return best;
  }

  private chooseEjection(block: number, budget: Budget): void {
    const { plan } = this;
    const { work } = plan;
    this.choice = null;
    this.ties = 0;
    const first = work.first[block]!;
    const last = Math.min(work.last[block]!, Math.max(first, plan.end()));
    for (let position = first; position <= last; position++) {
      const forced = this.inTheWay(block, position);
      const cost = this.costOf(forced);
      if (this.choice !== null && cost > (this.choice as Choice).cost) continue;
      const forcedHere = forced.filter((each) => plan.at[each] === position);
      this.tryWithout(block, position, forced, forcedHere, cost, budget);
    }
  }

  /** Blocks that must not stand where they do if the block stands at the position. */
  private inTheWay(block: number, position: number): number[] {
    const { plan } = this;
    const found: number[] = [];
    for (const { block: other, gap } of plan.reach.before(block))
      if (plan.at[other]! >= 0 && plan.at[other]! + gap > position) found.push(other);
    for (const { block: other, gap } of plan.reach.after(block))
      if (plan.at[other]! >= 0 && plan.at[other]! - gap < position) found.push(other);
    return found;
  }

  private costOf(blocks: readonly number[]): number {
    let sum = 0;
    for (const block of blocks) sum += this.failures[block]! + 1;
    return sum;
  }

  /** Looks at the station with all, then with ever more of its blocks gone. */
  private tryWithout(
    block: number,
    position: number,
    forced: readonly number[],
    forcedHere: readonly number[],
    cost: number,
    budget: Budget,
  ): void {
    const { plan } = this;
    const { work } = plan;
    const stay = plan.blocksAt(position).filter((each) => !forcedHere.includes(each));
    if (this.consider(block, position, forced, forcedHere, cost, budget)) return;
    const limits = work.kinds[Math.min(position, work.kinds.length - 1)]!.limits;
    const sides = work.sides === null ? 1 : 2;
    const most = sides * limits.at(-1)!;
    const load = stay.reduce((sum, each) => sum + work.loads[each]!, 0);
    const missing = load + work.loads[block]! - most;
    const extend = (start: number, gone: number[], freed: number, own: number) => {
      for (let at = start; at < stay.length; at++) {
        const each = stay[at]!;
        const sum = own + this.failures[each]! + 1;
        if (this.choice !== null && sum > this.choice.cost) continue;
        const now = [...gone, each];
        const without = freed + work.loads[each]!;
        const isAlone = now.length === stay.length;
        if (
          (without >= missing || isAlone) &&
          this.consider(block, position, [...forced, ...now], [...forcedHere, ...now], sum, budget)
        )
          continue;
        if (now.length < MOST_LEAVING) extend(at + 1, now, without, sum);
      }
    };
    extend(0, [], 0, cost);
    if (stay.length > MOST_LEAVING) {
      const sum = cost + this.costOf(stay);
      if (this.choice === null || sum <= this.choice.cost)
        this.consider(block, position, [...forced, ...stay], [...forcedHere, ...stay], sum, budget);
    }
  }

  /** Whether the station holds the block then; it becomes the choice where it costs no more, of equals one at random. */
  private consider(
    block: number,
    position: number,
    leaving: readonly number[],
    leavingHere: readonly number[],
    cost: number,
    budget: Budget,
  ): boolean {
    const { plan } = this;
    const closed = plan.joined(block, position, leavingHere);
    if (closed === null) return false;
    const more = plan.people + closed.places * closed.crew - plan.peopleAt(position) - budget.people;
    const isNew = plan.blocksAt(position).length === 0 && plan.stations >= budget.stations;
    if (more <= 0 && !isNew) {
      this.offer({ position, leaving, cost });
      return true;
    }
    const released = this.leastRelease(position, leaving, more, isNew);
    if (released !== null) this.offer({ position, leaving: [...leaving, ...released], cost: cost + this.costOf(released) });
    return false;
  }

  private offer(choice: Choice): void {
    if (this.choice !== null && choice.cost > this.choice.cost) return;
    if (this.choice === null || choice.cost < this.choice.cost) this.ties = 0;
    if (this.draw(++this.ties) === 0) this.choice = choice;
  }

  /** The blocks of another station without which it needs so many people less, or is not needed at all. */
  private leastRelease(
    position: number,
    leaving: readonly number[],
    people: number,
    wholeStation: boolean,
  ): readonly number[] | null {
    const { plan } = this;
    let [best, least]: [readonly number[] | null, number] = [null, Number.POSITIVE_INFINITY];
    for (const other of plan.usedPositions()) {
      if (other === position) continue;
      for (const { blocks, freed } of releasesAt(plan, other)) {
        if (freed < people || (wholeStation && blocks.length < plan.blocksAt(other).length)) continue;
        const gone = blocks.filter((each) => !leaving.includes(each));
        const cost = this.costOf(gone);
        if (cost < least) [best, least] = [gone, cost];
      }
    }
    return best;
  }

  /** Lets a block at random go to another station, or two change places, where the rules and the budget allow it. */
  private shake(budget: Budget): void {
    const { plan, draw } = this;
    const one = draw(plan.work.size);
    const here = plan.at[one]!;
    if (here === NOWHERE) return;
    const { from, to } = plan.roomOf(one);
    if (from >= to) return;
    const there = from + draw(to - from + 1);
    if (there === here || plan.blocksAt(there).length === 0) return;
    const before = plan.people;
    const others = plan.blocksAt(there);
    const closed = plan.joined(one, there);
    if (closed !== null) {
      plan.remove(one);
      plan.put(one, there, plan.joined(one, there) ?? closed);
      if (plan.people > Math.max(before, budget.people)) this.putBack(one, there, here);
      return;
    }
    const two = others[draw(others.length)]!;
    this.trySwap(one, here, two, there, Math.max(before, budget.people));
  }

  private putBack(block: number, from: number, to: number): void {
    if (this.plan.at[block] === from) this.plan.remove(block);
    const closed = this.plan.joined(block, to);
    if (closed === null) this.waiting.push(block);
    else this.plan.put(block, to, closed);
  }

  private trySwap(one: number, here: number, two: number, there: number, mostPeople: number): void {
    const { plan } = this;
    if (plan.joined(one, there, [two]) === null) return;
    plan.remove(one);
    plan.remove(two);
    const put = (block: number, position: number): boolean => {
      const { from, to } = plan.roomOf(block);
      if (position < from || position > to) return false;
      const closed = plan.joined(block, position);
      if (closed === null) return false;
      plan.put(block, position, closed);
      return true;
    };
    if (put(one, there) && put(two, here) && plan.people <= mostPeople) return;
    if (plan.at[one]! >= 0) plan.remove(one);
    if (plan.at[two]! >= 0) plan.remove(two);
    if (!put(one, here)) this.waiting.push(one);
    if (!put(two, there)) this.waiting.push(two);
  }
}

/** Blocks without which a station takes fewer people: all, or those that need the most people at once. */
export function releasesAt(
  plan: PartialPlan,
  position: number,
): { readonly blocks: readonly number[]; readonly freed: number }[] {
  const blocks = plan.blocksAt(position);
  const { places, crew } = plan.closedAt(position)!;
  const found = [{ blocks: [...blocks], freed: places * crew }];
  const crews = [...new Set(blocks.map((block) => plan.work.people[block]!))];
  for (const less of crews) {
    const larger = blocks.filter((block) => plan.work.people[block]! > less);
    if (larger.length > 0) found.push({ blocks: larger, freed: places * (crew - less) });
  }
  return found;
}

interface Choice {
  readonly position: number;
  readonly leaving: readonly number[];
  readonly cost: number;
}

/** Blocks of one station that leave at once; else all of them. */
const MOST_LEAVING = 3;
/** Moves and swaps tried after each turn that found no room. */
const SHAKES = 20;
