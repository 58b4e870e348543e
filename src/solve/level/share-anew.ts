import type { Arrangement } from "./arrangement.js";

/** `shareTwo` for every two stations, neighbours first. True when something changed. */
export function shareAnew(arrangement: Arrangement, order: readonly number[]): boolean {
  let changed = false;
  const count = arrangement.loads.length;
  for (let apart = 1; apart < count; apart++) {
    for (let early = 0; early + apart < count; early++) {
      if (shareTwo(arrangement, order, early, early + apart)) changed = true;
    }
  }
  return changed;
}

/**
 * Deals the tasks of two stations out anew where that brings their times closer together, in at most STEPS steps. Neither
 * gets longer than the longer of the two was, and neither gets empty. `order` holds all tasks in a valid order of work. True
 * when something changed.
 */
export function shareTwo(
  arrangement: Arrangement,
  order: readonly number[],
  early: number,
  late: number,
): boolean {
  if (arrangement.loads[early] === arrangement.loads[late]) return false;
  const share = new TwoStations(arrangement, order, early, late).evenest();
  for (const [task, station] of share ?? []) {
    if (arrangement.stationOf[task] !== station) arrangement.place(task, station);
  }
  return share !== null;
}

/** All ways to deal the tasks of two stations out, nearest to halves first found. */
class TwoStations {
  private readonly tasks: readonly number[];
  private readonly total: number;
  /** The tasks of each place in `tasks` that must be early for it to be early. */
  private readonly needs: readonly (readonly number[])[];
  private readonly mayChange: readonly boolean[];
  private readonly isEarly: boolean[];
  private gap: number;
  private best: boolean[] | null = null;
  private steps = 0;

  constructor(
    private readonly arrangement: Arrangement,
    order: readonly number[],
    private readonly early: number,
    private readonly late: number,
  ) {
    const { loads, stationOf, before, after } = arrangement;
    this.tasks = order.filter((task) => stationOf[task] === early || stationOf[task] === late);
    const place = new Map(this.tasks.map((task, at) => [task, at]));
    this.needs = this.tasks.map((task) => before[task]!.flatMap((each) => place.get(each) ?? []));
    const isBetween = (task: number) => stationOf[task]! > early && stationOf[task]! < late;
    this.mayChange = this.tasks.map(
      (task) => !after[task]!.some(isBetween) && !before[task]!.some(isBetween),
    );
    this.isEarly = this.tasks.map((task) => stationOf[task] === early);
    this.total = loads[early]! + loads[late]!;
    this.gap = Math.abs(loads[early]! - loads[late]!);
  }

  /** Each task with its station, or null where no share found is more even than now. */
  evenest(): [task: number, station: number][] | null {
    this.deal(0, 0, this.total);
    const best = this.best;
    if (best === null) return null;
    return this.tasks.map((task, at) => [task, best[at] ? this.early : this.late]);
  }

  /** Deals out from place `at` on, with so much work early already and so much still in hand. */
  private deal(at: number, early: number, inHand: number): void {
    if (this.gap === 0 || ++this.steps > STEPS) return;
    if (early - (this.total - early) >= this.gap) return;
    if (this.total - 2 * (early + inHand) >= this.gap) return;
    if (at === this.tasks.length) {
      this.keep(early);
      return;
    }
    const own = this.arrangement.times[this.tasks[at]!]!;
    const was = this.arrangement.stationOf[this.tasks[at]!] === this.early;
    const mayBeEarly = this.needs[at]!.every((earlier) => this.isEarly[earlier]);
    if (mayBeEarly && (was || this.mayChange[at])) {
      this.isEarly[at] = true;
      this.deal(at + 1, early + own, inHand - own);
    }
    if (!was || this.mayChange[at]) {
      this.isEarly[at] = false;
      this.deal(at + 1, early, inHand - own);
    }
  }

  private keep(early: number): void {
    if (!this.isEarly.includes(true) || !this.isEarly.includes(false)) return;
    this.gap = Math.abs(this.total - 2 * early);
    this.best = [...this.isEarly];
  }
}

const STEPS = 2000;
