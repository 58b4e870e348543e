import type { Micros } from "../time/duration.js";
import { WaitsBetween } from "./waits-between.js";
import { type RunInSteps, type RunLine, type RunStreams, STEP, WatchedLine } from "./watched-line.js";
import type { Window } from "./window.js";

/**
 * A line on which all units move on together: when the line cycle is over, and no sooner than every station is done with the unit that
 * leaves it, but for its room. A place with so many beside it has that many cycles for a unit. Work that runs on in the room is done
 * before the place begins the next unit.
 */
export function* runPaced(line: RunLine, streams: RunStreams, window: Window): RunInSteps {
  const { stations, lineCycle } = line;
  const watched = new WatchedLine(line, streams, window);
  const places = new PacedPlaces(line, watched);
  const { offsets, whole } = places;
  let now = 0;
  for (let round = 0; now <= window.to; round++) {
    if (round % Math.ceil(STEP / stations.length) === 0 && round > 0) yield null;
    if (round >= whole) watched.leave(round - whole, now);
    watched.enter(round, now);
    let next = now + (lineCycle ?? 0);
    for (let station = 0; station < stations.length; station++) {
      const unit = round - offsets[station]!;
      if (unit < 0) break;
      places.start(station, unit, now);
      places.work(station, unit, unit);
      next = Math.max(next, places.leaveAt(station, unit));
    }
    now = next;
  }
  places.end(window.to);
  return watched.end();
}

/** The places of a line that moves together, which take what comes to their station in turn. */
export class PacedPlaces {
  /** Where units may stand before each station, empty stations included, and in all. */
  readonly offsets: readonly number[];
  readonly whole: number;
  /** When each is done with what it has had last, and whether that was a unit. */
  private readonly doneAt: Micros[][];
  private readonly isUsed: boolean[][];
  /** Null where no unit waits between tasks. */
  private readonly between: WaitsBetween | null;

  constructor(
    private readonly line: RunLine,
    private readonly watched: WatchedLine,
  ) {
    const { stations } = line;
    let stand = 0;
    this.offsets = stations.map(({ places, emptyBefore }) => {
      const offset = stand + emptyBefore;
      stand = offset + places;
      return offset;
    });
    this.whole = stand;
    this.doneAt = stations.map(({ places }) => new Array<number>(places).fill(0));
    this.isUsed = stations.map(({ places }) => new Array<boolean>(places).fill(false));
    this.between = stations.some(({ waits }) => waits.length > 0) ? new WaitsBetween(line) : null;
  }

  /**
   * A round in which something comes to a station, with a unit or without.
   *
   * @param entered how many have come there before
   */
  start(station: number, entered: number, now: Micros): void {
    const place = entered % this.line.stations[station]!.places;
    const start = Math.max(now, this.doneAt[station]![place]!);
    this.wait(station, place, start);
    this.isUsed[station]![place] = false;
    this.doneAt[station]![place] = start;
  }

  /** It has this unit, whose work begins once its wait before that station is over. */
  work(station: number, entered: number, unit: number, due: Uint8Array | null = null): void {
    const place = entered % this.line.stations[station]!.places;
    let start = this.doneAt[station]![place]!;
    if (this.between !== null) {
      const ready = this.between.end(station, unit);
      if (ready > start) {
        this.watched.spend(station, place, "waiting", start, ready);
        start = ready;
      }
    }
    this.isUsed[station]![place] = true;
    const done = this.watched.work(station, place, unit, start, due);
    this.doneAt[station]![place] = done;
    this.between?.begin(station, unit, done, due);
  }

  /** No sooner than this the line may move on for the unit that leaves a station when it does, by how many have come there before the last. */
  leaveAt(station: number, entered: number): Micros {
    const { places, room } = this.line.stations[station]!;
    const leaves = entered + 1 - places;
    return leaves < 0 ? 0 : this.doneAt[station]![leaves % places]! - room;
  }

  /** The unit has left the line. */
  forget(unit: number): void {
    this.between?.forget(unit);
  }

  end(until: Micros): void {
    for (const [station, places] of this.doneAt.entries())
      for (const place of places.keys()) this.wait(station, place, until);
  }

  private wait(station: number, place: number, until: Micros): void {
    const state = this.isUsed[station]![place]! ? "blocked" : "starved";
    this.watched.spend(station, place, state, this.doneAt[station]![place]!, until);
  }
}
