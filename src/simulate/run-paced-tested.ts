import type { Micros } from "../time/duration.js";
import type { Stream } from "./draw-times.js";
import { PacedPlaces } from "./run-paced.js";
import { type Found, repairTime, type TestedLine, TestedUnits } from "./tested-units.js";
import { type RunInSteps, type RunLine, type RunStreams, STEP, WatchedLine } from "./watched-line.js";
import type { Window } from "./window.js";

const EMPTY = -1;

/**
 * A line on which all units move on together, with tests whose failures are drawn one by one. Units ride on carriers. One that fails is taken off
 * as the line moves on, and leaves its carrier empty. Once it is repaired it waits beside the station that it goes back to for the next empty
 * carrier; where none is on its way there, the line starts an empty one in place of a new unit.
 */
export function* runPacedTested(line: RunLine, streams: RunStreams, window: Window): RunInSteps {
  const { stations, lineCycle } = line;
  const watched = new WatchedLine(line, streams, window);
  const units = new TestedUnits(line.tested!, line.sequence);
  const off = new OffTheLine(line.tested!, watched);
  const places = new PacedPlaces(line, watched);
  const { offsets, whole } = places;
  /** What each carrier in the line carries, and what was found on it where it stood last; the newest one takes the room of the one that left. */
  const carried: number[] = [];
  const found: Found[] = [];
  const forget = (unit: number) => {
    units.forget(unit);
    places.forget(unit);
  };
  /** A carrier leaves a station: its unit goes on or is taken off. */
  const moveOn = (station: number, carrier: number, now: Micros) => {
    const [unit, judged] = [carried[carrier]!, found[carrier]!];
    if (unit === EMPTY) return;
    if (judged.failed === null) {
      units.goesOn(station, unit, judged);
      return;
    }
    carried[carrier] = EMPTY;
    if (judged.failed.isScrapped) {
      watched.scrap(unit, now);
      forget(unit);
    } else {
      const { test } = judged.failed;
      off.fail(unit, test, units.goesBack(station, unit, judged.due!, test), now);
    }
  };
  const leaveLine = (unit: number, now: Micros) => {
    if (unit === EMPTY) return;
    watched.leave(unit, now);
    forget(unit);
  };
  /** Empty carriers that the line started from one round to before another. */
  const emptyIn = (from: number, to: number) => {
    let empty = 0;
    for (let each = from; each < to; each++) if (carried[each % (whole + 1)] === EMPTY) empty++;
    return empty;
  };
  let [now, started] = [0, 0];
  for (let round = 0; now <= window.to; round++) {
    if (round % Math.ceil(STEP / stations.length) === 0 && round > 0) yield null;
    off.repairUntil(now);
    for (const [station, { places: count }] of stations.entries()) {
      const leaving = round - offsets[station]! - count;
      if (leaving >= 0) moveOn(station, leaving % (whole + 1), now);
    }
    leaveLine(carried[(round + 1) % (whole + 1)] ?? EMPTY, now);
    const isEmptyBefore = (station: number) => emptyIn(round - Math.min(round, offsets[station]!), round);
    carried[round % (whole + 1)] = EMPTY;
    if (!off.isShort(isEmptyBefore)) {
      carried[round % (whole + 1)] = started;
      watched.enter(started++, now);
    }
    let next = now + (lineCycle ?? 0);
    for (let station = 0; station < stations.length; station++) {
      const entered = round - offsets[station]!;
      if (entered < 0) break;
      const carrier = entered % (whole + 1);
      if (carried[carrier] === EMPTY) carried[carrier] = off.board(station);
      const unit = carried[carrier]!;
      places.start(station, entered, now);
      if (unit !== EMPTY) {
        const judged = units.at(station, unit, streams.stations[station]!.tests as Stream);
        found[carrier] = judged;
        places.work(station, entered, unit, judged.due);
      }
      next = Math.max(next, places.leaveAt(station, entered));
    }
    now = next;
  }
  places.end(window.to);
  return watched.end();
}

interface Repaired {
  readonly unit: number;
  readonly test: number;
  readonly station: number;
}

/** Units off the line: some wait for repair, some are repaired, some wait for a carrier. */
class OffTheLine {
  private readonly failed: Repaired[] = [];
  private readonly inRepair: (Repaired & { readonly until: Micros })[] = [];
  private readonly ready: Repaired[] = [];

  constructor(
    private readonly tested: TestedLine,
    private readonly watched: WatchedLine,
  ) {}

  fail(unit: number, test: number, station: number, now: Micros): void {
    this.failed.push({ unit, test, station });
    this.begin(now);
  }

  /** Whoever is done repairs what waits. */
  repairUntil(now: Micros): void {
    for (;;) {
      const next = this.inRepair.reduce((one, { until }) => Math.min(one, until), Number.POSITIVE_INFINITY);
      if (next > now) return;
      const at = this.inRepair.findIndex(({ until }) => until === next);
      this.ready.push(...this.inRepair.splice(at, 1));
      this.begin(next);
    }
  }

  private begin(now: Micros): void {
    while (this.inRepair.length < this.tested.repairers) {
      const next = this.failed.shift();
      if (next === undefined) return;
      const until = now + repairTime(this.tested, next.test);
      this.watched.repair(now, until);
      this.inRepair.push({ ...next, until });
    }
  }

  /** Whether some unit that waits has no empty carrier on its way; asked with how many come to a station. */
  isShort(emptyBefore: (station: number) => number): boolean {
    if (this.ready.length === 0) return false;
    const ahead = this.ready.map(({ station }) => station).sort((one, two) => one - two);
    return ahead.some((station, at) => emptyBefore(station) < at + 1);
  }

  /** The unit that waits longest for an empty carrier at a station, which it then takes. */
  board(station: number): number {
    if (this.ready.length === 0) return EMPTY;
    const at = this.ready.findIndex((each) => each.station === station);
    return at < 0 ? EMPTY : this.ready.splice(at, 1)[0]!.unit;
  }
}
