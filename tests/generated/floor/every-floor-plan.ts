import type { FloorStation, Line } from "../../../src/line/line.js";
import type { TimeLimit } from "../../../src/solve/explain/binding-times.js";
import { floor, multiply, type Ratio, ratio } from "../../../src/time/ratio.js";
import type { FloorCase } from "../../tools/floor-random-line.js";
import { type AskedOf, everySchedule, type ScheduleWay } from "./every-schedule.js";

/** A station with its tasks: how many places it gets and how many people work together at each. */
export interface Staffed {
  readonly position: number;
  readonly tasks: readonly number[];
  readonly places: number;
  readonly crew: number;
  /** (Station time + handling x passes) / places, or where that is longer what its units of dwell ask for, in parts. */
  readonly cycle: number;
  /** How long each equipment is held for a unit, and the most units of it that can be at the station. */
  readonly held: ReadonlyMap<string, number>;
  readonly mostUnits: number;
  readonly asks: readonly AskedOf[];
}

export interface Cost {
  readonly people: number;
  readonly stations: number;
}

/** Parts of a microsecond in which all times of generated lines are whole: rare tasks, shares, and cycles of up to three places. */
export const PARTS = 360;
const inParts = (value: Ratio): number => Number(floor(multiply(value, ratio(PARTS))));

/**
 * Every way to put the tasks of a small line at positions along the floor and behind it, and every number of places of each
 * station: the meaning of the rules, written down plainly. Tasks are numbered along the arrows. For up to 5 tasks.
 */
export class EveryFloorPlan {
  readonly loads: readonly number[];
  readonly positions: number;
  private readonly modelLoads: readonly (readonly number[])[];
  private readonly schedules = new Map<string, readonly ScheduleWay[]>();
  private readonly isScheduled: boolean;
  /** Units stand for something else than hands, too. */
  private readonly mayStandLonger: boolean;

  /** @param left limits of time that do not count */
  constructor(
    private readonly given: FloorCase,
    private readonly left: readonly TimeLimit[] = [],
  ) {
    const { line } = given;
    this.loads = line.tasks.map((task) => inParts(task.load));
    this.modelLoads = line.models.map((_, model) =>
      line.tasks.map(({ times, visits }) => inParts(multiply(ratio(times[model] ?? 0), visits[model]!))),
    );
    const gaps = line.waits.reduce((sum, each) => sum + each.stations - 1, 0);
    this.positions = line.floor.length + line.tasks.length + gaps;
    const isCrew = [line, ...line.floor].some(({ maxCrew }) => (maxCrew ?? 1) > 1);
    const isSided = line.tasks.some(({ side }) => side !== null);
    this.mayStandLonger = isCrew || isSided || line.tasks.some((task) => task.machineTime > 0);
    this.isScheduled = this.mayStandLonger || line.tasks.some(({ equipment }) => equipment.length > 0);
  }

  /** The fewest people, then the fewest stations; null where no plan keeps the rules. */
  cheapest(): Cost | null {
    let best: Cost | null = null;
    this.visit((positionOf) => {
      for (const plan of this.staff(positionOf)) {
        const cost = costOf(plan);
        if (best === null || isBelow(cost, best)) best = cost;
      }
    });
    return best;
  }

  /** The shortest cycle of a plan that costs so much, in parts; endless where there is none. */
  leastCycle(cost: Cost): number {
    let least = Number.POSITIVE_INFINITY;
    this.visit((positionOf) => {
      for (const plan of this.staff(positionOf)) {
        const { people, stations } = costOf(plan);
        if (people !== cost.people || stations !== cost.stations) continue;
        const equipment = this.cycleOfEquipment(plan);
        least = Math.min(least, Math.max(equipment, ...plan.map(({ cycle }) => cycle)));
      }
    });
    return least;
  }

  /** Tells of every way to give tasks positions that keeps the arrows and the windows of each task. */
  private visit(tell: (positionOf: readonly number[]) => void): void {
    const { line } = this.given;
    const positionOf: number[] = [];
    const go = (task: number) => {
      if (task === line.tasks.length) return tell(positionOf);
      for (
        let at = Math.max(0, ...line.before[task]!.map((each) => positionOf[each]!));
        at < this.positions;
        at++
      ) {
        if (!mayStand(line, task, at)) continue;
        positionOf[task] = at;
        go(task + 1);
      }
      positionOf.length = task;
    };
    go(0);
  }

  /** Every plan with these positions that keeps all rules. */
  staff(positionOf: readonly number[]): Staffed[][] {
    const { line } = this.given;
    if (!keepsOrder(line, positionOf) || !keepsGroups(line, positionOf)) return [];
    if (line.tasks.some((_, task) => !mayStand(line, task, positionOf[task]!))) return [];
    const used = [...new Set(positionOf)].sort((one, two) => one - two);
    const choices = used.map((position) =>
      this.choices(
        position,
        [...line.tasks.keys()].filter((task) => positionOf[task] === position),
      ),
    );
    return combine(choices).filter((plan) => this.hasEquipment(plan) && hasPeople(line, plan));
  }

