import { ceilingDivision } from "../bounds/whole-numbers.js";
import type { Aim, Cost } from "../cost.js";
import type { TaskRules } from "../station/task-rules.js";
import { ExtraPeople } from "./extra-people.js";
import type { Instance } from "./instance.js";

/**
 * What plans cheaper than a ceiling leave to what follows a partial plan, where stations are asked more than time: people, and stations
 * by people and zones.
 */
export class Headroom {
  readonly goal: Goal;
  /** The most room that a load of each zone may leave after the partial plan looked at last; null where zones change nothing. */
  roomByZone: Map<string, number> | null = null;
  /** People beyond one a station that the tasks left need. */
  extra = 0;
  private readonly extraPeople: ExtraPeople;
  private readonly zoneOf: readonly (string | null)[];
  private readonly zones: readonly string[];
  private readonly allZoned: boolean;
  /** Person-time that one person takes at the most, in the units of `rules.personTime`. */
  private readonly perPerson: number;

  constructor(
    private readonly instance: Instance,
    private readonly rules: TaskRules,
    latest: Int32Array,
    ceiling: Cost,
    aim: Aim,
  ) {
    this.extraPeople = new ExtraPeople(instance, rules, latest);
    const nothing = new Int32Array(instance.words);
    this.goal = new Goal(ceiling, aim, this.extraPeople.after(nothing, 0, 0), instance.size);
    this.zoneOf = Array.from(rules.blockOf, (block) => rules.work.zones[block]!);
    this.zones = [...new Set(this.zoneOf.filter((zone) => zone !== null))];
    this.allZoned = this.zones.length > 1 && !this.zoneOf.includes(null);
    this.perPerson = rules.perPerson;
  }

  /** People beyond one a station in every plan. */
  get leastExtra(): number {
    return this.extraPeople.after(new Int32Array(this.instance.words), 0, 0);
  }

  /**
   * The most stations that may follow a partial plan; below 1 where it is out of reach.
   *
   * @param left the tasks that are not placed, `tasksLeft` of them
   * @param position of its last station, counted from 1
   */
  stationsLeft(
    sets: Int32Array,
    offset: number,
    left: Int32Array,
    tasksLeft: number,
    used: { readonly people: number; readonly stations: number; readonly position: number },
  ): number {
    const { goal, rules } = this;
    this.extra = this.extraPeople.after(
      sets,
      offset,
      rules.work.isPositional ? used.position : used.stations,
    );
    const stations = goal.stationsLeft(used.people, used.stations, this.extra);
    if (tasksLeft === 0 || stations < 1) return stations;
    let personTime = 0;
    for (let at = 0; at < tasksLeft; at++) personTime += rules.personTime[left[at]!]!;
    if (personTime > goal.peopleLeft(used.people, used.stations) * this.perPerson) return 0;
    return this.fitsZones(left, tasksLeft, stations) ? stations : 0;
  }

  /** Stations never hold tasks of two zones, so each zone fills stations of its own. */
  private fitsZones(left: Int32Array, tasksLeft: number, stations: number): boolean {
    this.roomByZone = null;
    if (this.zones.length < 2) return true;
    const { instance, zones, zoneOf } = this;
    const work = new Map(zones.map((zone) => [zone, 0]));
    for (let at = 0; at < tasksLeft; at++) {
      const zone = zoneOf[left[at]!];
      if (zone != null) work.set(zone, work.get(zone)! + instance.times[left[at]!]!);
    }
    let spare = stations;
    for (const each of work.values()) spare -= ceilingDivision(each, instance.limit);
    if (spare < 0) return false;
    if (!this.allZoned || !this.rules.onePlace) return true;
    this.roomByZone = new Map(
      zones.map((zone) => {
        const own = work.get(zone)!;
        return [zone, (ceilingDivision(own, instance.limit) + spare) * instance.limit - own];
      }),
    );
    return true;
  }
}

/** What a plan that is cheaper than a ceiling may still take. */
export class Goal {
  /** The most stations that such a plan has. */
  readonly stations: number;

  /**
   * @param extraPeople people that every plan has beyond one a station
   * @param most stations that no plan exceeds
   */
  constructor(
    private readonly ceiling: Cost,
    private readonly aim: Aim,
    extraPeople: number,
    most: number,
  ) {
    this.stations = Math.min(most, this.stationsLeft(0, 0, extraPeople));
  }

  /**
   * The most stations that may follow a partial plan of so many people and stations, one person at each at least and `extra` people
   * beyond that; below 1 where none may.
   */
  stationsLeft(people: number, stations: number, extra: number): number {
    const { ceiling } = this;
    const fewer = { people: ceiling.people - 1 - people - extra, stations: ceiling.stations - 1 - stations };
    // Fewer of what comes first, or as much of it and fewer of what comes next.
    const [first, second] = this.aim.map((name) => fewer[name]) as [number, number];
    return Math.max(first, Math.min(first + 1, second));
  }

  /** The most people that may follow; endless where stations come first. */
  peopleLeft(people: number, stations: number): number {
    const { ceiling } = this;
    if (this.aim[0] !== "people") return Number.POSITIVE_INFINITY;
    return ceiling.people - people - (ceiling.stations - 1 > stations ? 0 : 1);
  }
}
