import type { Breakdowns } from "../line/line.js";
import type { Micros } from "../time/duration.js";
import type { BenchRun } from "./bench-line.js";
import type { RunBench } from "./bench-of-run.js";
import { ClockBreakdowns } from "./clock-breakdowns.js";
import type { Hours } from "./day-hours.js";
import { drawTime, type Stream } from "./draw-times.js";
import type { RunPart } from "./part-containers.js";
import { type RigStation, SharedRigs } from "./shared-rigs.js";
import type { WorkOfUnit } from "./station-work.js";
import { Supplies } from "./supplies.js";
import type { TestedLine } from "./tested-units.js";
import { SLICES, sliceEnd, type Window } from "./window.js";

/** A station as a simulation needs it. */
export interface RunStation {
  /** Where a unit may stand: as many at a workplace as it holds. */
  readonly places: number;
  /** Stations right before it at which nobody works: on a line that moves together a unit stands at each. */
  readonly emptyBefore: number;
  readonly work: WorkOfUnit;
  /** Equipment and people that its units share; null where each has its own. */
  readonly rigs: RigStation | null;
  readonly breakdowns: Breakdowns | null;
  /** Units that find room before it. */
  readonly buffer: number;
  /** Units that may be in a wait before it, or stand ready there after theirs, beside that room; on an unpaced line only. */
  readonly fixtures: number;
  /**
   * How long units of each model wait for a later station once this one is done with them, and the task whose work that follows; 0 for a model
   * without it, or without the task that waits. A unit waits where both are due, each done on one unit in so many.
   */
  readonly waits: readonly {
    readonly station: number;
    readonly after: number;
    readonly everies: readonly number[];
    readonly byModel: readonly Micros[];
  }[];
  /** How far work may run on while the line moves, in microseconds; on a moving line only. */
  readonly room: Micros;
}

export interface RunLine {
  readonly stations: readonly RunStation[];
  readonly benches: readonly RunBench[];
  readonly parts: readonly RunPart[];
  /** In their pauses waits and machines go on; null where there are none, or neither. */
  readonly hours: Hours | null;
  /** In microseconds; on a line that moves together that of its carriers, of which a good unit may take several. Null where nothing gives the pace. */
  readonly lineCycle: Micros | null;
  /** Null where failures of tests count on average. */
  readonly tested: TestedLine | null;
  /** Models of the units, again and again. */
  readonly sequence: readonly number[];
}

/** What a place does; waiting: its unit is there, and what it needs beside is not. */
export const STATES = ["busy", "waiting", "starved", "blocked", "down"] as const;
export type State = (typeof STATES)[number];

/** What happened in a window; times are in microseconds. */
export interface Run {
  /** Units that left the line, and the time from when each entered, together. */
  readonly left: number;
  readonly passThrough: number;
  /** Time of all units in the line together: on average, so many units x the length of the window. */
  readonly unitTime: number;
  /** Units that left and time of units in the line, by equal slices of the window. */
  readonly slices: readonly { readonly left: number; readonly unitTime: number }[];
  /** Units that left in each whole shift of the window, where shifts are counted. */
  readonly shifts?: readonly number[];
  /** Time that units still in the line at its end have been there. */
  readonly unfinished: number;
  /** Units scrapped, and the time that they were in the line. */
  readonly scrapped: number;
  readonly lost: number;
  /** Repairs begun, and the time of all who repair together. */
  readonly repairs: number;
  readonly repairTime: number;
  readonly stations: readonly {
    /** Of all places together. */
    readonly times: Readonly<Record<State, number>>;
    readonly units: number;
    /** Units that took longer than the line cycle leaves them. */
    readonly overruns: number;
  }[];
  /** What was in the room before each station, without the units that could not go there; left out where there is no room. */
  readonly rooms?: readonly RoomRun[];
  /** Left out where none is simulated. */
  readonly benches?: readonly BenchRun[];
  /** Time that units stood and waited for each part; left out where none is followed. */
  readonly partsWaited?: readonly number[];
}

/** Room before a station in a window; times in microseconds. */
export interface RoomRun {
  /** Of all units there together. */
  readonly unitTime: number;
  /** Units that came to the station along the line, those of them that were in the room, and how long. */
  readonly came: number;
  readonly units: number;
  readonly waited: number;
  /** Units there at a time. */
  readonly most: number;
}

/** Random numbers of a run. */
export interface RunStreams {
  readonly stations: readonly StationStreams[];
  readonly benches: readonly Stream[];
}

/** A run that lets go every so many visits of units at stations, so that somebody may end it meanwhile. */
export type RunInSteps = Generator<null, Run>;

