import { jobFor } from "../../benches/bench-job.js";
import { countShares } from "../../benches/count-shares.js";
import { type Block, findBlocks, inOrderOfWork, marksBase, timeOf } from "../../benches/find-blocks.js";
import { holdsOf } from "../../benches/held-on-line.js";
import { type BenchFigures, measureBench } from "../../benches/measure-bench.js";
import { lineLeftBy, withoutScrapOf } from "../../benches/without-scrap.js";
import type { Line } from "../../line/line.js";
import { peopleOf, peopleOfPlan } from "../../plan/figures/people.js";
import { personTime, workOfLine } from "../../plan/figures/person-time.js";
import type { Plan } from "../../plan/plan.js";
import type { BalancingOptions } from "../../solve/balance.js";
import { DEFAULT_NODES } from "../../solve/methods.js";
import { leastCost } from "../../solve/time-alone.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Pace } from "../../time/pace.js";
import { compare, multiply, type Ratio, ratio, subtract } from "../../time/ratio.js";
import { RestBalancer } from "./balance-rest.js";
import type { BlockFlag } from "./off-line-flag.js";
import { countsByDay, type OffLinePlan, planWithBenches } from "./plan-with-benches.js";

/** Least partial plans for a block, however many blocks share the limit. */
const LEAST_NODES = 1_000;
/** Few blocks have such a part of the partial plans each: they are no reason to wait as long as for the balance itself. */
const LEAST_SHARES = 16;
/** So many blocks are looked at between two questions whether to go on. */
const AT_ONCE = 64;

/** A verified plan of a line, and whether it is proved to have the fewest people and stations. */
export interface BalancedLine {
  readonly plan: Plan;
  readonly proved: boolean;
}

/** Blocks worth building at a bench, and how many could not be looked at before the search was stopped. */
export interface FlaggedBlocks {
  readonly flags: readonly BlockFlag[];
  readonly leftOut: number;
}

/**
 * Every block whose removal takes a station off the line or frees somebody, the most useful first: fewest people, fewest
 * stations, fewest tasks, then natural order. Which blocks may go, and with which equipment and people left for the line, is what
 * `off-line` says. A block that cannot change the number of stations, by a bound, is not balanced again.
 *
 * @param before the balance of the whole line; null where a task is too long for any station
 */
export async function flagBlocks(
  line: Line,
  pace: Pace,
  before: BalancedLine | null,
  options: BalancingOptions,
): Promise<FlaggedBlocks> {
  const stations = before?.plan.stations.length ?? Number.POSITIVE_INFINITY;
  const plan = before?.plan ?? null;
  const all = findBlocks(line);
  const work = workToShare(line);
  const blocks: Block[] = [];
  for (const [at, block] of all.entries()) {
    const isAsked = at > 0 && at % AT_ONCE === 0;
    const what = { block: at + 1, of: all.length };
    if (isAsked && (await options.checkpoint({ nodes: 0, best: stations, bound: 1, what })) !== null)
      return { flags: [], leftOut: all.length };
    if (holdsOf(line, block.tasks).length === 0 && fillsFewer(line, pace, block, work, plan))
      blocks.push(block);
  }
  const nodes = Math.max(
    LEAST_NODES,
    Math.floor((options.nodes ?? DEFAULT_NODES) / Math.max(LEAST_SHARES, blocks.length)),
  );
  const search: BalancingOptions = { ...options, method: "best", explain: false, level: false };
  const flags: BlockFlag[] = [];
  for (const [at, block] of blocks.entries()) {
    const what = { block: at + 1, of: blocks.length };
    const checkpoint: Watch = (progress) => options.checkpoint({ ...progress, what });
    const isOver = async () => (await checkpoint({ nodes: 0, best: stations, bound: 1 })) !== null;
    const soFar = () => ({ flags: flags.sort(byUse), leftOut: blocks.length - at });
    if (await isOver()) return soFar();
    const rest = lineLeftBy(line, block.tasks);
    if (!mayDoWithFewer(rest, pace, plan, options.strictLimit)) continue;
    if (await isOver()) return soFar();
    const job = jobFor(line, { tasks: block.tasks, joinsAt: [block.joinsAt] });
    const bench = await measureBench(countShares(line), pace, job, { nodes, checkpoint });
    const balancer = new RestBalancer(line, pace, { ...search, nodes, checkpoint });
    const after = planWithBenches(line, pace, await balancer.of([bench]), [bench]);
    const flag = after.plan === null ? null : describe(line, pace, block, bench, before, after);
    if (flag !== null) flags.push(flag);
  }
  return { flags: flags.sort(byUse), leftOut: 0 };
}

