import type { Line, Task } from "../line/line.js";
import { visitsPerGoodUnit } from "../line/visits.js";
import type { Plan } from "../plan/plan.js";
import { type BalanceOptions, balance } from "../solve/balance.js";
import { balanceFloor } from "../solve/floor/balance-floor.js";
import { hasFloorRules } from "../solve/floor/station-rules.js";
import { findImpossibleTasks } from "../solve/station-problem.js";
import type { Pace } from "../time/pace.js";
import { add, multiply, ratio } from "../time/ratio.js";
import type { BenchJob } from "./bench-job.js";
import { carriedShare } from "./bench-job.js";
import type { BenchFigures } from "./measure-bench.js";
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
  /** Why there is no plan, as far as that can be told in a few words; empty where there is one. */
  readonly obstacles: readonly string[];
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

  isKnown(benches: readonly BenchFigures[]): boolean {
    return this.#known.has(this.keyOf(benches));
  }

  /**
   * The line without what these benches build, each task where something joins with its take-over, and without the counted
   * equipment that the benches keep.
   */
  async of(benches: readonly BenchFigures[], nodes: number | null): Promise<RestOfLine> {
    const key = this.keyOf(benches);
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    const taken = new Set(benches.flatMap(({ tasks }) => tasks));
    const equipment = equipmentLeft(this.line, benches);
    const whole = { ...this.line, equipment, tasks: withTakeOver(this.line, benches) };
    const rest = withoutTasks(whole, [...taken]);
    const numbers = [...this.line.tasks.keys()].filter((task) => !taken.has(task));
    const options = { ...this.options, nodes, method: "best", explain: false } as const;
    const short = shortOf(rest);
    const balanced =
      short.length > 0
        ? { ...NO_PLAN, obstacles: [`no ${short.join(" and no ")} is left for the line`] }
        : await balanceLine(rest, this.pace, options);
    const found = { line: rest, numbers, ...balanced };
    this.#known.set(key, found);
    return found;
  }

  private keyOf(benches: readonly BenchFigures[]): string {
    const tasks = benches.flatMap((bench) => bench.tasks).sort((one, two) => one - two);
    const added = benches.flatMap(({ joinsAt, terms, share }) =>
      terms.takeOver === 0 ? [] : [`${joinsAt.join(" ")}+${terms.takeOver}x${share.num}/${share.den}`],
    );
    const left = [...equipmentLeft(this.line, benches).values()];
    return [tasks.join(" "), left.join(" "), ...added.sort()].join("|");
  }
}

const NO_PLAN = { plan: null, outcome: "infeasible", least: null, obstacles: [] } as const;

/** Each place of a bench whose tasks need it keeps one. */
function equipmentLeft(line: Line, benches: readonly BenchFigures[]): Map<string, number> {
  const left = [...line.equipment].map(([name, count]) => {
    const used = benches.flatMap(({ stations, places }) =>
      stations
        .filter(({ tasks }) => tasks.some((task) => line.tasks[task]!.equipment.includes(name)))
        .map(() => places),
    );
    return [name, used.reduce((rest, places) => rest - places, count)] as const;
  });
  return new Map(left);
}

/** Equipment of which less than none is left, or none for a task that stays. */
function shortOf({ equipment, tasks }: Line): string[] {
  return [...equipment]
    .filter(([name, left]) => left < 0 || (left === 0 && tasks.some((task) => task.equipment.includes(name))))
    .map(([name]) => name);
}

/** The tasks of the line with the time to take parts over, where they join; on the units that carry them. */
export function withTakeOver(line: Line, jobs: readonly BenchJob[]): Task[] {
  return line.tasks.map((task, at) => {
    const joining = jobs.filter(({ joinsAt, terms }) => terms.takeOver > 0 && joinsAt.includes(at));
    return joining.reduce((sum, job) => addTakeOver(line, sum, job), task);
  });
}

function addTakeOver(line: Line, task: Task, job: BenchJob): Task {
  const { takeOver } = job.terms;
  const often = multiply(visitsPerGoodUnit(line, task), carriedShare(line, job));
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
): Promise<Pick<RestOfLine, "plan" | "outcome" | "least" | "obstacles">> {
  if (hasFloorRules(line)) {
    const { plan, outcome, least } = await balanceFloor(line, pace, options);
    return { plan, outcome, least: plan === null ? null : least, obstacles: [] };
  }
  const tooLong = findImpossibleTasks(line, pace, options.strictLimit);
  if (tooLong.length > 0) {
    const names = tooLong.map((task) => line.tasks[task]!.id).join(", ");
    const words = `${names} ${tooLong.length === 1 ? "is" : "are"} too long for a station`;
    return { ...NO_PLAN, obstacles: [words] };
  }
  const { plan, proved, bound } = await balance(line, pace, options);
  const least = { people: bound.stations, stations: bound.stations };
  return { plan, outcome: proved ? "proved" : "found", least, obstacles: [] };
}
