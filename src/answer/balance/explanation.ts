import { allFollowers } from "../../line/reach.js";
import { visitsPerGoodUnit } from "../../line/visits.js";
import { unevenVisits } from "../../plan/figures/units-tested.js";
import { stationIds } from "../../plan/station-numbers.js";
import type { FillingStep } from "../../solve/fill-stations.js";
import { fromParts, loadsInParts } from "../../solve/parts.js";
import type { Ratio } from "../../time/ratio.js";
import type { BalanceAnswer, HowBalanced } from "./balance-answer.js";

/** How stations were filled, in the order in which somebody checks it by hand; times in microseconds. */
export interface Explanation {
  /** By task. */
  readonly tasks: readonly {
    readonly time: Ratio;
    /** All that come after it, each once. */
    readonly followers: readonly number[];
  }[];
  readonly rules: readonly ExplainedRule[];
  /** How often each task is done for a good unit; null where failures add none. */
  readonly visits: readonly Ratio[] | null;
}

export interface ExplainedRule {
  readonly name: string;
  /** What it ranks by, and where that was published. */
  readonly ranks: string;
  readonly source: string;
  /** By task: a time, or a count as people read it. */
  readonly scores: readonly Score[];
  /** Task numbers, the first to be placed first. */
  readonly order: readonly number[];
  readonly steps: readonly ExplainedStep[];
  /** Null where the ranking ran into a rule of the line. */
  readonly stations: number | null;
  /** Tasks that then found no station. */
  readonly unplaced: readonly number[];
}

export type Score =
  | { readonly kind: "time"; readonly time: Ratio }
  | { readonly kind: "count"; readonly count: number };

/** Tasks that share a station by a rule, or one alone, and what they take together. */
export interface TimedBlock {
  readonly tasks: readonly number[];
  readonly time: Ratio;
}

export type ExplainedStep =
  | {
      readonly kind: "place";
      /** Station id. */
      readonly station: string;
      readonly block: TimedBlock;
      /** It is longer than what its empty station may hold, so it stands alone. */
      readonly isOver: boolean;
      readonly freeBefore: Ratio;
      readonly freeAfter: Ratio;
      readonly passedOver: readonly TimedBlock[];
      /** Each of those passed over takes longer than what was free; else something but time keeps them out. */
      readonly isTooLong: boolean;
    }
  | {
      readonly kind: "close";
      readonly station: string;
      readonly free: Ratio;
      readonly left: readonly TimedBlock[];
      /** The same of those left. */
      readonly isTooLong: boolean;
    };

/** What every rule did; null where none was asked to fill stations. */
export function explainBalance(answer: BalanceAnswer): Explanation | null {
  const { line } = answer;
  const balance = answer.balance ?? answer.tried;
  if (balance === null) return null;
  const uneven = unevenVisits(line).length > 0;
  const followers = allFollowers(line.before);
  return {
    tasks: balance.ranked.times.map((time, task) => ({
      time: fromParts(line, time),
      followers: followers.list(task),
    })),
    rules: balance.rules.map((run) => explainRule(answer, run)),
    visits: uneven ? line.tasks.map((task) => visitsPerGoodUnit(line, task)) : null,
  };
}

function explainRule(answer: BalanceAnswer, run: HowBalanced["rules"][number]): ExplainedRule {
  const { line, rules } = answer;
  const { rule, order, steps, stations } = run;
  const { as, lowFirst } = rule.reads;
  const loads = loadsInParts(line);
  const blockOf = (task: number) => rules?.blocks.find((tasks) => tasks.includes(task)) ?? [task];
  const loadOf = (task: number) => blockOf(task).reduce((sum, each) => sum + loads[each]!, 0);
  const timed = (task: number): TimedBlock => {
    const tasks = blockOf(task);
    return { tasks, time: fromParts(line, loadOf(task)) };
  };
  const areAbove = (tasks: readonly number[], free: number) => tasks.every((task) => loadOf(task) > free);
  const explained = (step: FillingStep): ExplainedStep => {
    const station = stationIds(line, [step.station])[0]!;
    if (step.step === "close")
      return {
        kind: "close",
        station,
        free: fromParts(line, step.free),
        left: step.left.map(timed),
        isTooLong: areAbove(step.left, step.free),
      };
    return {
      kind: "place",
      station,
      block: timed(step.task),
      isOver: loads[step.task]! > step.freeBefore,
      freeBefore: fromParts(line, step.freeBefore),
      freeAfter: fromParts(line, step.freeAfter),
      passedOver: step.passedOver.map(timed),
      isTooLong: areAbove(step.passedOver, step.freeBefore),
    };
  };
  const placed = new Set(steps.flatMap((step) => (step.step === "place" ? blockOf(step.task) : [])));
  return {
    name: rule.name,
    ranks: rule.ranks,
    source: rule.source,
    scores: run.scores.map(
      (score): Score =>
        as === "time"
          ? { kind: "time", time: fromParts(line, score) }
          : { kind: "count", count: lowFirst ? -score : score },
    ),
    order,
    steps: steps.map(explained),
    stations: stations?.length ?? null,
    unplaced: stations === null ? [...loads.keys()].filter((task) => !placed.has(task)) : [],
  };
}
