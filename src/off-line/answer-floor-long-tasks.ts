import { countOf } from "../findings/count-of.js";
import type { Line } from "../line/line.js";
import type { Plan } from "../plan/plan.js";
import { efficiencyAtPace, peopleOf } from "../plan/plan-figures.js";
import type { BalancingOptions } from "../solve/balance.js";
import { balanceFloor } from "../solve/floor/balance-floor.js";
import { kindNumbersFor } from "../solve/floor/binding-times.js";
import { explainInfeasible } from "../solve/floor/explain-infeasible.js";
import { toFloorProblem } from "../solve/floor/to-floor-problem.js";
import type { Pace } from "../time/pace.js";
import { compare, larger, multiply, type Ratio, ratio, subtract, ZERO } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { percent } from "../time/show-values.js";
import { RestBalancer } from "./balance-rest.js";
import { lineCycleFor, partsFor, placesFor } from "./bench.js";
import { jobFor, onEveryUnit } from "./bench-job.js";
import { findBlocks, inOrderOfWork, marksBase } from "./find-blocks.js";
import { flagOf, rateAt } from "./flag-long-tasks.js";
import { holdsOf } from "./held-on-line.js";
import { measureBench } from "./measure-bench.js";
import type { OffLineFlag } from "./off-line-flag.js";
import { planWithBenches } from "./plan-with-benches.js";
import { splitTask } from "./split-task.js";

/** Searches for each task: places, parts, a bench, a slower pace. */
const ANSWERS = 4;
const LEAST_NODES = 1_000;

/**
 * Flags tasks that are too long for the stations of a line with shop-floor rules, with the answers that exist, each as a balance that
 * keeps the rules, or with what speaks against it.
 *
 * @param plan the balance with these tasks over the limit; null where no station can hold them
 */
export async function flagFloorLongTasks(
  line: Line,
  pace: Pace,
  long: readonly number[],
  plan: Plan | null,
  options: BalancingOptions,
): Promise<OffLineFlag[]> {
  const nodes =
    options.nodes === null
      ? null
      : Math.max(LEAST_NODES, Math.floor(options.nodes / (ANSWERS * Math.max(1, long.length))));
  const answers = new FloorAnswers(
    line,
    pace,
    long,
    {
      ...options,
      nodes,
      method: "best",
      level: false,
      explain: false,
    },
    plan === null,
  );
  const roomy = plan === null ? await answers.places() : null;
  const flags: OffLineFlag[] = [];
  for (const task of long) {
    const reason = [
      ...(roomy === null ? [] : [answers.placesWords(task, roomy)]),
      await answers.split(task),
      await answers.bench(task),
      await answers.slower(),
    ];
    const before = plan && { stationsBefore: plan.stations.length, peopleBefore: peopleOf(plan) };
    flags.push({
      ...flagOf(line.tasks[task]!),
      ...before,
      stationsAfter: roomy?.plan?.stations.length ?? null,
      peopleAfter: roomy?.plan == null ? null : peopleOf(roomy.plan),
      outcome: roomy?.plan == null ? null : roomy.outcome,
      reason: reason.join("; "),
    });
  }
  return flags;
}

/** A line changed so that a long task finds room, balanced under its rules. */
interface Changed {
  readonly line: Line;
  readonly pace: Pace;
  readonly plan: Plan | null;
  readonly outcome: "proved" | "found";
  /** Why there is no plan; empty where there is one. */
  readonly why: string;
}

class FloorAnswers {
  private slowerWords: Promise<string> | null = null;

  constructor(
    private readonly line: Line,
    private readonly pace: Pace,
    private readonly long: readonly number[],
    private readonly options: BalancingOptions,
    /** There is no plan before every one of them is helped. */
    private readonly mustHelpAll: boolean,
  ) {}

  /** The line where every station may have as many places as the longest of these tasks needs. */
  places(): Promise<Changed> {
    const { line, long } = this;
    const most = Math.max(line.maxPlaces, ...long.map((task) => this.placesOf(task)));
    const floor = line.floor.map((station) => ({
      ...station,
      maxPlaces: Math.max(station.maxPlaces ?? line.maxPlaces, most),
    }));
    return this.balanced({ ...line, maxPlaces: most, floor }, this.pace);
  }

  placesWords(task: number, roomy: Changed): string {
    const others = this.long.length > 1 ? ", with such places for every task that is too long" : "";
    return `parallel places: ${this.placesOf(task)}, units taken in turn ${sizeWords(roomy, others)}`;
  }

  async split(task: number): Promise<string> {
    const { line, pace } = this;
    const { load, machineTime } = line.tasks[task]!;
    if (machineTime > 0) return "split: no, its machine is loaded and runs in one go";
    const limit = this.limitOf(task);
    const parts = partsFor({ ...pace, stationLimit: limit }, load);
    const words = `split: ${parts} parts of at most ${showTimesIn(line.unit)(limit)}`;
    if (this.mustHelpAll && this.long.length > 1) return `${words} (others are too long as well)`;
    return `${words} ${sizeWords(await this.balanced(splitTask(line, task, parts), pace))}`;
  }

