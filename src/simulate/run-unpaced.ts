import type { Micros } from "../time/duration.js";
import { NextTimes } from "./next-times.js";
import { type Found, repairTime, TestedUnits } from "./tested-units.js";
import { WaitsBetween } from "./waits-between.js";
import {
  type Run,
  type RunInSteps,
  type RunLine,
  type RunStreams,
  STEP,
  WatchedLine,
} from "./watched-line.js";
import type { Window } from "./window.js";

const NEVER = Number.POSITIVE_INFINITY;

/**
 * A line on which each unit goes on when its station is done. The first station always has a unit and the last is never blocked; a unit
 * that is done and finds neither a free place at the next station nor room before it stays where it is (blocking after service). What
 * happens at the same moment happens from the end of the line on, so that room is made before it is asked for. A unit that fails a test goes
 * off the line at once, is repaired as soon as somebody is free for it, and waits there until the station that it goes back to has a free
 * place, which takes it before any other. So does a unit that must wait between two tasks: it leaves the station before the wait, for a
 * fixture of its own, which it keeps until the next station takes it. Where no fixture is free, it stays where it is.
 */
export function runUnpaced(line: RunLine, streams: RunStreams, window: Window): RunInSteps {
  const run = new UnpacedLine(line, new WatchedLine(line, streams, window), streams.stations);
  return run.until(window.to);
}

class UnpacedLine {
  private readonly doneAt: NextTimes;
  /** Of each place: the unit there, and since when it works no more. */
  private readonly unitAt: number[][];
  private readonly since: number[][];
  /** Units in the room before each station, in order, and since when. */
  private readonly queues: number[][];
  private readonly queuedSince: Micros[][];
  /** Places of each station that are blocked, in order. */
  private readonly blocked: number[][];
  /** Of each place that is blocked, when the wait of its unit is over; 0 where it goes to the next station without one. */
  private readonly waitsUntil: number[][];
  /** Units that wait before each station, or stand ready there after their wait. */
  private readonly inFixtures: Set<number>[];
  private started = 0;
  private readonly units: TestedUnits | null;
  /** Of each place, what tests find on its unit. */
  private readonly found: (Found | null)[][];
  /** Units off the line for a time, under repair or in a wait, with the station that they go to then. */
  private readonly away: {
    readonly until: Micros;
    readonly unit: number;
    readonly station: number;
    readonly isRepair: boolean;
  }[] = [];
  private repairing = 0;
  /** Units that wait for somebody to repair them, in order. */
  private readonly failed: { readonly unit: number; readonly test: number; readonly station: number }[] = [];
  /** Units off the line that wait for each station, in order. */
  private readonly beside: number[][];
  private readonly between: WaitsBetween;

  constructor(
    private readonly line: RunLine,
    private readonly watched: WatchedLine,
    private readonly streams: RunStreams["stations"],
  ) {
    const { stations } = line;
    this.doneAt = new NextTimes(stations.map(({ places }) => places));
    this.unitAt = stations.map(({ places }) => new Array<number>(places).fill(-1));
    this.since = stations.map(({ places }) => new Array<number>(places).fill(0));
    this.queues = stations.map(() => []);
    this.queuedSince = stations.map(() => []);
    this.blocked = stations.map(() => []);
    this.inFixtures = stations.map(() => new Set());
    this.waitsUntil = stations.map(({ places }) => new Array<number>(places).fill(0));
    this.units = line.tested && new TestedUnits(line.tested, line.sequence);
    this.found = stations.map(({ places }) => new Array<Found | null>(places).fill(null));
    this.beside = stations.map(() => []);
    this.between = new WaitsBetween(line);
  }

  *until(end: Micros): Generator<null, Run> {
    for (const place of this.unitAt[0]!.keys()) this.free(0, place, 0);
    for (let visits = 1; ; visits++) {
      if (visits % STEP === 0) yield null;
      const { station, place, time: now } = this.doneAt.first();
      const back = this.nextBack();
      if (back >= 0 && this.away[back]!.until < now) {
        if (this.away[back]!.until > end) break;
        this.comeBack(back);
        continue;
      }
      if (now > end) break;
      this.finish(station, place, now);
    }
    for (const [station, units] of this.unitAt.entries())
      for (const [place, unit] of units.entries())
        if (this.doneAt.at(station, place) === NEVER)
          this.watched.spend(
            station,
            place,
            unit < 0 ? "starved" : "blocked",
            this.since[station]![place]!,
            end,
          );
    for (const [station, queued] of this.queuedSince.entries())
      for (const since of queued) this.watched.waitBefore(station, since, end, false);
    return this.watched.end();
  }

  private start(station: number, place: number, unit: number, now: Micros): void {
    this.watched.spend(station, place, "starved", this.since[station]![place]!, now);
    this.unitAt[station]![place] = unit;
    const found = this.units?.at(station, unit, this.streams[station]!.tests!) ?? null;
    this.found[station]![place] = found;
    this.doneAt.set(station, place, this.watched.work(station, place, unit, now, found?.due));
    if (this.inFixtures[station]!.delete(unit)) this.goIntoWait(station, now);
  }

