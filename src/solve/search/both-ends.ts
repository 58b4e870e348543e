import type { Stations } from "../problem.js";
import { addTask } from "./bit-sets.js";
import { Hoffmann } from "./hoffmann.js";
import type { Instance } from "./instance.js";

/**
 * First plans built from both ends of the line: the plan of one end gives its first stations, every number of them in
 * turn, and the rest is filled from the other end (Scholl & Klein 1997 search from both ends in the same way). The
 * awkward stations then fall into the middle of the line, where the choice of tasks is largest.
 */
export class BothEnds {
  /** Fills know only the time of stations: works whose instances have no rules. */
  static suit({ rules }: Pick<Instance, "rules">): boolean {
    return rules === null;
  }

  /** Each end may look at its own number of full loads. */
  constructor(
    private readonly front: End,
    private readonly back: End,
  ) {}

  private get steps(): number {
    return this.front.filler.steps + this.back.filler.steps;
  }

  /**
   * Tries one start after the other: gives a plan, front to back in task numbers of the problem, or null where a try
   * does not come down to `target()` stations. Ends after about STEPS_A_TASK steps for each task.
   */
  *tries(target: () => number): Generator<number[][] | null> {
    for (const share of SHARES) {
      for (const end of [this.front, this.back]) {
        const other = end === this.front ? this.back : this.front;
        for (const plan of triesFrom(end, other, share, target)) {
          yield plan !== null && end === this.back ? plan.toReversed() : plan;
          if (this.steps > STEPS_A_TASK * this.front.instance.size) return;
        }
      }
    }
  }
}

/** An instance with its filler, speaking in task numbers of the problem. */
export class End {
  readonly filler: Hoffmann;
  private readonly numbers: Int32Array;

  constructor(
    readonly instance: Instance,
    readonly mostNodes: number,
  ) {
    this.filler = new Hoffmann(instance, mostNodes);
    this.numbers = new Int32Array(instance.size);
    for (let task = 0; task < instance.size; task++) this.numbers[instance.original[task]!] = task;
  }

  /** Stations for the tasks that are not placed, this end's first. */
  fill(placed: readonly number[], mostIdle: number, share: number): number[][] | null {
    const set = new Int32Array(this.instance.words);
    for (const task of placed) addTask(set, 0, this.numbers[task]!);
    const stations = this.filler.fill(set, mostIdle, share);
    return stations === null ? null : this.named(stations);
  }

  /** A plan in task numbers of the problem, given in those of the instance. */
  named(plan: Stations): number[][] {
    return plan.map((load) => load.map((task) => this.instance.original[task]!));
  }

  /** A plan in task numbers of the instance, given in those of the problem. */
  numbered(plan: Stations): number[][] {
    return plan.map((load) => load.map((task) => this.numbers[task]!));
  }

  /** What so many stations may leave idle beside these loads. */
  idleLeft(loads: readonly number[][], stations: number): number {
    const { limit, times, workContent } = this.instance;
    const placed = loads.flat().reduce((sum, task) => sum + times[this.numbers[task]!]!, 0);
    return (stations - loads.length) * limit - (workContent - placed);
  }
}

/** Plans that keep the first 0, 1, 2, ... stations of the plan of one end. */
function* triesFrom(end: End, other: End, share: number, target: () => number): Generator<number[][] | null> {
  const whole = end.fill([], Number.POSITIVE_INFINITY, share);
  if (whole === null) return;
  yield whole.length <= target() ? whole : null;
  for (let kept = 1; kept < whole.length; kept++) {
    const start = whole.slice(0, kept);
    const mostIdle = end.idleLeft(start, target());
    if (mostIdle < 0) return;
    const rest = other.fill(start.flat(), mostIdle, share);
    yield rest === null ? null : [...start, ...rest.toReversed()];
  }
}

/** Shares of the positional weight in the worth of a load. */
const SHARES = [0, 0.005, 0.01, 0.02];
const STEPS_A_TASK = 200;
