import { shiftsOf } from "../../benches/bench-hours.js";
import { type BenchJob, jobFor, statedJobs } from "../../benches/bench-job.js";
import { countShares, findCountedShares } from "../../benches/count-shares.js";
import { everyBlock } from "../../benches/every-block.js";
import { marksBase, tasksOnBase } from "../../benches/find-blocks.js";
import { atShifts, type BenchFigures, measureBench } from "../../benches/measure-bench.js";
import { judgeBlock } from "../../benches/why-not.js";
import { withLeastScrap } from "../../benches/without-scrap.js";
import type { Finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import type { BalancingOptions } from "../../solve/balance.js";
import { DEFAULT_NODES } from "../../solve/methods.js";
import { mostShifts } from "../../time/calendar.js";
import type { Pace } from "../../time/pace.js";
import type { TaktSum } from "../../time/takt.js";
import { findTooFar } from "../balance/find-shop-notes.js";
import { lineFacts } from "../balance/shown-balance.js";
import { answerLongTasks } from "../long-tasks/long-task-answers.js";
import { RestBalancer } from "./balance-rest.js";
import { bestSets, SET_LIMITS } from "./best-sets.js";
import type { AskedBlock, OffLineAnswer, OtherHours, RatedSet } from "./off-line-answer.js";
import {
  findBenchNotes,
  findOffLineNotes,
  findRefusals,
  findSharedTasks,
  findSlowed,
} from "./off-line-findings.js";
import { comparePeople, countsByDay, type OffLinePlan, planWithBenches } from "./plan-with-benches.js";
import type { Rank } from "./rank-order.js";
import { type Rating, rateBlock, rateBlocks } from "./rate-blocks.js";
import { RestBound } from "./rest-bound.js";

export interface OffLineOptions
  extends Pick<BalancingOptions, "nodes" | "doublings" | "strictLimit" | "checkpoint"> {
  readonly ranks: readonly Rank[];
  /** Benches that may be set up. */
  readonly benches: number;
  /** Also blocks whose result joins at several tasks. */
  readonly joinsAtSeveral: boolean;
  /** Tasks of each block asked for; null: every block. */
  readonly asked: readonly (readonly number[])[] | null;
}

/** The parts of the answer that say what may go. */
type Choices = Pick<OffLineAnswer, "asked" | "stated" | "together" | "blocks" | "sets"> & {
  readonly isWhole: boolean;
  readonly leftOut: number;
  readonly setsEnded: "whole" | "limits" | "stopped";
};

/**
 * What can be built away from the line and what each choice changes: the whole answer of `off-line`. The line and what stays of it
 * beside each bench are balanced as `balance` does alone.
 */
export async function answerOffLine(
  ofFile: Line,
  pace: Pace,
  takt: TaktSum | null,
  options: OffLineOptions,
): Promise<OffLineAnswer> {
  const line = countShares(ofFile);
  const search: BalancingOptions = { ...options, method: "best", level: true, explain: false };
  const balancer = new RestBalancer(line, pace, search);
  const before = planWithBenches(line, pace, await balancer.of([]), []);
  const onBase = tasksOnBase(line);
  const mayLeave = [...line.tasks.keys()].filter((task) => !onBase[task]);
  const bound = new RestBound(withLeastScrap(line, mayLeave), pace, options.strictLimit);
  const { ranks, checkpoint, asked } = options;
  const rating = {
    line,
    pace,
    before,
    ranks,
    bound,
    balancer,
    nodes: options.nodes ?? DEFAULT_NODES,
    checkpoint,
  };
  const choices =
    asked === null ? await chooseAmongAll(rating, options) : await answerAsked(rating, options, asked);
  const inFull = (choices.asked ?? choices.stated ?? []).flatMap(({ rated }) => rated?.bench ?? []);
  const isGuess = !marksBase(line);
  return {
    ...choices,
    line,
    pace,
    takt,
    outcome: outcomeOf(before, choices),
    shown: lineFacts(line),
    before,
    ranks,
    joinsAtSeveral: options.joinsAtSeveral,
    byDay: countsByDay(line),
    isGuess,
    benchesAllowed: options.benches,
    otherHours: new Map(inFull.map((bench) => [bench, otherHoursOf(line, pace, bench)])),
    longTasks: await answerLongTasks(line, pace, before.plan, search),
    search: { nodeLimit: options.nodes, balanced: balancer.count },
    findings: [
      ...findFailing(line, pace, before),
      ...findSlowed(line, pace, before, choices),
      ...findRefusals(line, before, choices.asked ?? choices.stated ?? [], choices.asked !== null),
      ...findCountedShares(ofFile),
      ...findOffLineNotes(line, { ...choices, isGuess }),
      ...findSharedTasks(line, choices.asked ?? []),
      ...inFull.flatMap((bench) => findBenchNotes(line, bench)),
    ],
  };
}

/** Why the plan that blocks are measured against fails, though it keeps the pace. */
const findFailing = (line: Line, pace: Pace, { plan }: OffLineAnswer["before"]): Finding[] =>
  (plan === null ? [] : findTooFar(line, pace, plan)).map((each) => {
    const message = `the plan with everything on the line fails: ${each.message}`;
    return { ...each, severity: "warning", message };
  });

/** An answer to each block that was asked for, and to all of them together. */
async function answerAsked(
  rating: Rating,
  { joinsAtSeveral }: OffLineOptions,
  asked: readonly (readonly number[])[],
): Promise<Choices> {
  const { line } = rating;
  const answers: AskedBlock[] = [];
  for (const tasks of asked) {
    const { tasks: sorted, joinsAt } = judgeBlock(line, tasks, true);
    const job = jobFor(line, { tasks: sorted, joinsAt });
    // The parts of a bench of the file may join at several tasks, whoever asks for it.
    answers.push(await judge(rating, job, joinsAtSeveral || job.id !== null));
  }
  return {
    asked: answers,
    stated: null,
    together: await rateTogether(rating, answers),
    blocks: null,
    sets: null,
    isWhole: true,
    leftOut: 0,
    setsEnded: "whole",
  };
}

/** Every block, the benches of the file, and the best sets of them. */
async function chooseAmongAll(rating: Rating, options: OffLineOptions): Promise<Choices> {
  const { line, pace } = rating;
  const every = everyBlock(line, options.joinsAtSeveral);
  const stated: AskedBlock[] = [];
  for (const job of statedJobs(line)) stated.push(await judge(rating, job, true));
  const benches: BenchFigures[] = [];
  for (const block of every.blocks) benches.push(await measureBench(line, pace, jobFor(line, block), rating));
  const rated = await rateBlocks(rating, benches);
  const known = new Set(benches.map(({ tasks }) => tasks.join(" ")));
  const others = stated.flatMap((each) => each.rated?.bench ?? []);
  const choices = [
    ...rated.blocks.map(({ bench }) => bench),
    ...others.filter(({ tasks }) => !known.has(tasks.join(" "))),
  ];
  const found =
    rated.leftOut > 0
      ? { sets: [], ended: "stopped" as const }
      : await bestSets(line, pace, choices, options.benches, {
          ...rating,
          strictLimit: options.strictLimit,
          limits: { ...SET_LIMITS, nodes: rating.nodes },
        });
  return {
    asked: null,
    stated: stated.length === 0 ? null : stated,
    together: await rateTogether(rating, stated),
    blocks: rated.blocks,
    sets: found.sets.map(({ plan, isBest }) => rateSet(rating, plan, isBest && every.isWhole)),
    isWhole: every.isWhole,
    leftOut: rated.leftOut,
    setsEnded: found.ended,
  };
}

async function judge(rating: Rating, job: BenchJob, several: boolean): Promise<AskedBlock> {
  const { line, pace } = rating;
  const verdict = judgeBlock(line, job.tasks, several);
  if (verdict.hindrances.length > 0) return { id: job.id, verdict, rated: null };
  const bench = await measureBench(line, pace, job, rating);
  return { id: job.id, verdict, rated: await rateBlock(rating, bench) };
}

/** All of them at their benches at once, where there are two or more, each can go and none shares a task with another. */
async function rateTogether(rating: Rating, blocks: readonly AskedBlock[]): Promise<RatedSet | null> {
  const benches = blocks.flatMap(({ rated }) => rated?.bench ?? []);
  const tasks = benches.flatMap((bench) => bench.tasks);
  const isOne = benches.length < 2 || benches.length < blocks.length;
  if (isOne || new Set(tasks).size < tasks.length) return null;
  const { line, pace, balancer } = rating;
  const plan = planWithBenches(line, pace, await balancer.of(benches), benches);
  return rateSet(rating, plan, true);
}

function rateSet({ line, before }: Rating, plan: OffLinePlan, isBest: boolean): RatedSet {
  return { plan, isBest, people: comparePeople(line, before, plan) };
}

/**
 * "proved": whatever is shown is proved least, and nothing was left out. "infeasible": something asked for cannot go, or neither the
 * line nor any choice has a plan.
 */
function outcomeOf(before: OffLinePlan, choices: Choices): OffLineAnswer["outcome"] {
  const { asked, together, blocks, sets } = choices;
  const rated = [...(asked ?? []).map((each) => each.rated), ...(blocks ?? [])];
  if (asked?.some((each) => each.rated === null)) return "infeasible";
  const plans = [
    before,
    together?.plan,
    ...rated.map((each) => each?.plan),
    ...(sets ?? []).map((each) => each.plan),
  ].filter((plan) => plan !== null && plan !== undefined);
  const balanced = plans.filter(({ plan }) => plan !== null);
  if (balanced.length === 0) {
    return plans.some(({ outcome }) => outcome === "stopped") || choices.leftOut > 0
      ? "stopped"
      : "infeasible";
  }
  const isWhole = choices.isWhole && choices.leftOut === 0 && choices.setsEnded === "whole";
  const isProved = plans.every(({ outcome }) => outcome === "proved" || outcome === "infeasible");
  const isAll = rated.every((each) => each?.plan !== null);
  return isWhole && isProved && isAll ? "proved" : "found";
}

/** More rows than these say nothing new. */
const MOST_ROWS = 4;

/** The same bench on one shift a day and more, as many as a day has room for, and those of the line and of the bench itself. */
export function otherHoursOf(line: Line, pace: Pace, bench: BenchFigures): OtherHours[] {
  const { shifts } = bench.hours;
  if (line.calendar === null || shifts === null) return [];
  const most = Math.min(MOST_ROWS, mostShifts(line.calendar!));
  const counts = new Set([shiftsOf(line), shifts]);
  for (let count = 1; count <= most; count++) counts.add(count);
  return [...counts]
    .sort((one, two) => one - two)
    .map((count) => ({ bench: atShifts(line, pace, bench, count), isChosen: count === shifts }));
}