  /** A unit that failed leaves the line for repair, or for good. */
  private takeOut(station: number, unit: number, found: Found, now: Micros): void {
    const [units, { test, isScrapped }] = [this.units!, found.failed!];
    if (isScrapped) {
      this.watched.scrap(unit, now);
      units.forget(unit);
      this.between.forget(unit);
      return;
    }
    this.failed.push({ unit, test, station: units.goesBack(station, unit, found.due!, test) });
    this.beginRepair(now);
  }

  private beginRepair(now: Micros): void {
    const tested = this.line.tested!;
    while (this.repairing < tested.repairers) {
      const next = this.failed.shift();
      if (next === undefined) return;
      const until = now + repairTime(tested, next.test);
      this.watched.repair(now, until);
      this.repairing++;
      this.away.push({ until, unit: next.unit, station: next.station, isRepair: true });
    }
  }

  /** The unit off the line whose time is over first; -1 for none. */
  private nextBack(): number {
    let first = -1;
    for (let at = 0; at < this.away.length; at++)
      if (first < 0 || this.away[at]!.until < this.away[first]!.until) first = at;
    return first;
  }

  private comeBack(at: number): void {
    const [{ until, unit, station, isRepair }] = this.away.splice(at, 1) as [(typeof this.away)[number]];
    if (isRepair) {
      this.repairing--;
      this.beginRepair(until);
    }
    const open = this.unitAt[station]!.indexOf(-1);
    if (open >= 0) this.start(station, open, unit, until);
    else this.beside[station]!.push(unit);
  }

  /** Units that are held for want of a fixture go into their wait, in order. */
  private goIntoWait(station: number, now: Micros): void {
    const blocked = this.blocked[station - 1];
    if (blocked === undefined) return;
    const untils = this.waitsUntil[station - 1]!;
    while (blocked.length > 0 && untils[blocked[0]!]! > 0 && this.hasFixture(station)) {
      const place = blocked.shift()!;
      const until = Math.max(now, untils[place]!);
      untils[place] = 0;
      this.watched.spend(station - 1, place, "blocked", this.since[station - 1]![place]!, now);
      this.putInFixture(this.unitAt[station - 1]![place]!, station, until);
      this.free(station - 1, place, now);
    }
  }

  private hasFixture(station: number): boolean {
    const { fixtures, buffer } = this.line.stations[station]!;
    return this.inFixtures[station]!.size < fixtures + buffer;
  }

  private putInFixture(unit: number, station: number, until: Micros): void {
    this.inFixtures[station]!.add(unit);
    this.away.push({ until, unit, station, isRepair: false });
  }

  private finish(station: number, place: number, now: Micros): void {
    const unit = this.unitAt[station]![place]!;
    const next = station + 1;
    this.doneAt.set(station, place, NEVER);
    this.since[station]![place] = now;
    const found = this.found[station]![place]!;
    if (found?.failed) {
      this.takeOut(station, unit, found, now);
      this.free(station, place, now);
      return;
    }
    if (found !== null) this.units!.goesOn(station, unit, found);
    if (next === this.unitAt.length) {
      this.watched.leave(unit, now);
      this.units?.forget(unit);
      this.free(station, place, now);
      return;
    }
    this.between.begin(station, unit, now, found?.due ?? null);
    const until = this.between.end(next, unit);
    if (until > now) {
      if (!this.hasFixture(next)) {
        this.waitsUntil[station]![place] = until;
        this.blocked[station]!.push(place);
        return;
      }
      this.putInFixture(unit, next, until);
      this.free(station, place, now);
      return;
    }
    const open = this.unitAt[next]!.indexOf(-1);
    if (open >= 0) {
      this.watched.waitBefore(next, now, now);
      this.start(next, open, unit, now);
    } else if (this.queues[next]!.length < this.line.stations[next]!.buffer) this.queue(next, unit, now);
    else {
      this.blocked[station]!.push(place);
      return;
    }
    this.free(station, place, now);
  }

  private queue(station: number, unit: number, now: Micros): void {
    this.queues[station]!.push(unit);
    this.queuedSince[station]!.push(now);
    this.watched.fill(station, this.queues[station]!.length, now);
  }

  /** A place has let its unit go and takes the next one, where there is one. */
  private free(station: number, place: number, now: Micros): void {
    this.since[station]![place] = now;
    this.unitAt[station]![place] = -1;
    const back = this.beside[station]!.shift();
    if (back !== undefined) {
      this.start(station, place, back, now);
      return;
    }
    if (station === 0) {
      this.watched.enter(this.started, now);
      this.start(0, place, this.started, now);
      this.started++;
      return;
    }
    const waiting = this.queues[station]!;
    const first = this.blocked[station - 1]![0];
    // What waits for a fixture is not ready for the station.
    const goesOn = first !== undefined && this.waitsUntil[station - 1]![first] === 0;
    const held = goesOn ? this.blocked[station - 1]!.shift() : undefined;
    let unit = waiting.shift();
    if (unit !== undefined) this.watched.waitBefore(station, this.queuedSince[station]!.shift()!, now);
    else if (held !== undefined) this.watched.waitBefore(station, now, now);
    if (held !== undefined) {
      this.watched.spend(station - 1, held, "blocked", this.since[station - 1]![held]!, now);
      const next = this.unitAt[station - 1]![held]!;
      if (unit === undefined) unit = next;
      else this.queue(station, next, now);
    }
    if (unit !== undefined) this.start(station, place, unit, now);
    if (held !== undefined) this.free(station - 1, held, now);
    this.goIntoWait(station, now);
  }
}
