import type { Line } from "../../line/line.js";
import { deviationOf, deviationTogether } from "../../line/parts/keep-pace.js";
import { machineTime, walkingOf } from "../../plan/figures/kinds-of-time.js";
import { load, stationLimit, stationTime, workingTime } from "../../plan/figures/working-time.js";
import type { Plan } from "../../plan/plan.js";
import { postsOf } from "../../plan/post.js";
import { modelTime } from "../../plan/station-schedule.js";
import { normalScore } from "../../time/normal-share.js";
import type { Pace } from "../../time/pace.js";
import {
  add,
  compare,
  divide,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";
import { type ChartRowOf, isTaken, takersOf, whoDoes } from "../show/station-chart.js";

/** What a stretch of a load is: hands at the work, people on their way, a machine that runs by itself. */
export type KindOfLoad = "hands" | "walking" | "machine";

/** A task in a load, per good unit; `from` and `to` are shares of the working time of its station. */
export interface LoadBar {
  readonly task: number;
  readonly kind: KindOfLoad;
  readonly from: Ratio;
  readonly to: Ratio;
}

/** A task whose time varies, per good unit: what nine units in ten take no longer than, with times in microseconds. */
export interface VaryingTask {
  readonly task: number;
  readonly time: Ratio;
  readonly deviation: Ratio;
  readonly nineInTen: Ratio;
}

/** The load of a station: a lane for each person or side with work of its own, and one for machines that run by themselves. */
export interface LoadRow {
  readonly id: string;
  /** In order of work. */
  readonly tasks: readonly number[];
  readonly people: number;
  readonly lanes: readonly {
    readonly of: ChartRowOf | { readonly kind: "machines" };
    readonly bars: readonly LoadBar[];
    /** Nine units in ten take no longer than this share, where times of the lane vary; else null. */
    readonly nineInTen: Ratio | null;
    /** The same of each task alone whose time varies: from the end of its bars to where it ends then. */
    readonly late: readonly { readonly task: number; readonly from: Ratio; readonly to: Ratio }[];
  }[];
  /** In order of work. */
  readonly varying: readonly VaryingTask[];
  /** Station time and station limit per good unit, in microseconds. */
  readonly time: Ratio;
  readonly limit: Ratio;
  /** Station time / station limit. */
  readonly load: Ratio;
  /** The same and the working time as shares of the working time. */
  readonly timeShare: Ratio;
  readonly limitShare: Ratio;
  /** What each model takes of the working time, in the order of the line; empty on a line that builds one. */
  readonly models: readonly { readonly model: number; readonly share: Ratio }[];
}

/** The loads of the stations of a plan side by side, each against its own working time: 1 is the pace. */
export interface LoadChart {
  readonly line: Line;
  readonly plan: Plan;
  readonly rows: readonly LoadRow[];
  /** The longest share of a working time that the chart shows, at least 1. */
  readonly longest: Ratio;
}

/** What the stations of a plan are loaded with, task by task; the lanes of a station reach as far as its station time. */
export function loadChart(line: Line, pace: Pace, plan: Plan): LoadChart {
  const posts = postsOf(line, pace, plan);
  const score = normalScore(ratio(9, 10));
  const varyingAt = (tasks: readonly number[]): VaryingTask[] =>
    tasks.flatMap((task) => {
      const { load: time } = line.tasks[task]!;
      const deviation = deviationOf(line.tasks[task]!, null);
      return deviation.num === 0n
        ? []
        : [{ task, time, deviation, nineInTen: add(time, multiply(score, deviation)) }];
    });
  const rows = plan.stations.map((station, at): LoadRow => {
    const post = posts[at]!;
    const whole = workingTime(post, pace.lineCycle);
    const share = (time: Ratio) => (compare(whole, ZERO) <= 0 ? ZERO : divide(time, whole));
    const hands = takersOf(station).map((of) => {
      const own = station.tasks.filter((_, index) => isTaken(of, whoDoes(station, index)));
      const stretches = own.flatMap((task) => handBars(line, task));
      // Times count as normal and independent, as where a station is to keep the pace with some chance.
      const deviation = deviationTogether(
        own.map((task) => line.tasks[task]!),
        null,
      );
      const mean = stretches.reduce((sum, { time }) => add(sum, time), ZERO);
      const nineInTen = deviation.num === 0n ? null : share(add(mean, multiply(score, deviation)));
      const bars = stackUp(stretches, share);
      // Where it is alone, the mark of the lane is its own.
      const late = varyingAt(own.length === 1 ? [] : own).flatMap(({ task, time, nineInTen: latest }) => {
        const last = bars.findLast((bar) => bar.task === task);
        return last === undefined
          ? []
          : [{ task, from: last.to, to: add(last.to, share(subtract(latest, time))) }];
      });
      return { of, bars, nineInTen, late };
    });
    const machines = station.tasks.map((task) => {
      return { task, kind: "machine" as const, time: machineTime(line, { ...station, tasks: [task] }) };
    });
    const runs = stackUp(machines, share);
    return {
      id: station.id,
      tasks: station.tasks,
      people: station.places * station.crew,
      lanes: [
        ...hands,
        ...(runs.length === 0
          ? []
          : [{ of: { kind: "machines" as const }, bars: runs, nineInTen: null, late: [] }]),
      ],
      varying: varyingAt(station.tasks),
      time: stationTime(post),
      limit: stationLimit(post, pace.lineCycle),
      load: load(post, pace.lineCycle),
      timeShare: share(stationTime(post)),
      limitShare: share(stationLimit(post, pace.lineCycle)),
      models: line.models.map((_, model) => ({ model, share: share(modelTime(line, station, model)) })),
    };
  });
  const ends = rows.flatMap(({ lanes, models, timeShare }) => [
    timeShare,
    ...lanes.flatMap(({ bars, nineInTen }) => [...bars.map(({ to }) => to), nineInTen ?? ZERO]),
    ...models.map((each) => each.share),
  ]);
  return { line, plan, rows, longest: ends.reduce(larger, ONE) };
}

interface Stretch {
  readonly task: number;
  readonly kind: KindOfLoad;
  readonly time: Ratio;
}

/** A task is walked to before hands work on it. */
function handBars(line: Line, task: number): Stretch[] {
  const walking = walkingOf(line, line.tasks[task]!);
  return [
    { task, kind: "walking", time: walking },
    { task, kind: "hands", time: subtract(line.tasks[task]!.load, walking) },
  ];
}

/** Stretches one after another, those of no time left out. */
function stackUp(stretches: readonly Stretch[], share: (time: Ratio) => Ratio): LoadBar[] {
  const bars: LoadBar[] = [];
  let end = ZERO;
  for (const { task, kind, time } of stretches) {
    if (compare(time, ZERO) <= 0) continue;
    const from = end;
    end = add(end, time);
    bars.push({ task, kind, from: share(from), to: share(end) });
  }
  return bars;
}