/** Visits of units at stations between two such moments: some tens of milliseconds. */
export const STEP = 65_536;

/** Random numbers of a station: for its work and for its breakdowns. */
interface StationStreams {
  readonly work: Stream;
  readonly breakdowns: Stream;
  /** For what tests find; null where failures count on average. */
  readonly tests: Stream | null;
}

type Writable<T> = { -readonly [Key in keyof T]: T[Key] };

/** A line while it runs, with what is watched of it; the order of calls is that of time, but for what is told ahead. */
export class WatchedLine {
  private readonly times: Record<State, number>[];
  private readonly units: number[];
  private readonly overruns: number[];
  /** How long each place still works until it breaks down, where that counts its work. */
  private readonly untilDown: number[][];
  private readonly byClock: readonly (ClockBreakdowns | null)[];
  private readonly streams: readonly StationStreams[];
  private readonly supplies: Supplies | null;
  private readonly rigs: readonly (SharedRigs | null)[];
  private readonly entered = new Map<number, Micros>();
  private readonly rooms: (Writable<RoomRun> & { first: number })[];
  private left = 0;
  private passThrough = 0;
  private scrapped = 0;
  private lost = 0;
  private repairs = 0;
  private repairTime = 0;
  private countedUntil = 0;
  private readonly shifts: number[];
  private readonly slices: { left: number; unitTime: number }[];
  /** The slice of the window that is counted now. */
  private slice = 0;

  constructor(
    private readonly line: RunLine,
    { stations: streams, benches }: RunStreams,
    private readonly window: Window,
  ) {
    const { stations } = line;
    this.streams = streams;
    const { from, to, shift } = window;
    this.shifts = new Array<number>(shift === undefined ? 0 : Math.floor((to - from) / shift)).fill(0);
    this.slices = Array.from({ length: window.slices ?? SLICES }, () => ({ left: 0, unitTime: 0 }));
    this.supplies =
      line.benches.length + line.parts.length === 0
        ? null
        : new Supplies(line.benches, line.parts, benches, window, line.tested !== null);
    this.times = stations.map(() => ({ busy: 0, waiting: 0, starved: 0, blocked: 0, down: 0 }));
    this.rigs = stations.map(({ rigs, places }) => rigs && new SharedRigs(rigs, places / rigs.holds));
    this.rooms = stations.map(() => ({ unitTime: 0, came: 0, units: 0, waited: 0, most: 0, first: 0 }));
    this.units = stations.map(() => 0);
    this.overruns = stations.map(() => 0);
    this.untilDown = stations.map(({ places, breakdowns }, at) =>
      Array.from({ length: places }, () =>
        breakdowns === null || breakdowns.of === "clock"
          ? Number.POSITIVE_INFINITY
          : drawTime(breakdowns.every, streams[at]!.breakdowns),
      ),
    );
    this.byClock = stations.map(({ places, breakdowns }, at) =>
      breakdowns?.of === "clock" ? new ClockBreakdowns(breakdowns, places, streams[at]!.breakdowns) : null,
    );
  }

  /** A place does not work for a while, for a reason that counts as long as it is not down. */
  spend(station: number, place: number, state: State, from: Micros, to: Micros): void {
    const byClock = this.byClock[station]!;
    if (byClock === null) this.add(station, state, from, to);
    else
      byClock.pass(place, from, to, (isDown, start, end) =>
        this.add(station, isDown ? "down" : state, start, end),
      );
  }

  private add(station: number, state: State, from: Micros, to: Micros): void {
    const within = Math.min(to, this.window.to) - Math.max(from, this.window.from);
    if (within > 0) this.times[station]![state] += within;
  }

  /** Somebody repairs a unit off the line for a while. */
  repair(from: Micros, to: Micros): void {
    if (from >= this.window.from && from < this.window.to) this.repairs++;
    const within = Math.min(to, this.window.to) - Math.max(from, this.window.from);
    if (within > 0) this.repairTime += within;
  }

  /** A unit was in the room before a station for a while, or for no time at all: it goes on now, or the run ends. */
  waitBefore(station: number, since: Micros, now: Micros, goesOn = true): void {
    const room = this.rooms[station]!;
    if (goesOn && this.isWatched(now)) {
      room.came++;
      room.waited += now - since;
      if (now > since) room.units++;
    }
    if (since === now) return;
    const { from, to } = this.window;
    const within = Math.min(now, to) - Math.max(since, from);
    if (within > 0) room.unitTime += within;
    if (since < from && now > from) room.most = Math.max(room.most, ++room.first);
  }

  /** So many units are in the room before a station now that one more has come. */
  fill(station: number, units: number, now: Micros): void {
    if (now >= this.window.from && now < this.window.to)
      this.rooms[station]!.most = Math.max(this.rooms[station]!.most, units);
  }

