import type { Line, Task } from "../line/line.js";
import type { Plan } from "../plan/plan.js";
import { type BalanceOptions, balance } from "../solve/balance.js";
import { balanceFloor } from "../solve/floor/balance-floor.js";
import { hasFloorRules } from "../solve/floor/station-rules.js";
import { findImpossibleTasks } from "../solve/station-problem.js";
import type { Pace } from "../time/pace.js";
import { add, divide, multiply, type Ratio, ratio } from "../time/ratio.js";
import type { BenchJob } from "./bench-job.js";
import { carriedShare } from "./bench-job.js";
import { withoutTasks } from "./without-tasks.js";

/** What stays on the line, balanced. */
export interface RestOfLine {
  /** The tasks that stay, numbered anew. */
  readonly line: Line;
  /** For each task that stays, its number in the whole line. */
  readonly numbers: readonly number[];
  /** Verified, with the numbers of `line`; null where there is none. */
  readonly plan: Plan | null;
  readonly outcome: "proved" | "found" | "infeasible" | "stopped";
  /** No plan has fewer people or fewer stations; null where there is no plan. */
  readonly least: { readonly people: number; readonly stations: number } | null;
}

/** Balances what stays on the line when benches take work off it; equal rests are balanced once. */
export class RestBalancer {
  readonly #known = new Map<string, RestOfLine>();

  constructor(
    private readonly line: Line,
    private readonly pace: Pace,
    private readonly options: BalanceOptions,
  ) {}

  /** How many different rests were balanced. */
  get count(): number {
    return this.#known.size;
  }

  isKnown(jobs: readonly BenchJob[]): boolean {
    return this.#known.has(keyOf(jobs));
  }

  /** The line without what these benches build, each task where something joins with its take-over. */
  async of(jobs: readonly BenchJob[], nodes: number | null): Promise<RestOfLine> {
    const key = keyOf(jobs);
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    const taken = new Set(jobs.flatMap(({ tasks }) => tasks));
    const whole = { ...this.line, tasks: withTakeOver(this.line, jobs) };
    const rest = withoutTasks(whole, [...taken]);
    const numbers = [...this.line.tasks.keys()].filter((task) => !taken.has(task));
    const options = { ...this.options, nodes, method: "best", explain: false } as const;
    const found = { line: rest, numbers, ...(await balanceLine(rest, this.pace, options)) };
    this.#known.set(key, found);
    return found;
  }
}

function keyOf(jobs: readonly BenchJob[]): string {
  const tasks = jobs.flatMap((job) => job.tasks).sort((one, two) => one - two);
  const added = jobs.flatMap((job) =>
    job.terms.takeOver === 0
      ? []
      : [`${job.joinsAt.join(" ")}+${job.terms.takeOver}x${job.terms.share.num}/${job.terms.share.den}`],
  );
  return [tasks.join(" "), ...added.sort()].join("|");
}

/** The tasks of the line with the time to take parts over, where they join; on the units that carry them. */
export function withTakeOver(line: Line, jobs: readonly BenchJob[]): Task[] {
  return line.tasks.map((task, at) => {
    const joining = jobs.filter(({ joinsAt, terms }) => terms.takeOver > 0 && joinsAt.includes(at));
    return joining.reduce((sum, job) => addTakeOver(sum, job.terms.takeOver, carriedShare(line, job)), task);
  });
}

function addTakeOver(task: Task, takeOver: number, share: Ratio): Task {
  const often = multiply(divide(task.visits, ratio(task.every)), share);
  return {
    ...task,
    times: task.times.map((time) => (time === null ? null : time + takeOver)),
    load: add(task.load, multiply(ratio(takeOver), often)),
  };
}

/** A balance of a line by the search that its rules need. */
export async function balanceLine(
  line: Line,
  pace: Pace,
  options: BalanceOptions,
): Promise<Pick<RestOfLine, "plan" | "outcome" | "least">> {
  if (hasFloorRules(line)) {
    const { plan, outcome, least } = await balanceFloor(line, pace, options);
    return { plan, outcome, least: plan === null ? null : least };
  }
  if (findImpossibleTasks(line, pace, options.strictLimit).length > 0) {
    return { plan: null, outcome: "infeasible", least: null };
  }
  const { plan, proved, bound } = await balance(line, pace, options);
  const least = { people: bound.stations, stations: bound.stations };
  return { plan, outcome: proved ? "proved" : "found", least };
}
