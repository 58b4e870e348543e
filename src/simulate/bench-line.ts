import type { Micros } from "../time/duration.js";
import { MICROS_IN } from "../time/units.js";
import type { RunBench } from "./bench-of-run.js";
import type { Stream } from "./draw-times.js";
import { SharedRigs } from "./shared-rigs.js";
import { SLICES, sliceEnd, type Window } from "./window.js";

const NEVER = Number.POSITIVE_INFINITY;

/** Units' parts of a bench in one part of the window, or in one hour of its days. */
export interface StockSlice {
  /** How long it was watched, in microseconds. */
  readonly time: number;
  /** Units' parts x time. */
  readonly partTime: number;
  readonly least: number;
  readonly greatest: number;
}

/** What a bench did in the window; times in microseconds. */
export interface BenchRun {
  /** So much of the window the bench works. */
  readonly watched: number;
  /** Of all its places together, of that; starved: nothing is there to work on, or no equipment and nobody is free for it. */
  readonly times: Readonly<Record<"busy" | "starved" | "blocked", number>>;
  /** Sets of parts that came from it. */
  readonly built: number;
  /** Time of units that stood at a station of the line and waited for a set. */
  readonly waited: number;
  /** By hours of the day, or by slices of the window where there are no days. */
  readonly stock: readonly StockSlice[];
}

/**
 * A bench that builds sets of parts for the units that carry them, as they follow each other, and puts them into a room before the line. What
 * finds no room stays at its place, which then stops. Nothing lies between its stations. It is run up to the moment that is asked for,
 * and further only where a unit waits for its set: until then nothing that the line does can change when that comes.
 *
 * Its own time counts the hours that the bench works.
 */
export class BenchLine {
  private readonly doneAt: number[][];
  /** Of each place whether a set is there, and since when nobody works on it. */
  private readonly isHeld: boolean[][];
  private readonly since: number[][];
  /** Places of each station that are blocked, in order. */
  private readonly blocked: number[][];
  private readonly times = { busy: 0, starved: 0, blocked: 0 };
  private built = 0;
  private waited = 0;
  private stock: number;
  private stockSince: Micros = 0;
  private readonly slices: { time: number; partTime: number; least: number; greatest: number }[];
  private slice = 0;
  /** The unit of the line whose set each place builds, and that of the newest one. */
  private readonly unitAt: number[][];
  private unit = -1;
  private readonly rigs: readonly (SharedRigs | null)[];
  private readonly own: Window;
  /** The window by the clock. */
  private readonly clock: Window;

  constructor(
    private readonly bench: RunBench,
    private readonly stream: Stream,
    private readonly window: Window,
  ) {
    const places = <T>(value: T) => bench.stations.map((each) => new Array<T>(each.places).fill(value));
    this.rigs = bench.stations.map(
      ({ rigs, places: stands }) => rigs && new SharedRigs(rigs, stands / rigs.holds),
    );
    this.doneAt = places(NEVER);
    this.isHeld = places(false);
    this.since = places(0);
    this.unitAt = places(-1);
    this.blocked = bench.stations.map(() => []);
    this.stock = bench.start;
    this.clock = { from: this.clockOf(window.from), to: this.clockOf(window.to) };
    this.own = { from: this.ownOf(this.clock.from), to: this.ownOf(this.clock.to) };
    const parts = bench.day === null ? (window.slices ?? SLICES) : Math.ceil(bench.day.length / MICROS_IN.h);
    this.slices = Array.from({ length: parts }, () => ({ time: 0, partTime: 0, least: NEVER, greatest: 0 }));
    for (const place of this.doneAt[0]!.keys()) this.begin(place, 0);
  }

  /** A unit of the line asks for its set; gives when it has it. Units ask in order of time. */
  take(now: Micros): Micros {
    const clock = this.clockOf(now);
    this.runUntil(this.ownOf(clock));
    if (this.stock > 0) {
      this.store(-1, clock);
      this.release(this.ownOf(clock));
      return now;
    }
    let own = this.ownOf(clock);
    while (this.stock === 0) own = this.runNext();
    const there = this.clockOfOwn(own);
    this.store(-1, there);
    const has = Math.max(now, this.lineAt(there));
    this.waited += Math.max(0, Math.min(has, this.window.to) - Math.max(now, this.window.from));
    return has;
  }

  end(): BenchRun {
    this.runUntil(this.own.to);
    this.store(0, this.clock.to);
    for (const [station, places] of this.isHeld.entries())
      for (const [place, isHeld] of places.entries())
        if (this.doneAt[station]![place] === NEVER)
          this.spend(isHeld ? "blocked" : "starved", this.since[station]![place]!, this.own.to);
    const { times, built, waited, slices, own } = this;
    return { watched: own.to - own.from, times, built, waited, stock: slices };
  }

