import type { BenchFigures } from "../../benches/measure-bench.js";
import { skilledBenchPlaces } from "../../benches/people-at-benches.js";
import { equipmentLeft, restOfLine } from "../../benches/rest-of-line.js";
import type { Line } from "../../line/line.js";
import type { Plan } from "../../plan/plan.js";
import { type BalancingOptions, balance } from "../../solve/balance.js";
import { explainInfeasible } from "../../solve/explain/explain-infeasible.js";
import { DEFAULT_NODES } from "../../solve/methods.js";
import type { Pace } from "../../time/pace.js";
import { obstaclesOf } from "../balance/find-no-plan.js";
import type { Obstacle } from "../balance/obstacle.js";
import { findLongTasks } from "../long-tasks/find-long-tasks.js";
import { solveBeside } from "./staff-beside.js";

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
  /** Why there is no plan, as far as that is known; empty where there is one. */
  readonly obstacles: readonly Obstacle[];
}

type Balanced = Pick<RestOfLine, "plan" | "outcome" | "least" | "obstacles">;

/**
 * Balances what stays on the line when benches take work off it, each rest as `balance` does alone, whatever else is asked; equal rests
 * are balanced once.
 */
export class RestBalancer {
  readonly #known = new Map<string, RestOfLine>();
  #nodes = 0;

  constructor(
    private readonly line: Line,
    private readonly pace: Pace,
    private readonly options: BalancingOptions,
  ) {}

  /** How many different rests were balanced. */
  get count(): number {
    return this.#known.size;
  }

  /** Partial plans that all of them took. */
  get nodes(): number {
    return this.#nodes;
  }

  isKnown(benches: readonly BenchFigures[]): boolean {
    return this.#known.has(this.keyOf(benches));
  }

  /**
   * The line without what these benches build and scrap, each task where something joins with its take-over, and without the
   * counted equipment that the benches keep.
   */
  async of(benches: readonly BenchFigures[]): Promise<RestOfLine> {
    const key = this.keyOf(benches);
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    const { rest, kept } = restOfLine(this.line, benches);
    const short = [...shortAtBenches(this.line, benches), ...shortOnLine(this.line, rest)];
    const balanced = short.length > 0 ? { ...NO_PLAN, obstacles: short } : await this.#staffed(rest, benches);
    const found = { line: rest, numbers: kept, ...balanced };
    this.#known.set(key, found);
    return found;
  }

  /** With the people who are not at the benches. */
  async #staffed(rest: Line, benches: readonly BenchFigures[]): Promise<Balanced> {
    // Within a time the line may take all of it, and no bench the time of the others.
    const nodes = this.options.nodes ?? (benches.length === 0 ? null : DEFAULT_NODES);
    const places = skilledBenchPlaces(this.line, benches);
    const solve = async (line: Line, shares: number) => {
      const each = nodes === null ? null : nodesOf(nodes, shares);
      const balanced = await balanceLine(line, this.pace, {
        ...this.options,
        nodes: each,
        method: "best",
        explain: false,
      });
      this.#nodes += balanced.nodes;
      return balanced;
    };
    const { answer, everybody, outcome, obstacle } = await solveBeside(rest, places, solve);
    if (obstacle !== null) return { ...NO_PLAN, outcome, obstacles: [obstacle] };
    return { ...answer, outcome, least: (outcome === "proved" ? answer : everybody).least };
  }

  /** Why the line that these benches leave has no plan, equipment first that they keep; only where they keep some is that asked. */
  async whyNot(benches: readonly BenchFigures[]): Promise<Obstacle[]> {
    const { line } = await this.of(benches);
    if ([...line.equipment].every(([name, left]) => left === this.line.equipment.get(name))) return [];
    const { strictLimit, checkpoint } = this.options;
    const why = await explainInfeasible(line, this.pace, strictLimit, { nodes: REASON_NODES, checkpoint });
    if (why === null) return [];
    const fewLeft = why.scarce.flatMap((equipment) => {
      const [left, count] = [line.equipment.get(equipment)!, this.line.equipment.get(equipment)!];
      return left < count ? [{ kind: "few-left", equipment, left, count } as const] : [];
    });
    const isTold = (each: Obstacle) => {
      const reason = each.kind === "rule" ? each.reason : null;
      return (
        reason?.kind === "counted-equipment" &&
        fewLeft.some(({ equipment }) => equipment === reason.equipment)
      );
    };
    return [...fewLeft, ...obstaclesOf(line, this.pace, why).filter((each) => !isTold(each))];
  }

  private keyOf(benches: readonly BenchFigures[]): string {
    const tasks = benches.flatMap((bench) => bench.tasks).sort((one, two) => one - two);
    const added = benches.flatMap(({ joinsAt, terms, share }) =>
      terms.takeOver === 0 ? [] : [`${joinsAt.join(" ")}+${terms.takeOver}x${share.num}/${share.den}`],
    );
    const left = [...equipmentLeft(this.line, benches).values()];
    const places = skilledBenchPlaces(this.line, benches).map(({ ways }) => JSON.stringify(ways));
    return [tasks.join(" "), left.join(" "), places.sort().join(" "), ...added.sort()].join("|");
  }
}

const NO_PLAN = { plan: null, outcome: "infeasible", least: null, obstacles: [] } as const;

/** Least partial plans for a choice of people, however many share the limit. */
const LEAST_NODES = 1_000;

/** Partial plans for each question why what stays on the line has no plan. */
const REASON_NODES = 2_000;

/** Partial plans of one of so many searches. */
export const nodesOf = (nodes: number, shares: number): number =>
  shares === 1 ? nodes : Math.max(LEAST_NODES, Math.floor(nodes / shares));

/** Counted equipment of which benches need more than exists. */
export function shortAtBenches(line: Line, benches: readonly BenchFigures[]): Obstacle[] {
  return [...equipmentLeft(line, benches)].flatMap(([equipment, left]): Obstacle[] => {
    if (left >= 0) return [];
    const count = line.equipment.get(equipment)!;
    const slow = benches.flatMap(({ machines, places, takt }) =>
      machines
        .filter(({ name, units }) => name === equipment && units > places)
        .map(({ busy }) => ({ busy, due: takt })),
    );
    return [{ kind: "short-at-benches", equipment, needed: count - left, count, slow }];
  });
}

/** Equipment of which the benches leave none for a task that stays. */
export function shortOnLine(line: Line, rest: Line): Obstacle[] {
  return [...rest.equipment].flatMap(([equipment, left]): Obstacle[] => {
    const tasks = rest.tasks.filter((task) => task.equipment.includes(equipment)).map(({ id }) => id);
    if (left !== 0 || tasks.length === 0) return [];
    return [{ kind: "none-left", equipment, tasks, count: line.equipment.get(equipment)! }];
  });
}

/** A balance of a line in short. */
export async function balanceLine(
  line: Line,
  pace: Pace,
  options: BalancingOptions,
): Promise<Balanced & { readonly nodes: number }> {
  const { plan, outcome, least, search, level } = await balance(line, pace, options);
  const nodes = (search?.nodes ?? 0) + (level?.nodes ?? 0);
  const tooLong = plan === null ? findLongTasks(line, pace, options.strictLimit) : [];
  if (tooLong.length > 0) {
    const tasks = tooLong.map(({ task }) => line.tasks[task]!.id);
    return { ...NO_PLAN, obstacles: [{ kind: "too-long", tasks }], nodes };
  }
  return { plan, outcome, least: plan === null ? null : least, obstacles: [], nodes };
}
