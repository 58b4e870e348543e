import { compare } from "../../time/ratio.js";
import { bit, type PlansOnTheWay } from "./plans-on-the-way.js";

/** Parts of a change by step, in the order in which they are done. */
export interface StepOrder {
  readonly groups: readonly (readonly number[])[];
  /** No order has more steps. Where it is not known, groups are the smallest that were found. */
  readonly isProved: boolean;
}

/** So many parts are ordered by looking at every set of them. */
const EXACT_PARTS = 12;
/** Tasks looked at by the verifier in all those sets, at the most. */
const EXACT_TASKS = 800_000;
/** Sets after which no single part may come, before single parts are given up, where not every set is looked at. */
const DEAD_ENDS = 100;
/** Sets of parts that are tried for the next step. */
const TRIES = 2_000;
/** Sets that are tried to find what takes work off the longest station. */
const RELIEF_TRIES = 200;
/** Tries in tasks looked at by the verifier. */
const TRIED_TASKS = 200_000;
/** Tasks looked at between two questions whether to go on. */
const TASKS_BETWEEN = 100_000;

/** Whether the parts are to be ordered on. */
export type GoesOn = () => Promise<boolean>;

/**
 * Orders the parts of a change so that every plan on the way is allowed: one by one where that is possible, those first that bring the
 * longest station down most. Otherwise, of up to 12 parts, in as many steps as any order has, of these with the smallest largest step.
 * Of more parts, one after the other as far as that goes; then the smallest set that may come next, found by adding to each part what
 * stands in its way, and so on. Told to end, it leaves the parts that are not ordered yet to the last step.
 */
export function orderSteps(way: PlansOnTheWay, tasks: number, goesOn: GoesOn): Promise<StepOrder> {
  return new StepSearch(way, tasks, goesOn).find();
}

class StepSearch {
  private readonly dead = new Set<bigint>();
  private readonly mostExact: number;
  private readonly tries: number;
  private readonly isSided: boolean;
  private looked = 0;
  private isEnded = false;

  constructor(
    private readonly way: PlansOnTheWay,
    private readonly tasks: number,
    private readonly goesOn: GoesOn,
  ) {
    const sets = Math.floor(EXACT_TASKS / Math.max(1, tasks));
    this.mostExact = Math.min(EXACT_PARTS, Math.floor(Math.log2(Math.max(1, sets))));
    this.tries = Math.min(TRIES, Math.ceil(TRIED_TASKS / Math.max(1, tasks)));
    // How tasks are put to sides on the way is not searched through.
    this.isSided = way.slots.some(({ after }) => after?.sides != null);
  }

  async find(): Promise<StepOrder> {
    const { parts } = this.way;
    // On a long line the first look at all parts takes a while.
    this.looked = parts.length * this.tasks;
    if (await this.look()) return { groups: [this.left(0n)], isProved: false };
    const isExact = parts.length <= this.mostExact;
    const { trail, isWhole } = await this.oneByOne(isExact ? Number.POSITIVE_INFINITY : DEAD_ENDS);
    const singles = trail.map((part) => [part]);
    if (isWhole) return { groups: singles, isProved: true };
    if (this.isEnded) return { groups: [...singles, this.left(withParts(0n, trail))], isProved: false };
    const groups = isExact ? await this.inMostSteps(0n) : await this.stepByStep();
    return { groups, isProved: isExact && !this.isSided && !this.isEnded };
  }

  /** Counts one look at a plan on the way; whether the search has been told to end. */
  private async look(): Promise<boolean> {
    this.looked += this.tasks;
    if (this.isEnded || this.looked < TASKS_BETWEEN) return this.isEnded;
    this.looked = 0;
    this.isEnded = !(await this.goesOn());
    return this.isEnded;
  }

  private left(done: bigint): number[] {
    return [...this.way.parts.keys()].filter((part) => (done & bit(part)) === 0n);
  }

  /** Those of some sets of parts that bring the longest station down most, then all stations that are too long, first. */
  private byRelief<T extends readonly number[]>(done: bigint, sets: readonly T[]): T[] {
    if (sets.length < 2) return [...sets];
    return sets
      .map((parts) => ({ parts, ...this.way.loadsWith(done, parts) }))
      .sort((one, two) => compare(one.slowest, two.slowest) || compare(one.excess, two.excess))
      .map(({ parts }) => parts);
  }

  /** Single parts that may come next, as far as is seen without the verifier. */
  private singles(done: bigint): number[][] {
    const seen = this.left(done).filter((part) => this.way.obstacleAhead(done, [part]) === null);
    const sorted = this.byRelief(
      done,
      seen.map((part) => [part]),
    );
    const goal = this.relief(done);
    const leads = ([part]: readonly number[]) => goal.includes(part!);
    return [...sorted.filter(leads), ...sorted.filter((parts) => !leads(parts))];
  }

  /** The smallest set that takes something off the longest station, as far as is seen without the verifier; none where all are short enough. */
  private relief(done: bigint): readonly number[] {
    const { way } = this;
    const seeds = way.partsOff(done).map((part) => [part]);
    const seen = (parts: readonly number[]) => way.obstacleAhead(done, parts);
    return this.smallestSet(done, seeds, seen, RELIEF_TRIES) ?? [];
  }

