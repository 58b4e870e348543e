import type { Line } from "../../line/line.js";
import { add, divide, type Ratio, ratio } from "../../time/ratio.js";
import type {
  BinPackingBound,
  Bound,
  ChainBound,
  ChainStep,
  LargeTasksBound,
  SearchBound,
  ThirdsBound,
  WorkContentBound,
} from "../bounds/bound.js";
import { fromParts, loadsInParts } from "../parts.js";

/** A task of the line with what it takes, in microseconds; as every bound counts it, so what is no whole part is rounded down. */
export interface TimedTask {
  readonly task: number;
  readonly time: Ratio;
}

/** A certificate with its amounts in microseconds and the times of the tasks that it lists. */
type Timed<Certificate, Amounts extends keyof Certificate, Tasks extends keyof Certificate> = Omit<
  Certificate,
  Amounts | Tasks | "tasks" | "limit"
> & { readonly [amount in Amounts | "limit"]: Ratio } & {
  readonly [list in Tasks]: readonly TimedTask[];
};

export type WorkFacts = Timed<WorkContentBound, "workContent", never> & {
  /** Work content over the limit, in stations, before it is rounded up. */
  readonly share: Ratio;
  /** How many tasks are longer than the limit and counted as a full station. */
  readonly cut: number;
};
export type LargeTasksFacts = Timed<LargeTasksBound, never, "overHalf" | "exactlyHalf">;
export type ThirdsFacts = Timed<
  ThirdsBound,
  never,
  "overTwoThirds" | "exactlyTwoThirds" | "betweenThirds" | "exactlyOneThird"
> & {
  /** The sixths in stations, before they are rounded up. */
  readonly share: Ratio;
};
export type PackingFacts = Timed<
  BinPackingBound,
  "threshold" | "fillingWork" | "room",
  "alone" | "overHalf" | "filling"
> & {
  /** What the filling tasks need beyond the room beside the others. */
  readonly rest: Ratio;
};

/** How much must lie on one side of a task, by the work of some tasks there, or by the stations that all of them need. */
export type StepFacts =
  | {
      readonly by: "work";
      readonly task: TimedTask;
      readonly lies: Ratio;
      readonly tasks: readonly TimedTask[];
      /** The work of the tasks together, and what lies beyond every one of them; null where nothing does. */
      readonly work: Ratio;
      readonly beyond: Ratio | null;
      /** The station begun, beside which the task itself does not fit, so that it counts as full; null where it does. */
      readonly begun: Ratio | null;
      /** What lies there and the task itself, in stations, before it is rounded up. */
      readonly share: Ratio;
    }
  | {
      readonly by: "packing";
      readonly task: TimedTask;
      readonly lies: Ratio;
      readonly packing: PackingFacts;
    };

export type ChainFacts = Omit<Timed<ChainBound, never, never>, "before" | "after"> & {
  /** The task between its sides; null on a line without tasks. */
  readonly task: TimedTask | null;
  readonly before: readonly StepFacts[];
  readonly after: readonly StepFacts[];
};

/** The facts of a bound on the stations, for a sentence and for machines: times in microseconds, tasks by number. */
export type BoundFacts =
  | WorkFacts
  | LargeTasksFacts
  | ThirdsFacts
  | PackingFacts
  | ChainFacts
  | Omit<SearchBound, "tasks">;

/** @param limit what the stations of the bound hold, in parts of a microsecond */
export function boundFacts(line: Line, bound: Bound, limit: number): BoundFacts {
  const amounts = new Amounts(line);
  switch (bound.kind) {
    case "work-content":
      return amounts.work(bound, limit);
    case "large-tasks": {
      const { kind, stations, overHalf, exactlyHalf } = bound;
      const lists = { overHalf: amounts.tasks(overHalf), exactlyHalf: amounts.tasks(exactlyHalf) };
      return { kind, stations, limit: amounts.time(limit), ...lists };
    }
    case "thirds":
      return amounts.thirds(bound, limit);
    case "bin-packing":
      return amounts.packing(bound, limit);
    case "chain":
      return amounts.chain(bound);
    case "search":
      return { kind: "search", stations: bound.stations, nodes: bound.nodes };
  }
}

/** Whole parts of a microsecond as exact times. */
class Amounts {
  private readonly loads: readonly number[];

  constructor(private readonly line: Line) {
    this.loads = loadsInParts(line, "down");
  }

  time(parts: number): Ratio {
    return fromParts(this.line, parts);
  }

  task(task: number): TimedTask {
    return { task, time: this.time(this.loads[task]!) };
  }

  tasks(tasks: readonly number[]): TimedTask[] {
    return tasks.map((task) => this.task(task));
  }

  work({ kind, stations, workContent }: WorkContentBound, limit: number): WorkFacts {
    return {
      kind,
      stations,
      limit: this.time(limit),
      workContent: this.time(workContent),
      share: ratio(workContent, limit),
      cut: this.loads.filter((load) => load > limit).length,
    };
  }

  thirds(bound: ThirdsBound, limit: number): ThirdsFacts {
    const { kind, stations, sixths } = bound;
    return {
      kind,
      stations,
      limit: this.time(limit),
      overTwoThirds: this.tasks(bound.overTwoThirds),
      exactlyTwoThirds: this.tasks(bound.exactlyTwoThirds),
      betweenThirds: this.tasks(bound.betweenThirds),
      exactlyOneThird: this.tasks(bound.exactlyOneThird),
      sixths,
      share: ratio(sixths, 6),
    };
  }

  packing(bound: BinPackingBound, limit: number): PackingFacts {
    const { kind, stations, fillingWork, room } = bound;
    return {
      kind,
      stations,
      limit: this.time(limit),
      threshold: this.time(bound.threshold),
      alone: this.tasks(bound.alone),
      overHalf: this.tasks(bound.overHalf),
      filling: this.tasks(bound.filling),
      fillingWork: this.time(fillingWork),
      room: this.time(room),
      rest: this.time(fillingWork - room),
    };
  }

  chain(bound: ChainBound): ChainFacts {
    const { kind, stations, stationsBefore, stationsAfter, limit } = bound;
    const [task] = bound.tasks;
    const facts = (steps: readonly ChainStep[]) => steps.map((step) => this.step(step, limit));
    return {
      kind,
      stations,
      limit: this.time(limit),
      task: task === undefined ? null : this.task(task),
      stationsBefore,
      stationsAfter,
      before: facts(bound.before),
      after: facts(bound.after),
    };
  }

  private step(step: ChainStep, limit: number): StepFacts {
    const common = { task: this.task(step.task), lies: this.time(step.lies) };
    if (step.by === "packing")
      return { ...common, by: "packing", packing: this.packing(step.packing, limit) };
    const work = step.tasks.reduce((sum, task) => sum + this.loads[task]!, 0);
    const sum = work + step.beyond;
    return {
      ...common,
      by: "work",
      tasks: this.tasks(step.tasks),
      work: this.time(work),
      beyond: step.beyond === 0 ? null : this.time(step.beyond),
      begun: step.lies === sum ? null : this.time(sum % limit),
      share: divide(add(common.lies, common.task.time), this.time(limit)),
    };
  }
}
