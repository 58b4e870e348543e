import type { Line } from "../line/line.js";
import { topologicalOrder } from "../line/precedence.js";
import { operators } from "../plan/station-figures.js";
import { type Balance, type BalanceOptions, balance, type Watch } from "../solve/balance.js";
import { staticBounds } from "../solve/bounds/bound.js";
import { findImpossibleTasks, toStationProblem } from "../solve/station-problem.js";
import type { Pace } from "../time/pace.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { percent } from "../time/show-values.js";
import { benchFor, benchLoad } from "./bench.js";
import { type Block, findBlocks, marksBase, timeOf } from "./find-blocks.js";
import type { OffLineFlag } from "./off-line-flag.js";
import { withoutTasks } from "./without-tasks.js";

/** Least partial plans for a block, however many blocks share the limit. */
const LEAST_NODES = 1_000;

/**
 * Every block whose removal takes a station off the line or frees somebody, the most useful first: fewest people, fewest
 * stations, fewest tasks, then natural order. Each rest of the line is balanced by the same search and verified. A block
 * that cannot change the number of stations, by a bound, is not balanced again.
 *
 * @param before the balance of the whole line; null where a task is too long for any station
 */
export async function flagBlocks(
  line: Line,
  pace: Pace,
  before: Balance | null,
  options: BalanceOptions,
): Promise<OffLineFlag[]> {
  const candidates = findBlocks(line).filter((block) =>
    mayHelp(line, pace, before, block, options.strictLimit),
  );
  const nodes = Math.max(LEAST_NODES, Math.floor(options.nodes / Math.max(1, candidates.length)));
  const flags: OffLineFlag[] = [];
  for (const [at, block] of candidates.entries()) {
    const rest = withoutTasks(line, block.tasks);
    const what = `block ${at + 1} of ${candidates.length}`;
    const checkpoint: Watch = (progress) => options.checkpoint({ ...progress, what });
    const after = await balance(rest, pace, {
      ...options,
      method: "best",
      nodes,
      explain: false,
      checkpoint,
    });
    const flag = describe(line, pace, block, before, after);
    if (flag !== null) flags.push(flag);
  }
  return flags.sort(byUse);
}

function mayHelp(
  line: Line,
  pace: Pace,
  before: Balance | null,
  block: Block,
  strictLimit: boolean,
): boolean {
  const rest = withoutTasks(line, block.tasks);
  if (findImpossibleTasks(rest, pace, strictLimit).length > 0) return false;
  if (before === null) return true;
  const [bound] = staticBounds(toStationProblem(rest, pace));
  return bound === undefined || bound.stations < before.plan.stations.length;
}

function describe(
  line: Line,
  pace: Pace,
  block: Block,
  before: Balance | null,
  after: Balance,
): OffLineFlag | null {
  const bench = benchFor(line, pace, block.tasks, "B1");
  const [stationsBefore, stationsAfter] = [before?.plan.stations.length ?? null, after.plan.stations.length];
  const [peopleBefore, peopleAfter] = [stationsBefore, stationsAfter + operators(bench)];
  if (stationsBefore !== null && stationsAfter >= stationsBefore) return null;
  const show = showTimesIn(line.unit);
  const work = `${show(timeOf(line, block.tasks))} of work`;
  const places = bench.places === 1 ? "1 bench place" : `${bench.places} bench places`;
  const load = `${work} at ${places} (${percent(benchLoad(line, pace, bench))} of the bench limit)`;
  return {
    kind: "block",
    tasks: inOrderOfWork(line, block).map((task) => line.tasks[task]!.id),
    joinsAt: line.tasks[block.joinsAt]!.id,
    stationsBefore,
    stationsAfter,
    peopleBefore,
    peopleAfter,
    outcome: after.proved ? "proved" : "found",
    freed: peopleBefore === null ? null : peopleBefore - peopleAfter,
    reason: `${verdict(peopleBefore, peopleAfter, stationsBefore, stationsAfter)}; ${load}${guess(line)}`,
  };
}

function inOrderOfWork(line: Line, block: Block): number[] {
  const inside = new Set(block.tasks);
  return topologicalOrder(line.before).filter((task) => inside.has(task));
}

function verdict(
  peopleBefore: number | null,
  peopleAfter: number,
  stationsBefore: number | null,
  stationsAfter: number,
): string {
  if (peopleBefore === null || stationsBefore === null) {
    return `makes a balance possible: ${count(stationsAfter, "station")} and ${people(peopleAfter)} in all`;
  }
  const shorter = `the line is ${count(stationsBefore - stationsAfter, "station")} shorter, with one stock more`;
  const change = peopleAfter - peopleBefore;
  if (change < 0) return `frees ${people(-change)}: ${peopleBefore} before, ${peopleAfter} after; ${shorter}`;
  if (change === 0) return `no gain in people: ${peopleBefore} and ${peopleAfter}; ${shorter}`;
  return `costs ${people(change)} more: ${peopleBefore} before, ${peopleAfter} after; ${shorter}`;
}

const count = (number: number, what: string) => `${number} ${what}${number === 1 ? "" : "s"}`;
const people = (number: number) => (number === 1 ? "1 person" : `${number} people`);

function guess(line: Line): string {
  return marksBase(line) ? "" : "; a guess, as no task says `on-base: true`";
}

function byUse(one: OffLineFlag, two: OffLineFlag): number {
  return (
    one.peopleAfter! - two.peopleAfter! ||
    one.stationsAfter! - two.stationsAfter! ||
    one.tasks.length - two.tasks.length
  );
}
