import type { Line } from "../line/line.js";
import { listedPart } from "../line/parts/part-list.js";
import { containersToRun, partsUsed } from "../plan/figures/parts.js";
import type { Plan } from "../plan/plan.js";
import type { Micros } from "../time/duration.js";
import { add, divide, type Ratio, ratio, toNumber } from "../time/ratio.js";
import type { Window } from "./window.js";

/** A part that comes to a station in containers. */
export interface RunPart {
  /** Number of the station. */
  readonly station: number;
  readonly id: string;
  readonly pack: number;
  /** At the station beside the one in use, full ones at the start. */
  readonly containers: number;
  /** From an empty container to a full one; or between visits of the handler, who takes an empty one along and brings it back at the next. */
  readonly lead: Micros;
  readonly isAtVisits: boolean;
  /** Pieces for a unit at the station. */
  readonly pieces: (unit: number, due: Uint8Array | null) => number;
}

/** A part at a station of which one container more stands there than `parts` says. */
export interface OneMore {
  readonly station: string;
  readonly part: string;
}

/**
 * The parts whose packs and whose time to a full container, or the visits of the handler, are known. As many containers as `parts` says are
 * full beside the one in use: what is used until an empty one is back is there then. A stated time is all of it, the way of the handler included. Where none is stated, as many as two of his intervals take.
 *
 * @param cycle of the line, in microseconds
 * @param once each unit is worked once, as failures are drawn one by one
 */
export function layOutParts(
  line: Line,
  { stations }: Plan,
  cycle: Ratio,
  sequence: readonly number[],
  once: boolean,
  oneMore: OneMore | null,
): RunPart[] {
  const { every } = line.delivery;
  return stations.flatMap(({ id: stationId, tasks }, station) =>
    partsUsed(line, tasks, null).flatMap(({ id, perUnit }): RunPart[] => {
      const part = listedPart(line, id);
      const { pack, replenish } = part;
      const lead = replenish ?? every;
      // The cycle is rounded to a microsecond: no container more for what that makes it too short.
      const full = containersToRun(divide(perUnit, add(cycle, ratio(1, 2))), part, line.delivery);
      if (pack === null || lead === null || full === null) return [];
      const pieces = piecesOf(line, tasks, id, sequence, once);
      const more = oneMore?.station === stationId && oneMore.part === id ? 1 : 0;
      const containers = full + more;
      return [{ station, id, pack, containers, lead, isAtVisits: replenish === null, pieces }];
    }),
  );
}

function piecesOf(
  line: Line,
  tasks: readonly number[],
  id: string,
  sequence: readonly number[],
  once: boolean,
): RunPart["pieces"] {
  const uses = tasks.flatMap((task) => {
    const { parts, every, visits } = line.tasks[task]!;
    const own = parts.find((part) => part.id === id);
    if (own === undefined) return [];
    const byModel = own.byModel.map(
      (each, model) => Number(each) * (once ? 1 : every * toNumber(visits[model] ?? visits[0]!, 12)),
    );
    return [{ task, every, byModel }];
  });
  return (unit, due) => {
    const model = sequence[unit % sequence.length]!;
    let pieces = 0;
    for (const { task, every, byModel } of uses)
      if ((due === null || due[task] === 1) && unit % every === every - 1) pieces += byModel[model]!;
    return pieces;
  };
}

/** The containers of a part at its station while the line runs; asked in order of time. */
export class PartContainers {
  /** Pieces in the one that is in use, and full ones beside it. */
  private left: number;
  private full: number;
  /** When the one in use is there: later than now where a unit at another place waits for it already. */
  private thereAt: Micros = 0;
  /** When those that are empty come back, in order. */
  private readonly back: Micros[] = [];
  /** Time that units waited within the window. */
  waited = 0;

  constructor(
    private readonly part: RunPart,
    private readonly window: Window,
  ) {
    this.left = part.pack;
    this.full = part.containers;
  }

  /** Takes the pieces of a unit; gives when it has all of them. */
  take(now: Micros, pieces: number): Micros {
    let [has, needed] = [now, pieces];
    while (needed > 0) {
      if (this.left === 0) this.thereAt = this.open(has);
      has = Math.max(has, this.thereAt);
      const taken = Math.min(needed, this.left);
      needed -= taken;
      this.left -= taken;
      if (this.left === 0) this.back.push(this.comesBack(has));
    }
    this.waited += Math.max(0, Math.min(has, this.window.to) - Math.max(now, this.window.from));
    return has;
  }

  private open(now: Micros): Micros {
    while (this.back.length > 0 && this.back[0]! <= now) {
      this.back.shift();
      this.full++;
    }
    this.left = this.part.pack;
    if (this.full > 0) {
      this.full--;
      return now;
    }
    return this.back.shift()!;
  }

  /** The handler comes from the start on. */
  private comesBack(now: Micros): Micros {
    const { lead, isAtVisits } = this.part;
    return isAtVisits ? Math.ceil((now + lead) / lead) * lead : now + lead;
  }
}