  /** How a station may be staffed. */
  choices(position: number, tasks: readonly number[]): Staffed[] {
    const { line, pace, strictLimit } = this.given;
    const station = line.floor[position] ?? null;
    const zones = new Set(tasks.flatMap((task) => line.tasks[task]!.zone ?? []));
    if (zones.size > 1) return [];
    const isAlone = tasks.filter((task) => this.loads[task]! > 0).length === 1;
    const people = Math.max(...tasks.map((task) => line.tasks[task]!.people));
    const handling = pace.handling * PARTS * passesOf(line, tasks);
    const found: Staffed[] = [];
    for (let places = 1; places <= (station?.maxPlaces ?? line.maxPlaces); places++) {
      const working = places * inParts(pace.lineCycle) - handling;
      const planTo = station?.planTo ?? pace.planTo;
      const limit = isAlone && !strictLimit ? working : (working * Number(planTo.num)) / Number(planTo.den);
      const holds = station?.holds ?? line.holds;
      const mostUnits = holds * places;
      if (this.isScheduled) {
        for (const way of this.schedulesOf(position, tasks)) {
          const { crew, busy, dwell, held, asks } = way;
          if (!this.keepsLimits(way, limit, holds, working)) continue;
          const cycle = (Math.max(busy, dwell / holds) + handling) / places;
          found.push({ position, tasks, places, crew, cycle, held, mostUnits, asks });
        }
        continue;
      }
      const sumOf = (loads: readonly number[]) => tasks.reduce((sum, task) => sum + loads[task]!, 0);
      const load = sumOf(this.loads);
      if (this.limits("hands") && load > limit) continue;
      if (!this.holdsModels(this.modelLoads.map(sumOf), working)) continue;
      const cycle = (load + handling) / places;
      const crew = [...Array(people).keys()];
      const asks =
        line.people.length === 0
          ? []
          : tasks
              .map((task) => ({ skills: line.tasks[task]!.skills, people: crew }))
              .filter(({ skills }) => skills.length > 0);
      found.push({ position, tasks, places, crew: people, cycle, held: new Map(), mostUnits, asks });
    }
    return found;
  }

  private keepsLimits(way: ScheduleWay, limit: number, holds: number, working: number): boolean {
    const { busy, dwell, models, stands } = way;
    const isLong = this.limits("dwell") && dwell > holds * working;
    if ((this.limits("hands") && busy > limit) || isLong) return false;
    return this.holdsModels(models, working) && this.holdsModels(stands, holds * working);
  }

  private schedulesOf(position: number, tasks: readonly number[]): readonly ScheduleWay[] {
    const { line } = this.given;
    const maxCrew = line.floor[position]?.maxCrew ?? line.maxCrew;
    const key = `${maxCrew}:${tasks.join()}`;
    const ways = this.schedules.get(key) ?? everySchedule(line, tasks, maxCrew, PARTS);
    this.schedules.set(key, ways);
    return ways;
  }

  private holdsModels(ends: readonly number[], working: number): boolean {
    const { modelOverload } = this.given.line;
    if (modelOverload === null) return true;
    const most = (working * Number(modelOverload.den + modelOverload.num)) / Number(modelOverload.den);
    return ends.every((end, model) => !this.limitsModel(model) || end <= most);
  }

  /** A unit stands as long as hands work on it, where nothing else makes it. */
  private limits(what: "hands" | "dwell" | "machines"): boolean {
    if (what === "dwell" && !this.mayStandLonger && this.left.includes("hands")) return false;
    return !this.left.includes(what);
  }

  private limitsModel(model: number): boolean {
    return !this.left.some((limit) => typeof limit !== "string" && limit.model === model);
  }

  /** At each station that works on it one, or as many as it is held for line cycles, and no more than units of the line can be there. */
  private hasEquipment(plan: readonly Staffed[]): boolean {
    const { line, pace } = this.given;
    return [...line.equipment].every(([name, count]) => {
      const cycle = this.limits("machines") ? inParts(pace.lineCycle) : Number.POSITIVE_INFINITY;
      const units = unitsAt(plan, name, cycle);
      return units !== null && units <= count;
    });
  }

