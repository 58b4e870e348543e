import type { Line } from "../line/line.js";
import type { Station } from "../plan/plan.js";
import type { PostEquipment } from "../plan/post.js";
import { type Hold, orderStation, type StationOrder } from "../plan/station-order.js";
import type { Micros } from "../time/duration.js";
import type { Hours } from "./day-hours.js";
import type { Stream } from "./draw-times.js";
import { endOfMachine, type TimesOfUnit, timesOfUnits } from "./station-work.js";

/** A station whose workplaces share counted equipment: there is less of some than places. */
export interface RigStation {
  readonly order: StationOrder;
  readonly times: TimesOfUnit;
  readonly hours: Hours | null;
  /** Holds of what there is too little of, by their numbers, with how many units may hold it at a time. */
  readonly short: readonly { readonly hold: number; readonly units: number }[];
}

/** Null where each workplace has all the equipment that it needs. */
export function rigStation(
  line: Line,
  station: Station,
  equipment: readonly PostEquipment[],
  sequence: readonly number[],
  once: boolean,
  timesAsLong: number,
  hours: Hours | null,
): RigStation | null {
  const scarce = equipment.filter(({ units }) => units < station.places);
  if (scarce.length === 0) return null;
  const order = orderStation(line, station);
  return {
    order,
    hours,
    times: timesOfUnits(line, station, sequence, once, timesAsLong),
    short: order.holds.flatMap(({ name }, hold) => {
      const own = scarce.find((each) => each.name === name);
      return own === undefined ? [] : [{ hold, units: own.units }];
    }),
  };
}

interface Held {
  readonly from: Micros;
  readonly to: Micros;
}

/**
 * What the workplaces of a station share while it runs. A unit takes each equipment when all before it is done and one is free for as long as
 * it needs it; who came to the station first has it first. Breakdowns put off a unit as a whole, not what it holds.
 */
export class SharedRigs {
  /** When each single one is held, by name. */
  private readonly held = new Map<string, Held[][]>();
  private readonly hands: Micros[];
  private readonly machines: Micros[];
  private readonly starts: Micros[];
  private readonly handEnds: Micros[];
  private readonly ends: Micros[];

  constructor(private readonly station: RigStation) {
    const count = station.order.turns.length;
    const times = () => new Array<Micros>(count).fill(0);
    [this.hands, this.machines, this.starts, this.handEnds, this.ends] = [
      times(),
      times(),
      times(),
      times(),
      times(),
    ];
    for (const { hold, units } of station.short)
      this.held.set(
        station.order.holds[hold]!.name,
        Array.from({ length: units }, () => []),
      );
  }

  /** How long a unit stands at its place, and how much of that for want of equipment. */
  work(
    unit: number,
    stream: Stream,
    due: Uint8Array | null,
    from: Micros,
  ): { readonly takes: Micros; readonly waits: Micros } {
    const { times, short, order } = this.station;
    for (const all of this.held.values())
      for (const [at, own] of all.entries()) all[at] = own.filter(({ to }) => to > from);
    const isHandled = times.draw(unit, stream, due, this.hands, this.machines);
    const notBefore = order.holds.map(() => 0);
    const alone = this.schedule(from, notBefore);
    let takes = alone;
    for (let at = 0; at < short.length; ) {
      const hold = short[at]!.hold;
      const wanted = this.spanOf(order.holds[hold]!, from);
      const free = this.freeAt(order.holds[hold]!.name, wanted);
      if (free <= wanted.from) at++;
      else {
        // What follows shifts, so all is looked at again.
        notBefore[hold] = free - from;
        takes = this.schedule(from, notBefore);
        at = 0;
      }
    }
    for (const { hold } of short) this.take(order.holds[hold]!, from);
    const handling = isHandled ? times.handling : 0;
    return { takes: takes + handling, waits: takes - alone };
  }

  /** Every task at the earliest, holds no sooner than said; gives when all is done, counted from the start. */
  private schedule(from: Micros, notBefore: readonly Micros[]): Micros {
    const { order, hours } = this.station;
    const { starts, handEnds, ends } = this;
    let last = 0;
    for (const { at, hands, whole } of order.turns) {
      let start = 0;
      for (const each of hands) start = Math.max(start, handEnds[each]!);
      for (const each of whole) start = Math.max(start, ends[each]!);
      for (const [hold, { members }] of order.holds.entries())
        if (members.includes(at)) start = Math.max(start, notBefore[hold]!);
      starts[at] = start;
      handEnds[at] = start + this.hands[at]!;
      ends[at] = endOfMachine(hours, from, handEnds[at]!, this.machines[at]!);
      last = Math.max(last, ends[at]!);
    }
    return last;
  }

  /** From the first to the last of the tasks on it that are done on this unit; of no length where none is. */
  private spanOf({ members }: Hold, since: Micros): Held {
    const done = members.filter((at) => this.hands[at]! + this.machines[at]! > 0);
    if (done.length === 0) return { from: since, to: since };
    return {
      from: since + Math.min(...done.map((at) => this.starts[at]!)),
      to: since + Math.max(...done.map((at) => this.ends[at]!)),
    };
  }

  /** When one of that name may be free for a while that is wanted: its start where one is. */
  private freeAt(name: string, { from, to }: Held): Micros {
    let soonest = Number.POSITIVE_INFINITY;
    for (const own of this.held.get(name)!) {
      const inTheWay = own.filter((each) => each.from < to && each.to > from);
      if (inTheWay.length === 0) return from;
      soonest = Math.min(soonest, ...inTheWay.map((each) => each.to));
    }
    return soonest;
  }

  private take(hold: Hold, since: Micros): void {
    const span = this.spanOf(hold, since);
    if (span.to === span.from) return;
    const free = this.held
      .get(hold.name)!
      .find((own) => own.every((each) => each.from >= span.to || each.to <= span.from));
    free?.push(span);
  }
}