interface WorkToShare {
  readonly time: Ratio;
  readonly persons: Ratio;
}

const workToShare = (line: Line): WorkToShare => ({
  time: timeOf(line, [...line.tasks.keys()]),
  persons: workOfLine(line),
});

/** Whether the work that stays may do with less than the plan has; cheap, so that most blocks of a large line end here. */
function fillsFewer(
  line: Line,
  pace: Pace,
  { tasks }: Block,
  whole: WorkToShare,
  plan: Plan | null,
): boolean {
  const left = withoutScrapOf(line, tasks);
  const { time, persons: inAll } = left === line ? whole : workToShare(left);
  const rest = subtract(time, timeOf(left, tasks));
  const persons = subtract(inAll, personTime(left, tasks));
  const [stations, people] =
    plan === null
      ? [line.tasks.length, Number.MAX_SAFE_INTEGER]
      : [Math.min(plan.stations.length - 1, line.tasks.length), peopleOf(plan) - 1];
  const places = Math.max(line.maxPlaces, ...line.floor.map(({ maxPlaces }) => maxPlaces ?? 1));
  const sides = line.tasks.some(({ side }) => side !== null) ? 2 : 1;
  // Beside a place whose handling is shared out nobody works for more than the line cycle.
  const each = places === 1 ? pace.workingTime : pace.lineCycle;
  const fits = (work: Ratio, count: number) => compare(work, multiply(each, ratio(count))) <= 0;
  return fits(rest, stations * places * sides) || fits(persons, people);
}

function mayDoWithFewer(rest: Line, pace: Pace, plan: Plan | null, strictLimit: boolean): boolean {
  const least = leastCost(rest, pace, strictLimit);
  if (least === null) return false;
  return plan === null || least.stations < plan.stations.length || least.people < peopleOf(plan);
}

function describe(
  line: Line,
  pace: Pace,
  block: Block,
  bench: BenchFigures,
  before: BalancedLine | null,
  after: OffLinePlan,
): BlockFlag | null {
  const [stationsBefore, stationsAfter] = [before?.plan.stations.length ?? null, after.stations!];
  const people = before === null ? null : peopleOfPlan(line, pace, before.plan);
  const isOfDay = people !== null && countsByDay(line);
  const counted = people && {
    before: isOfDay ? people.perDay! : people.atATime,
    after: isOfDay ? after.peopleOfDay! : after.people!,
    isOfDay,
  };
  const isShorter = stationsBefore === null || stationsAfter < stationsBefore;
  if (!isShorter && counted !== null && counted.after >= counted.before) return null;
  return {
    kind: "block",
    tasks: inOrderOfWork(line, block.tasks).map((task) => line.tasks[task]!.id),
    joinsAt: line.tasks[block.joinsAt]!.id,
    stationsBefore,
    stationsAfter,
    peopleBefore: people?.atATime ?? null,
    peopleAfter: after.people!,
    outcome: after.outcome === "proved" ? "proved" : "found",
    counted,
    freed: counted && counted.before - counted.after,
    bench: { work: bench.work, places: bench.places * bench.stations.length, load: bench.load },
    isDoubted: before !== null && !before.proved,
    isGuess: !marksBase(line),
  };
}

const peopleAfter = ({ counted, peopleAfter: atATime }: BlockFlag): number => counted?.after ?? atATime;

function byUse(one: BlockFlag, two: BlockFlag): number {
  return (
    peopleAfter(one) - peopleAfter(two) ||
    one.stationsAfter - two.stationsAfter ||
    one.tasks.length - two.tasks.length
  );
}