  private clockOf(now: Micros): Micros {
    return this.bench.day === null ? now : this.bench.day.line.clockAt(now);
  }

  private lineAt(clock: Micros): Micros {
    return this.bench.day === null ? clock : this.bench.day.line.workedAt(clock);
  }

  private ownOf(clock: Micros): Micros {
    return this.bench.day === null ? clock : this.bench.day.bench.workedAt(clock);
  }

  private clockOfOwn(own: Micros): Micros {
    return this.bench.day === null ? own : this.bench.day.bench.clockAt(own);
  }

  private spend(state: "busy" | "starved" | "blocked", from: Micros, to: Micros): void {
    const within = Math.min(to, this.own.to) - Math.max(from, this.own.from);
    if (within > 0) this.times[state] += within;
  }

  /** Puts sets into the room, or takes them out, at a moment of the clock. */
  private store(more: number, clock: Micros): void {
    const { from, to } = this.clock;
    let now = Math.max(this.stockSince, from);
    const until = Math.min(clock, to);
    while (now < until) {
      const [slice, ends] = this.sliceAt(now);
      const next = Math.min(until, ends);
      slice.time += next - now;
      slice.partTime += (next - now) * this.stock;
      slice.least = Math.min(slice.least, this.stock);
      slice.greatest = Math.max(slice.greatest, this.stock);
      now = next;
    }
    this.stock += more;
    this.stockSince = clock;
  }

  private sliceAt(clock: Micros): [(typeof this.slices)[number], Micros] {
    const { day } = this.bench;
    if (day === null) {
      while (clock >= sliceEnd(this.window, this.slice)) this.slice++;
      return [this.slices[this.slice]!, sliceEnd(this.window, this.slice)];
    }
    const days = Math.floor(clock / day.length) * day.length;
    const hour = Math.floor((clock - days) / MICROS_IN.h);
    return [this.slices[hour]!, Math.min(days + (hour + 1) * MICROS_IN.h, days + day.length)];
  }

  /** The moment of its own time when the next place is done, and that place. */
  private next(): [number, number, number] {
    let first: [number, number, number] = [NEVER, 0, 0];
    for (let station = this.doneAt.length - 1; station >= 0; station--)
      for (const [place, done] of this.doneAt[station]!.entries())
        if (done < first[0]) first = [done, station, place];
    return first;
  }

  private runUntil(own: Micros): void {
    for (let next = this.next(); next[0] <= own; next = this.next()) this.finish(...next);
  }

  private runNext(): Micros {
    const next = this.next();
    this.finish(...next);
    return next[0];
  }

  private begin(place: number, now: Micros): void {
    do this.unit++;
    while (!this.bench.carries(this.unit));
    this.work(0, place, this.unit, now);
  }

  private work(station: number, place: number, unit: number, now: Micros): void {
    const rigs = this.rigs[station]!;
    const { takes, waits } =
      rigs === null
        ? { takes: this.bench.stations[station]!.work(unit, this.stream, null, now), waits: 0 }
        : rigs.work(unit, this.stream, null, now, place);
    this.isHeld[station]![place] = true;
    this.unitAt[station]![place] = unit;
    const done = now + Math.max(1, takes);
    this.doneAt[station]![place] = done;
    // What it waits for equipment or for somebody to work on it.
    this.spend("starved", now, now + waits);
    this.spend("busy", now + waits, done);
  }

  private finish(now: Micros, station: number, place: number): void {
    this.doneAt[station]![place] = NEVER;
    this.since[station]![place] = now;
    if (this.handOn(station, place, now)) this.free(station, place, now);
    else this.blocked[station]!.push(place);
  }

  /** Whether the set at a place could go on, to the room or to a place of the next station. */
  private handOn(station: number, place: number, now: Micros): boolean {
    const next = station + 1;
    if (next === this.doneAt.length) {
      if (this.stock >= this.bench.room) return false;
      if (now > this.own.from && now <= this.own.to) this.built++;
      this.store(1, this.clockOfOwn(now));
      return true;
    }
    const open = this.isHeld[next]!.indexOf(false);
    if (open < 0) return false;
    this.spend("starved", this.since[next]![open]!, now);
    this.work(next, open, this.unitAt[station]![place]!, now);
    return true;
  }

  private free(station: number, place: number, now: Micros): void {
    this.isHeld[station]![place] = false;
    this.since[station]![place] = now;
    if (station === 0) this.begin(place, now);
    else this.release(now, station - 1);
  }

  /** What waits longest at a station goes on, as there is room. */
  private release(now: Micros, station = this.doneAt.length - 1): void {
    const held = this.blocked[station]!.shift();
    if (held === undefined) return;
    this.spend("blocked", this.since[station]![held]!, now);
    this.handOn(station, held, now);
    this.free(station, held, now);
  }
}
