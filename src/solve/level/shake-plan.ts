import type { Stations } from "../problem.js";
import type { PlanRules } from "../search/cycle-problem.js";
import { Arrangement } from "./arrangement.js";
import { drawNumbers } from "./draw-numbers.js";
import { Sharing } from "./share-anew.js";

/**
 * Iterated local search (Lourenço, Martin & Stützle 2003): moves a few tasks at random, mostly around the longest station,
 * lets the stations touched share their tasks anew with all others, and goes on from there when the plan is as good: a
 * shorter longest station, or as long and as even. The numbers drawn are the same in every run.
 */
export class PlanShaker {
  /** Pairs of stations that shared their tasks anew, and questions to the rules. */
  nodes = 0;
  best: Stations;
  /** The longest station of the best plan. */
  longest: number;
  private readonly arrangement: Arrangement;
  private readonly sharing: Sharing;
  private readonly draw = drawNumbers();
  private readonly touched = new Set<number>();
  private now: Value;
  private nowAt: Int32Array;
  private bestSquares: number;

  /** `order` holds all tasks in a valid order of work. */
  constructor(
    times: readonly number[],
    before: readonly (readonly number[])[],
    plan: Stations,
    order: readonly number[],
    rules: PlanRules | null = null,
  ) {
    this.arrangement = new Arrangement(times, before, plan, rules);
    this.sharing = new Sharing(this.arrangement, order, MOST_STEPS);
    for (const station of plan.keys()) this.touched.add(station);
    this.best = plan;
    this.now = worthOf(this.arrangement);
    this.nowAt = this.arrangement.stationOf.slice();
    this.longest = this.now.longest;
    this.bestSquares = this.now.squares;
  }

  /** Goes on from a better plan with as many stations. */
  goOnFrom(plan: Stations): void {
    for (const [station, tasks] of plan.entries()) for (const task of tasks) this.nowAt[task] = station;
    this.arrangement.arrange(this.nowAt);
    this.touched.clear();
    this.now = worthOf(this.arrangement);
    this.keepBest(this.now);
  }

  /** Goes on for about so many pairs of stations. */
  run(pairs: number): void {
    for (const end = this.nodes + pairs; this.nodes < end; ) {
      this.nodes++;
      const { asked } = this.arrangement;
      if (!this.shareTouched(end)) {
        this.keepBest(worthOf(this.arrangement));
        return;
      }
      this.decide();
      this.kick();
      this.nodes += this.arrangement.asked - asked;
    }
  }

  /** False when `end` comes first; what is touched then waits. */
  private shareTouched(end: number): boolean {
    const { loads } = this.arrangement;
    for (const station of this.touched) {
      if (this.nodes >= end) return false;
      this.touched.delete(station);
      for (let other = 0; other < loads.length; other++) {
        if (other === station) continue;
        this.nodes++;
        if (!this.sharing.share(Math.min(station, other), Math.max(station, other))) continue;
        this.touched.add(station);
        this.touched.add(other);
      }
    }
    return true;
  }

  /** Goes on from the plan reached when it is as good as the last one, and now and then when it is little worse. */
  private decide(): void {
    const value = worthOf(this.arrangement);
    this.keepBest(value);
    const isWorse = isBetter(this.now, value);
    if (isWorse && (value.longest > this.now.longest * LITTLE_WORSE || this.draw(SELDOM) > 0)) {
      this.arrangement.arrange(this.nowAt);
      return;
    }
    this.now = value;
    this.nowAt.set(this.arrangement.stationOf);
  }

  private keepBest(value: Value): void {
    if (!isBetter(value, { longest: this.longest, squares: this.bestSquares })) return;
    this.longest = value.longest;
    this.bestSquares = value.squares;
    this.best = this.arrangement.plan();
  }

  private kick(): void {
    const { arrangement, draw } = this;
    const { loads, counts, stationOf, times } = arrangement;
    const longest = [...loads.keys()].filter((station) => loads[station] === this.now.longest);
    const centre = draw(4) > 0 ? longest[draw(longest.length)]! : draw(loads.length);
    let moves = 1 + draw(MOST_MOVES);
    for (let tries = 0; tries < MOST_TRIES && moves > 0; tries++) {
      const task = draw(times.length);
      const from = stationOf[task]!;
      if (Math.abs(from - centre) > NEAR || counts[from]! < 2) continue;
      const first = arrangement.earliest(task);
      const to = first + draw(arrangement.latest(task) - first + 1);
      if (to === from) continue;
      arrangement.place(task, to);
      if (!arrangement.keepsRules(from, to)) {
        arrangement.place(task, from);
        continue;
      }
      this.touched.add(from);
      this.touched.add(to);
      moves--;
    }
  }
}

interface Value {
  readonly longest: number;
  readonly squares: number;
}

/** Guides the search only, so the sum of squares need not be exact. */
function worthOf({ loads, longest }: Arrangement): Value {
  return { longest, squares: loads.reduce((sum, load) => sum + load * load, 0) };
}

function isBetter(one: Value, two: Value): boolean {
  return one.longest < two.longest || (one.longest === two.longest && one.squares < two.squares);
}

const MOST_STEPS = 300;
const MOST_MOVES = 4;
const MOST_TRIES = 100;
const NEAR = 3;
const LITTLE_WORSE = 1.003;
const SELDOM = 200;
