import { type Finding, finding } from "../findings/finding.js";
import { quoted } from "../time/quoted.js";
import type { Micros } from "../time/units.js";
import type { ReadElement, TakenReading } from "./readings.js";
import type { StudyTerms } from "./study-terms.js";

/** A reading as a time of its element. */
export interface TimedReading {
  readonly taken: TakenReading;
  /** Null where it cannot be told, as beside a reading that was missed. */
  readonly time: Micros | null;
  /** Foreign, missed, or beside one that was missed on a continuous clock. */
  readonly isLeftOut: boolean;
}

export interface WatchTimes {
  /** The readings of each element in order. */
  readonly elements: readonly (readonly TimedReading[])[];
  readonly findings: readonly Finding[];
}

/** The times of elements: what a snapback watch showed, or what a continuous one showed less what it showed before. */
export function runWatch(
  file: string,
  elements: readonly ReadElement[],
  clock: StudyTerms["clock"],
): WatchTimes {
  if (clock === "continuous") return subtractReadings(file, elements);
  const isAsked = clock === null;
  const times = elements.map(({ readings }) =>
    readings.map((taken) => ({
      taken,
      time: taken.shown,
      isLeftOut: taken.isMarked || taken.shown === null,
    })),
  );
  return { elements: times, findings: isAsked ? askForContinuous(file, elements) : [] };
}

/** A reading and the number of its element. */
interface Turn {
  readonly element: number;
  readonly taken: TakenReading;
}

/** The cycles of each observer, each with its readings in the order in which they were taken. */
function cyclesOf(elements: readonly ReadElement[]): Turn[][][] {
  const observers = new Map<string, Map<number, Turn[]>>();
  for (const [element, { readings }] of elements.entries()) {
    for (const taken of readings) {
      const cycles = observers.get(taken.observer ?? "") ?? new Map<number, Turn[]>();
      observers.set(taken.observer ?? "", cycles);
      const turns = cycles.get(taken.cycle) ?? [];
      cycles.set(taken.cycle, turns);
      turns.push({ element, taken });
    }
  }
  return [...observers.values()].map((cycles) =>
    [...cycles].sort(([one], [two]) => one - two).map(([, turns]) => turns.sort(byTurn)),
  );
}

const byTurn = (one: Turn, two: Turn): number => one.taken.turn - two.taken.turn;

function subtractReadings(file: string, elements: readonly ReadElement[]): WatchTimes {
  const walk = new ClockWalk(file, elements);
  for (const cycles of cyclesOf(elements)) walk.observer(cycles);
  const of = (taken: TakenReading): TimedReading =>
    walk.times.get(taken) ?? { taken, time: null, isLeftOut: true };
  return { elements: elements.map(({ readings }) => readings.map(of)), findings: walk.findings };
}

/** Goes through the readings of a continuous clock in the order in which they were taken. */
class ClockWalk {
  readonly times = new Map<TakenReading, TimedReading>();
  readonly findings: Finding[] = [];
  #last: TakenReading | null = null;
  /** Whether what the watch showed since the last reading is more than one element. */
  #isMissed = false;

  constructor(
    readonly file: string,
    readonly elements: readonly ReadElement[],
  ) {}

  observer(cycles: readonly (readonly Turn[])[]): void {
    this.#start();
    let startsAnew: boolean | null = null;
    for (const turns of cycles) {
      const first = turns.find(({ taken }) => taken.shown !== null);
      if (first === undefined) continue;
      if (this.#last !== null) {
        const isAnew: boolean = first.taken.shown! <= this.#last.shown!;
        if (startsAnew !== null && startsAnew !== isAnew) this.#refuseMixed(first, startsAnew);
        startsAnew = isAnew;
        if (isAnew) this.#start();
      }
      this.#cycle(turns);
    }
  }

  #start(): void {
    this.#last = null;
    this.#isMissed = false;
  }

  #cycle(turns: readonly Turn[]): void {
    let reached = -1;
    for (const { element, taken } of turns) {
      this.#pass(reached + 1, element);
      reached = Math.max(reached, element);
      if (taken.shown === null) {
        this.#isMissed = true;
        continue;
      }
      const time = taken.shown - (this.#last?.shown ?? 0);
      if (time <= 0) this.#refuseFalling(element, taken);
      if (this.#isMissed && !taken.isMarked) this.#tellMissed(element, taken);
      this.times.set(taken, { taken, time, isLeftOut: taken.isMarked || this.#isMissed });
      [this.#last, this.#isMissed] = [taken, false];
    }
    this.#pass(reached + 1, this.elements.length);
  }

  /** Elements of every cycle that have no reading in this one, although others before and behind them do. */
  #pass(from: number, to: number): void {
    if (this.elements.slice(from, to).some(({ every }) => every === 1)) this.#isMissed = true;
  }

  #tell(rule: string, severity: "error" | "warning", taken: TakenReading, message: string): void {
    const said = `${taken.address}: ${message}`;
    this.findings.push(finding({ rule, severity, message: said, file: this.file, place: taken.place }));
  }

  #refuseFalling(element: number, taken: TakenReading): void {
    const than =
      this.#last === null ? "0, where the watch starts" : `the one before in ${this.#last.address}`;
    const message = `the reading of ${this.#name(element)} is not above ${than}; a continuous clock only rises. Give --clock restart if the watch starts again with each element`;
    this.#tell("falling-reading", "error", taken, message);
  }

  #refuseMixed({ element, taken }: Turn, startsAnew: boolean): void {
    const [others, here] = ["starts again with the cycle", "runs on from the cycle before"];
    const [usual, now] = startsAnew ? [others, here] : [here, others];
    const message = `the clock ${now} at ${this.#name(element)}, and ${usual} elsewhere; one of the readings is wrong`;
    this.#tell("mixed-clock", "error", taken, message);
  }

  #tellMissed(element: number, taken: TakenReading): void {
    const message = `the reading before ${this.#name(element)} is missing, so the time of neither can be told; this one is left out too`;
    this.#tell("missed-reading", "warning", taken, message);
  }

  #name = (element: number): string => quoted(this.elements[element]!.name);
}

/** Fewer steps up may well be chance. */
const FEWEST_STEPS = 3;

/** Asks whether the clock is continuous, where readings rise from element to element in every cycle. */
function askForContinuous(file: string, elements: readonly ReadElement[]): Finding[] {
  const regular = elements.filter(({ every }) => every === 1);
  const cycles = cyclesOf(regular);
  // Of one element alone, the cycles are the steps.
  const runs = regular.length === 1 ? cycles.map((each) => each.flat()) : cycles.flat();
  const shown = runs
    .map((turns) => turns.flatMap(({ taken }) => taken.shown ?? []))
    .filter((values) => values.length > 1);
  const steps = shown.reduce((sum, values) => sum + values.length - 1, 0);
  const rises = shown.every((values) => values.every((value, at) => at === 0 || value > values[at - 1]!));
  if (!rises || steps < FEWEST_STEPS) return [];
  const where = regular.length === 1 ? "from reading to reading" : "from element to element in every cycle";
  const message = `readings rise ${where}: is the clock continuous? If it ran on, give --clock continuous; if each reading is the time of its element, give --clock restart`;
  return [finding({ rule: "rising-readings", severity: "warning", message, file })];
}
