import type { Micros } from "../time/duration.js";
import { type Run, type RunLine, type StationStreams, WatchedLine, type Window } from "./watched-line.js";

const NEVER = Number.POSITIVE_INFINITY;

/**
 * A line on which each unit goes on when its station is done. The first station always has a unit and the last is never blocked; a unit
 * that is done and finds neither a free place at the next station nor room before it stays where it is (blocking after service). What
 * happens at the same moment happens from the end of the line on, so that room is made before it is asked for.
 */
export function runUnpaced(line: RunLine, streams: readonly StationStreams[], window: Window): Run {
  const run = new UnpacedLine(line, new WatchedLine(line, streams, window));
  return run.until(window.to);
}

class UnpacedLine {
  /** Of each place: when it is done, the unit there, and since when it works no more. */
  private readonly doneAt: number[][];
  private readonly unitAt: number[][];
  private readonly since: number[][];
  /** Units that wait before each station, in order. */
  private readonly queues: number[][];
  /** Places of each station that are blocked, in order. */
  private readonly blocked: number[][];
  private started = 0;

  constructor(
    private readonly line: RunLine,
    private readonly watched: WatchedLine,
  ) {
    const { stations } = line;
    this.doneAt = stations.map(({ places }) => new Array<number>(places).fill(NEVER));
    this.unitAt = stations.map(({ places }) => new Array<number>(places).fill(-1));
    this.since = stations.map(({ places }) => new Array<number>(places).fill(0));
    this.queues = stations.map(() => []);
    this.blocked = stations.map(() => []);
  }

  until(end: Micros): Run {
    for (const place of this.doneAt[0]!.keys()) this.free(0, place, 0);
    for (;;) {
      const [station, place] = this.next();
      const now = this.doneAt[station]![place]!;
      if (now > end) break;
      this.finish(station, place, now);
    }
    for (const [station, units] of this.unitAt.entries())
      for (const [place, unit] of units.entries())
        if (this.doneAt[station]![place] === NEVER)
          this.watched.spend(station, unit < 0 ? "starved" : "blocked", this.since[station]![place]!, end);
    return this.watched.end();
  }

  private next(): [number, number] {
    let [first, soonest]: [[number, number], number] = [[0, 0], NEVER];
    for (let station = this.doneAt.length - 1; station >= 0; station--) {
      const places = this.doneAt[station]!;
      for (let place = 0; place < places.length; place++)
        if (places[place]! < soonest) [first, soonest] = [[station, place], places[place]!];
    }
    return first;
  }

  private start(station: number, place: number, unit: number, now: Micros): void {
    this.watched.spend(station, "starved", this.since[station]![place]!, now);
    this.unitAt[station]![place] = unit;
    this.doneAt[station]![place] = this.watched.work(station, place, unit, now);
  }

  private finish(station: number, place: number, now: Micros): void {
    const unit = this.unitAt[station]![place]!;
    const next = station + 1;
    this.doneAt[station]![place] = NEVER;
    this.since[station]![place] = now;
    if (next === this.doneAt.length) {
      this.watched.leave(unit, now);
      this.free(station, place, now);
      return;
    }
    const open = this.unitAt[next]!.indexOf(-1);
    if (open >= 0) this.start(next, open, unit, now);
    else if (this.queues[next]!.length < this.line.stations[next]!.buffer) this.queues[next]!.push(unit);
    else {
      this.blocked[station]!.push(place);
      return;
    }
    this.free(station, place, now);
  }

  /** A place has let its unit go and takes the next one, where there is one. */
  private free(station: number, place: number, now: Micros): void {
    this.since[station]![place] = now;
    this.unitAt[station]![place] = -1;
    if (station === 0) {
      this.watched.enter(this.started, now);
      this.start(0, place, this.started, now);
      this.started++;
      return;
    }
    const waiting = this.queues[station]!;
    const held = this.blocked[station - 1]!.shift();
    if (held !== undefined) {
      this.watched.spend(station - 1, "blocked", this.since[station - 1]![held]!, now);
      waiting.push(this.unitAt[station - 1]![held]!);
    }
    const unit = waiting.shift();
    if (unit !== undefined) this.start(station, place, unit, now);
    if (held !== undefined) this.free(station - 1, held, now);
  }
}