  /** The shortest cycle at which the equipment that exists keeps up, however it is given to the stations; in parts. */
  private cycleOfEquipment(plan: readonly Staffed[]): number {
    const cycles = [...this.given.line.equipment].map(([name, count]) => {
      const candidates = plan.flatMap(({ held, mostUnits }) =>
        Array.from({ length: mostUnits }, (_, at) => (held.get(name) ?? 0) / (at + 1)),
      );
      const keepsUp = (cycle: number) => {
        const units = cycle > 0 ? unitsAt(plan, name, cycle) : null;
        return units !== null && units <= count;
      };
      return Math.min(...candidates.filter(keepsUp));
    });
    return Math.max(0, ...cycles.filter((cycle) => cycle < Number.POSITIVE_INFINITY));
  }
}

/** Units of an equipment that all stations need at a cycle; null where one of them has no room for so many. */
function unitsAt(plan: readonly Staffed[], name: string, cycle: number): number | null {
  let sum = 0;
  for (const { held, mostUnits } of plan) {
    const own = held.get(name);
    if (own === undefined) continue;
    const units = Math.max(1, Math.ceil(own / cycle));
    if (units > mostUnits) return null;
    sum += units;
  }
  return sum;
}

/** How often a good unit comes to a station with these tasks: as often as it meets the one that is done most, and once at the least. */
export function passesOf({ tasks: all, models }: Line, tasks: readonly number[]): number {
  const often = tasks.map((task) => {
    const visits = all[task]!.visits.map(({ num, den }) => Number(num) / Number(den));
    return models.length === 0
      ? visits[0]!
      : models.reduce((sum, { share }, at) => sum + (visits[at]! * Number(share.num)) / Number(share.den), 0);
  });
  return Math.max(1, ...often);
}

export const costOf = (plan: readonly Staffed[]): Cost => ({
  people: plan.reduce((sum, { places, crew }) => sum + places * crew, 0),
  stations: plan.length,
});

export const isBelow = (one: Cost, two: Cost): boolean =>
  one.people < two.people || (one.people === two.people && one.stations < two.stations);

function mayStand(line: Line, task: number, at: number): boolean {
  const { stations, notBefore, notAfter, zone, equipment, skills } = line.tasks[task]!;
  const here: FloorStation | undefined = line.floor[at];
  const says = (has: (station: FloorStation) => boolean) => line.floor.some(has);
  return (
    (stations === null || stations.includes(at)) &&
    at >= (notBefore ?? 0) &&
    at <= (notAfter ?? at) &&
    (zone === null || !says((each) => each.zone !== null) || here?.zone === zone) &&
    equipment.every(
      (name) => !says((each) => each.equipment.includes(name)) || here?.equipment.includes(name),
    ) &&
    skills.every(
      (skill) => !says((each) => each.skills?.includes(skill) === true) || here?.skills?.includes(skill),
    )
  );
}

function keepsOrder({ before, waits }: Line, positionOf: readonly number[]): boolean {
  return (
    before.every((earlier, task) => earlier.every((each) => positionOf[each]! <= positionOf[task]!)) &&
    waits.every(({ from, to, stations }) => positionOf[to]! - positionOf[from]! >= stations)
  );
}

function keepsGroups({ together, apart }: Line, positionOf: readonly number[]): boolean {
  const counted = (group: readonly number[]) => new Set(group.map((task) => positionOf[task])).size;
  return (
    together.every((group) => counted(group) <= 1) && apart.every((group) => counted(group) === group.length)
  );
}

/** Where the floor says nothing of skills, each person of a place is one of the people listed, or somebody else who has none. */
function hasPeople(line: Line, plan: readonly Staffed[]): boolean {
  if (line.people.length === 0 || line.floor.some(({ skills }) => skills !== null)) return true;
  const asked = plan.filter(({ asks }) => asks.length > 0);
  const places = asked.flatMap((station) => Array.from({ length: station.places }, () => station));
  type Person = Line["people"][number];
  const seat = (place: number, here: readonly (Person | null)[], free: readonly Person[]): boolean => {
    if (place === places.length) return true;
    const { crew, asks } = places[place]!;
    // The right side has the second number, also where nobody is at the left.
    const seats = Math.max(crew, ...asks.flatMap(({ people }) => people.map((person) => person + 1)));
    if (here.length === seats) {
      const has = (person: number, skills: readonly string[]) =>
        skills.every((skill) => here[person]?.skills.includes(skill));
      return (
        asks.every(({ skills, people }) => people.some((person) => has(person, skills))) &&
        seat(place + 1, [], free)
      );
    }
    const choices = [null, ...free];
    return choices.some((person) =>
      seat(
        place,
        [...here, person],
        free.filter((other) => other !== person),
      ),
    );
  };
  return seat(0, [], line.people);
}

function combine<T>(choices: readonly (readonly T[])[]): T[][] {
  return choices.reduce<T[][]>(
    (plans, own) => plans.flatMap((plan) => own.map((each) => [...plan, each])),
    [[]],
  );
}