  /** The smallest block that holds the task and that no rule holds at the line, or why there is none. */
  async bench(task: number): Promise<string> {
    const { line, pace, options } = this;
    const holding = findBlocks(line)
      .filter((each) => each.tasks.includes(task))
      .sort((one, two) => one.tasks.length - two.tasks.length);
    const [smallest] = holding;
    if (smallest === undefined) {
      return marksBase(line)
        ? "bench: no, it cannot be built away from the line"
        : "bench: not known, as no task says `on-base: true`";
    }
    const block = holding.find(({ tasks }) => holdsOf(line, tasks).length === 0);
    if (block === undefined)
      return `bench: no, ${holdsOf(line, smallest.tasks)
        .map(({ words }) => words)
        .join(", ")}`;
    const limits = { nodes: options.nodes ?? Number.MAX_SAFE_INTEGER, checkpoint: options.checkpoint };
    const job = onEveryUnit(jobFor(line, { tasks: block.tasks, joinsAt: [block.joinsAt] }));
    const bench = await measureBench(line, pace, job, limits);
    const rest = await new RestBalancer(line, pace, options).of([bench], options.nodes);
    const beside = planWithBenches(line, pace, rest, [bench]);
    const isOtherTooLong = this.mustHelpAll && this.long.some((each) => !block.tasks.includes(each));
    const names = inOrderOfWork(line, block.tasks).map((each) => line.tasks[each]!.id);
    const guess = marksBase(line) ? "" : "; a guess, as no task says `on-base: true`";
    const size = isOtherTooLong
      ? "others are too long as well"
      : beside.plan === null
        ? `no plan of the rest keeps the rules${beside.obstacles.length === 0 ? "" : `: ${beside.obstacles.join(", ")}`}`
        : `${countOf(beside.stations!, "station")} at the line and ${peopleWords(beside.people!)} in all`;
    const where = `${countOf(bench.places, "place")} for ${names.join(", ")}, joining at ${line.tasks[block.joinsAt]!.id}`;
    return `bench: ${where} (${size}${guess})`;
  }

  /** The pace at which the longest of these tasks fits a station that it may stand at. */
  slower(): Promise<string> {
    this.slowerWords ??= this.findSlower();
    return this.slowerWords;
  }

  private async findSlower(): Promise<string> {
    const { line, pace, long } = this;
    const needs = long.map((task) => ({ task, lineCycle: this.lineCycleOf(task) }));
    const slowest = needs.reduce((one, two) => (compare(two.lineCycle, one.lineCycle) > 0 ? two : one));
    const sets = long.length === 1 ? "" : ` (${line.tasks[slowest.task]!.id} needs it)`;
    const { lineCycle } = slowest;
    const workingTime = subtract(lineCycle, ratio(pace.handling));
    const stationLimit = multiply(workingTime, pace.planTo);
    const changed = await this.balanced(line, { ...pace, lineCycle, workingTime, stationLimit });
    const rate = rateAt(line, pace, lineCycle);
    return `slower pace: a line cycle of ${showTimesIn(line.unit)(lineCycle)}${sets}, ${rate} ${sizeWords(changed)}`;
  }

  private async balanced(line: Line, pace: Pace): Promise<Changed> {
    const { plan, outcome } = await balanceFloor(line, pace, this.options);
    const common = { line, pace, plan, outcome: outcome === "proved" ? outcome : ("found" as const) };
    if (plan !== null) return { ...common, why: "" };
    if (outcome !== "infeasible")
      return { ...common, why: "no plan was found before the search was stopped" };
    const why = await explainInfeasible(line, pace, this.options.strictLimit);
    const reasons = why === null ? "" : `: ${why.reasons.join(", ")}`;
    return { ...common, why: `no plan keeps the rules of the line then${reasons}` };
  }

  /** The plan-to of stations that a task may stand at, each with the places that it may have. */
  private stationsFor(task: number): { readonly planTo: Ratio; readonly places: number }[] {
    const { line, pace, options } = this;
    const problem = toFloorProblem(line, {
      pace,
      strictLimit: options.strictLimit,
      slowest: null,
      free: false,
    });
    return kindNumbersFor(problem, [task]).map((at) => ({
      planTo: line.floor[at]?.planTo ?? pace.planTo,
      places: line.floor[at]?.maxPlaces ?? line.maxPlaces,
    }));
  }

  private placesOf(task: number): number {
    const { load } = this.line.tasks[task]!;
    return Math.min(...this.stationsFor(task).map(({ planTo }) => placesFor({ ...this.pace, planTo }, load)));
  }

  private limitOf(task: number): Ratio {
    return this.stationsFor(task)
      .map(({ planTo }) => multiply(this.pace.workingTime, planTo))
      .reduce(larger, ZERO);
  }

  private lineCycleOf(task: number): Ratio {
    const { load } = this.line.tasks[task]!;
    return this.stationsFor(task)
      .map(({ planTo, places }) => multiply(lineCycleFor({ ...this.pace, planTo }, load), ratio(1, places)))
      .reduce((one, two) => (compare(two, one) < 0 ? two : one));
  }
}

const peopleWords = (people: number): string => (people === 1 ? "1 person" : `${people} people`);

/** "(4 stations and 5 people in all, efficiency 80 % at the pace)", or why there is no plan. */
function sizeWords({ line, pace, plan, why }: Changed, others = ""): string {
  if (plan === null) return `(${why}${others})`;
  const efficiency = efficiencyAtPace(line, pace, plan);
  const share = efficiency === null ? "" : `, efficiency ${percent(efficiency)} at the pace`;
  return `(${countOf(plan.stations.length, "station")} and ${peopleWords(peopleOf(plan))} in all${share}${others})`;
}
