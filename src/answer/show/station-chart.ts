import { benchesOfPlan, jobOf, lineBeside } from "../../benches/bench-of-plan.js";
import type { Line } from "../../line/line.js";
import { workingTime } from "../../plan/figures/working-time.js";
import type { Plan, Station } from "../../plan/plan.js";
import { postOf } from "../../plan/post.js";
import { scheduleUnits, type UnitOfMix } from "../../plan/station-schedule.js";
import type { Pace } from "../../time/pace.js";
import { add, compare, divide, larger, multiply, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import type { Micros } from "../../time/units.js";

/** A task of a station as one unit gets it; times in microseconds from the arrival of the unit. */
export interface ChartTask {
  readonly task: number;
  /** The side, the numbers of the persons, or null where everybody of the place works together. */
  readonly who: string | readonly number[] | null;
  readonly start: Ratio;
  readonly handEnd: Ratio;
  readonly end: Ratio;
}

/** What a row of the chart stands for. */
export type ChartRowOf =
  | { readonly kind: "crew"; readonly people: number }
  | { readonly kind: "person"; readonly number: number }
  | { readonly kind: "side"; readonly side: "left" | "right" }
  /** A machine that the line file gives no name, by its task. */
  | { readonly kind: "machine"; readonly task: number }
  | { readonly kind: "equipment"; readonly name: string }
  /** Where a unit stands: the first one is that of the chart. */
  | { readonly kind: "unit"; readonly number: number };

/** A stretch of a row; `from` and `to` are shares of the whole chart. */
export interface ChartBar {
  /** Index in the tasks of the chart; null where no task is done. */
  readonly at: number | null;
  /** Hands at work, a machine that runs by itself, or a unit that keeps equipment or stands there. */
  readonly by: "hands" | "machine" | "unit";
  readonly from: Ratio;
  readonly to: Ratio;
}

/** One unit at one place of a station over time. */
export interface StationChart {
  readonly line: Line;
  readonly station: Station;
  /** The model of the unit; null on a line that builds one. */
  readonly model: number | null;
  /** Share of all units that are alike. */
  readonly share: Ratio;
  /** Numbers n of work of every n-th unit that the unit has, and that it does not have. */
  readonly due: readonly number[];
  readonly notDue: readonly number[];
  readonly places: number;
  readonly holds: number;
  /** A unit comes to the place every so often: places x line cycle, at a bench x its hours / share. */
  readonly interval: Ratio;
  readonly workingTime: Ratio;
  /** How long the unit stands, and how long units may stand on average. */
  readonly dwell: Ratio;
  readonly standingLimit: Ratio;
  /** What handing the parts of a unit over to the line takes after that; null at a station, and where no more than the next station of a bench gets them. */
  readonly handOver: Micros | null;
  /** How long the chart is. */
  readonly length: Ratio;
  readonly tasks: readonly ChartTask[];
  readonly equipment: readonly { readonly name: string; readonly start: Ratio; readonly end: Ratio }[];
  readonly rows: readonly { readonly of: ChartRowOf; readonly bars: readonly ChartBar[] }[];
}

/**
 * The chart of a station of a plan for one unit: of those with the same work, the kind of which most come.
 *
 * @param model of the units asked for; null for any
 */
export function stationChart(
  line: Line,
  pace: Pace,
  plan: Plan,
  station: Station,
  model: number | null,
): StationChart {
  const isOnLine = plan.stations.includes(station);
  const worked = isOnLine ? lineBeside(line, plan) : line;
  const unit = commonest(
    scheduleUnits(worked, station).filter((each) => model === null || each.model === model),
  );
  const { starts, handEnds, ends, holds } = unit.schedule;
  // A bench has hours, a share of the units and room of its own.
  const bench = isOnLine
    ? undefined
    : benchesOfPlan(line, pace, plan).find(({ bench: { id } }) => id === station.id);
  const post = bench?.posts[0] ?? postOf(worked, pace, station);
  const working = divide(bench?.workingTime ?? workingTime(post, pace.lineCycle), post.share);
  const dwell = ends.reduce(larger, ZERO);
  const comes = divide(multiply(post.hours, pace.lineCycle), post.share);
  const interval = multiply(ratio(station.places), comes);
  const units =
    post.holds === 1 || compare(interval, ZERO) <= 0 ? 1 : standingUnits(dwell, interval, post.holds);
  const behind = multiply(ratio(units - 1), interval);
  const length = larger(larger(add(behind, dwell), interval), ratio(1));
  const everies = [...new Set(station.tasks.map((task) => line.tasks[task]!.every))].filter(
    (each) => each > 1,
  );
  const tasks = station.tasks.map((task, at): ChartTask => {
    return { task, who: whoDoes(station, at), start: starts[at]!, handEnd: handEnds[at]!, end: ends[at]! };
  });
  const bar = (at: number | null, by: ChartBar["by"], from: Ratio, to: Ratio): ChartBar => {
    return { at, by, from: divide(from, length), to: divide(to, length) };
  };
  const hands = (isIts: (task: ChartTask) => boolean) =>
    tasks.flatMap((task, at) => (isIts(task) ? [bar(at, "hands", task.start, task.handEnd)] : []));
  const runs = (isIts: (task: ChartTask) => boolean) =>
    tasks.flatMap((task, at) => (isIts(task) ? [bar(at, "machine", task.handEnd, task.end)] : []));
  const names = [...new Set(holds.map(({ name }) => name))];
  const nameless = tasks.filter(
    ({ task, handEnd, end }) => line.tasks[task]!.equipment.length === 0 && compare(end, handEnd) > 0,
  );
  return {
    line,
    station,
    model: line.models.length === 0 ? null : unit.model,
    share: unit.share,
    due: everies.filter((every) => unit.kind.isDue(every)),
    notDue: everies.filter((every) => !unit.kind.isDue(every)),
    places: station.places,
    holds: post.holds,
    interval,
    workingTime: working,
    dwell,
    standingLimit: multiply(ratio(post.holds), working),
    handOver: isOnLine ? null : handedOverAt(line, plan, station),
    length,
    tasks,
    equipment: holds.map(({ name, start, end }) => ({ name, start, end })),
    rows: [
      ...takersOf(station).map((of) => ({ of, bars: hands(({ who }) => isTaken(of, who)) })),
      ...names.map((name) => {
        const isOn = ({ task }: ChartTask) => line.tasks[task]!.equipment.includes(name);
        const held = holds
          .filter((hold) => hold.name === name)
          .map(({ start, end }) => bar(null, "unit", start, end));
        return { of: { kind: "equipment", name } as const, bars: [...held, ...hands(isOn), ...runs(isOn)] };
      }),
      ...nameless.map((task) => ({
        of: { kind: "machine", task: task.task } as const,
        bars: runs((each) => each === task),
      })),
      ...(units === 1 ? [] : Array.from({ length: units }, (_, at) => at)).map((at) => {
        const since = multiply(ratio(at), interval);
        return {
          of: { kind: "unit", number: at + 1 } as const,
          bars: [bar(null, "unit", since, add(since, dwell))],
        };
      }),
    ],
  };
}

/** The units with the largest share, of equal ones the first. */
function commonest(units: readonly UnitOfMix[]): UnitOfMix {
  return units.reduce((one, two) => (compare(two.share, one.share) > 0 ? two : one));
}

/** So many units stand at a place at a time where one comes after each interval; no more than it has room for. */
function standingUnits(dwell: Ratio, interval: Ratio, holds: number): number {
  let units = 1;
  while (units < holds && compare(dwell, multiply(ratio(units), interval)) > 0) units++;
  return units;
}

/** Who does the task at an index of the station. */
export function whoDoes({ sides, persons }: Station, at: number): ChartTask["who"] {
  return persons?.[at] ?? sides?.[at] ?? null;
}

/** Who does hand work at a place: all of its crew together, or each person or side with tasks of its own. */
export function takersOf({ crew, sides, persons }: Station): ChartRowOf[] {
  if (persons !== null) return Array.from({ length: crew }, (_, at) => ({ kind: "person", number: at + 1 }));
  if (sides === null) return [{ kind: "crew", people: crew }];
  return (["left", "right"] as const)
    .filter((side) => sides.some((each) => each === side || each === "both"))
    .map((side) => ({ kind: "side", side }));
}

/** Whether a task that `who` does is work of that row. */
export function isTaken(of: ChartRowOf, who: ChartTask["who"]): boolean {
  if (of.kind === "person") return typeof who === "object" && who !== null && who.includes(of.number);
  return of.kind === "crew" || (of.kind === "side" && (who === of.side || who === "both"));
}

/** Only the last station of a bench hands over. */
function handedOverAt(line: Line, { benches = [] }: Plan, bench: Station): Micros | null {
  const { tasks, terms } = jobOf(line, benches, bench);
  const last = benches.findLast((entry) => entry.tasks.some((task) => tasks.includes(task)));
  return last === bench && terms.handOver > 0 ? terms.handOver : null;
}