  /** An order of single parts; not whole where there is none, or none was found before so many dead ends or the end. */
  private async oneByOne(mostDead: number): Promise<{ trail: readonly number[]; isWhole: boolean }> {
    const trail: number[] = [];
    const go = async (at: bigint): Promise<boolean> => {
      if (at === this.way.all) return true;
      if (this.dead.has(at)) return false;
      for (const [part] of this.singles(at)) {
        if (this.dead.size >= mostDead) return false;
        if (this.dead.has(at | bit(part!))) continue;
        if (await this.look()) return false;
        if (this.way.obstacle(at, [part!]) !== null) continue;
        trail.push(part!);
        if (await go(at | bit(part!))) return true;
        if (this.isEnded) return false;
        trail.pop();
      }
      this.dead.add(at);
      return false;
    };
    const isWhole = await go(0n);
    return { trail, isWhole };
  }

  /** The longest chain of allowed sets from one to all parts; of these the one whose largest step is smallest. */
  private async inMostSteps(done: bigint): Promise<number[][]> {
    const free = this.left(done);
    const full = 2 ** free.length - 1;
    const partsIn = (set: number) => free.filter((_, at) => ((set >> at) & 1) === 1);
    const best = new Array<{ steps: number; largest: number } | null>(full + 1).fill(null);
    best[full] = { steps: 0, largest: 0 };
    for (let set = full - 1; set >= 0; set--) {
      if (await this.look()) return [free];
      if (set > 0 && this.way.obstacle(done, partsIn(set)) !== null) continue;
      for (const next of above(set, full)) best[set] = better(best[set]!, stepTo(best[next]!, set, next));
    }
    const groups: number[][] = [];
    for (let set = 0; set < full; ) {
      const most = best[set]!;
      const nexts = [...above(set, full)]
        .filter((next) => isAsGood(stepTo(best[next]!, set, next), most))
        .map((next) => partsIn(next & ~set));
      const fewest = Math.min(...nexts.map(({ length }) => length));
      const [first] = this.byRelief(
        withParts(done, partsIn(set)),
        nexts.filter(({ length }) => length === fewest),
      );
      groups.push(first!);
      set |= free.reduce((sum, part, at) => (first!.includes(part) ? sum | (1 << at) : sum), 0);
    }
    return groups;
  }

  private async stepByStep(): Promise<number[][]> {
    const groups: number[][] = [];
    for (let done = 0n; done !== this.way.all; ) {
      const left = this.left(done);
      if (await this.look()) return [...groups, left];
      if (left.length <= this.mostExact) return [...groups, ...(await this.inMostSteps(done))];
      const next =
        (await this.nextSingle(done)) ??
        this.smallestSet(
          done,
          left.map((part) => [part]),
          (parts) => this.way.obstacle(done, parts),
          this.tries,
        ) ??
        (await this.grownSet(done));
      groups.push(next);
      done = withParts(done, next);
    }
    return groups;
  }

  private async nextSingle(done: bigint): Promise<number[] | null> {
    for (const parts of this.singles(done)) {
      if (await this.look()) return this.left(done);
      if (this.way.obstacle(done, parts) === null) return parts;
    }
    return null;
  }

  /** The smallest set that may come next, by size, from some parts by what stands in their way; null where there is none, or tries run out. */
  private smallestSet(
    done: bigint,
    seeds: readonly number[][],
    obstacle: (parts: readonly number[]) => readonly number[] | null,
    tries: number,
  ): number[] | null {
    const seen = new Set<bigint>();
    let level = seeds;
    while (level.length > 0) {
      const [fitting, following]: [number[][], number[][]] = [[], []];
      for (const parts of level) {
        const helping = obstacle(parts);
        if (helping === null) fitting.push(parts);
        for (const part of helping ?? []) {
          const key = withParts(0n, parts) | bit(part);
          if (seen.has(key)) continue;
          if (seen.size >= tries) return this.byRelief(done, fitting)[0] ?? null;
          seen.add(key);
          following.push([...parts, part]);
        }
      }
      if (fitting.length > 0) return this.byRelief(done, fitting)[0]!;
      level = following;
    }
    return null;
  }

  /** From each part the first that may help with what stands in the way, and so on; then without those that need not be there. */
  private async grownSet(done: bigint): Promise<number[]> {
    let best = this.left(done);
    for (const seed of this.left(done)) {
      const parts = [seed];
      for (let way = this.way.obstacle(done, parts); way !== null && parts.length < best.length; ) {
        if (await this.look()) return best;
        const next = way.find((part) => !parts.includes(part));
        if (next === undefined) break;
        parts.push(next);
        way = this.way.obstacle(done, parts);
      }
      if (parts.length >= best.length || this.way.obstacle(done, parts) !== null) continue;
      best = parts;
    }
    for (const part of [...best]) {
      if (await this.look()) return best;
      const fewer = best.filter((each) => each !== part);
      if (fewer.length > 0 && this.way.obstacle(done, fewer) === null) best = fewer;
    }
    return best;
  }
}

const withParts = (done: bigint, parts: readonly number[]): bigint =>
  parts.reduce((set, part) => set | bit(part), done);

interface Chain {
  readonly steps: number;
  readonly largest: number;
}

/** All larger sets within the full one that hold a set. */
function* above(set: number, full: number): Generator<number> {
  const rest = full & ~set;
  for (let more = rest; more > 0; more = (more - 1) & rest) yield set | more;
}

const stepTo = (chain: Chain | null, set: number, next: number): Chain | null =>
  chain && { steps: chain.steps + 1, largest: Math.max(chain.largest, countBits(next & ~set)) };

function better(one: Chain | null, two: Chain | null): Chain | null {
  if (one === null || two === null) return one ?? two;
  return two.steps > one.steps || (two.steps === one.steps && two.largest < one.largest) ? two : one;
}

const isAsGood = (one: Chain | null, two: Chain): boolean =>
  one !== null && one.steps === two.steps && one.largest === two.largest;

function countBits(set: number): number {
  let count = 0;
  for (let left = set; left > 0; left &= left - 1) count++;
  return count;
}