  /** A unit is worked at a place once all that it needs is there; gives when it is done, breakdowns meanwhile included. */
  work(station: number, place: number, unit: number, comes: Micros, due: Uint8Array | null = null): Micros {
    let from = this.supplies === null ? comes : this.supplies.readyAt(station, unit, comes, due);
    const { work, places, breakdowns } = this.line.stations[station]!;
    const streams = this.streams[station]!;
    const untilDown = this.untilDown[station]!;
    const rigs = this.rigs[station]!;
    let takes: Micros;
    if (rigs === null) takes = work(unit, streams.work, due, from);
    else {
      const shared = rigs.work(unit, streams.work, due, from, place);
      takes = shared.takes - shared.waits;
      from += shared.waits;
    }
    if (from > comes) this.spend(station, place, "waiting", comes, from);
    // A unit sent back passes by stations that have nothing to do on it again.
    if ((due === null || takes > 0) && from >= this.window.from && from < this.window.to) {
      this.units[station]!++;
      const { lineCycle } = this.line;
      if (lineCycle !== null && takes > places * lineCycle) this.overruns[station]!++;
    }
    const byClock = this.byClock[station]!;
    if (byClock !== null)
      return byClock.work(place, from, takes, (isDown, start, end) =>
        this.add(station, isDown ? "down" : "busy", start, end),
      );
    let [now, left] = [from, takes];
    while (breakdowns !== null && left > untilDown[place]!) {
      this.add(station, "busy", now, now + untilDown[place]!);
      now += untilDown[place]!;
      left -= untilDown[place]!;
      const lasts = drawTime(breakdowns.lasts, streams.breakdowns);
      this.add(station, "down", now, now + lasts);
      now += lasts;
      untilDown[place] = drawTime(breakdowns.every, streams.breakdowns);
    }
    this.add(station, "busy", now, now + left);
    untilDown[place]! -= left;
    return now + left;
  }

  enter(unit: number, now: Micros): void {
    this.count(now);
    this.entered.set(unit, now);
  }

  /** Of no use any more. */
  scrap(unit: number, now: Micros): void {
    const since = this.takeOut(unit, now);
    if (!this.isWatched(now)) return;
    this.scrapped++;
    this.lost += since;
  }

  leave(unit: number, now: Micros): void {
    const since = this.takeOut(unit, now);
    if (!this.isWatched(now)) return;
    this.left++;
    this.slices[this.slice]!.left++;
    const { from, shift } = this.window;
    const own = shift === undefined ? 0 : Math.ceil((now - from) / shift) - 1;
    if (own < this.shifts.length) this.shifts[own]!++;
    this.passThrough += since;
  }

  end(): Run {
    const { to } = this.window;
    this.count(to);
    return {
      left: this.left,
      passThrough: this.passThrough,
      unitTime: this.slices.reduce((sum, { unitTime }) => sum + unitTime, 0),
      slices: this.slices,
      ...(this.window.shift === undefined ? {} : { shifts: this.shifts }),
      scrapped: this.scrapped,
      lost: this.lost,
      repairs: this.repairs,
      repairTime: this.repairTime,
      unfinished: [...this.entered.values()].reduce((sum, since) => sum + to - since, 0),
      stations: this.times.map((times, at) => ({
        times,
        units: this.units[at]!,
        overruns: this.overruns[at]!,
      })),
      ...(this.line.stations.some(({ buffer }) => buffer > 0) && {
        rooms: this.rooms.map(({ first: _, ...room }) => room),
      }),
      ...(this.line.benches.length > 0 && { benches: this.supplies!.benchRuns() }),
      ...(this.line.parts.length > 0 && { partsWaited: this.supplies!.partsWaited() }),
    };
  }

  private isWatched(now: Micros): boolean {
    return now > this.window.from && now <= this.window.to;
  }

  /** How long the unit has been in the line. */
  private takeOut(unit: number, now: Micros): Micros {
    this.count(now);
    const since = now - this.entered.get(unit)!;
    this.entered.delete(unit);
    this.supplies?.forget(unit);
    return since;
  }

  private count(now: Micros): void {
    const until = Math.min(now, this.window.to);
    let from = Math.max(this.countedUntil, this.window.from);
    while (from < until) {
      let ends = sliceEnd(this.window, this.slice);
      if (from >= ends) ends = sliceEnd(this.window, ++this.slice);
      const to = Math.min(until, ends);
      this.slices[this.slice]!.unitTime += (to - from) * this.entered.size;
      from = to;
    }
    this.countedUntil = now;
  }
}
