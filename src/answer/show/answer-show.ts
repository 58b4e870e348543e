import { isOfSameThing } from "../../findings/finding.js";
import type { BenchOfPlan } from "../../plan/check/check-subject.js";
import { peopleOf } from "../../plan/figures/people.js";
import type { PlanMeasures } from "../../plan/measure.js";
import type { Plan } from "../../plan/plan.js";
import type { SearchOptions } from "../../solve/find-cheapest.js";
import { DEFAULT_METHOD, DEFAULT_NODES } from "../../solve/methods.js";
import type { Pace } from "../../time/pace.js";
import { compare } from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";
import { answerProof } from "../balance/answer-balance.js";
import { answerOfPlan } from "../balance/answer-of-plan.js";
import type { BalanceAnswer, LineSize } from "../balance/balance-answer.js";
import {
  type CheckOptions,
  type LineToCheck,
  PlanChecker,
  type ReadPlan,
} from "../balance/check-against-line.js";
import { findBehindFloor, findShopNotes } from "../balance/find-shop-notes.js";
import { solveBesideBenches } from "../balance/least-stations.js";

/** A plan that stands, as `balance` shows one. */
export interface StandingPlan {
  readonly answer: BalanceAnswer;
  readonly benches: readonly BenchOfPlan[];
}

/**
 * Everything that `balance` says of a plan, of one that stands, and what `check` finds of it.
 *
 * @param search to prove what the least is; null: nothing is searched, and nothing proved
 */
export async function answerShow(
  against: LineToCheck & { readonly takt: TaktSum | null },
  reading: ReadPlan,
  lineFile: string | null,
  search: SearchOptions | null,
): Promise<StandingPlan> {
  const { pace, takt } = against;
  const { policy } = against.line;
  // What the policy asks of the least takes a search as well.
  const asked =
    search === null ? { ...against.line, policy: { ...policy, maxAboveLeast: null } } : against.line;
  const checker = new PlanChecker(
    { ...against, line: asked },
    search === null ? NO_SEARCH : { ...search, nodes: search.nodes ?? DEFAULT_NODES },
  );
  const { line, plan, benches, checked } = await checker.check(reading, lineFile);
  const { stations, measures } = checked;
  const answer = answerOfPlan({ ...line, policy }, pace, takt, plan, { stations, measures });
  const ofPlan =
    measures === null
      ? []
      : [...findBehindFloor(line, plan), ...findShopNotes(line, pace, plan, answer.models)];
  const known = [...checker.lineFindings, ...checked.findings];
  const findings = [...known, ...ofPlan.filter((each) => !known.some((other) => isOfSameThing(other, each)))];
  const proof = search === null || measures === null ? {} : await proofBeside(answer, plan, pace, search);
  return { answer: { ...answer, findings, ...proof }, benches };
}

const NO_SEARCH: CheckOptions = { nodes: 0, checkpoint: () => null };

/** What a search from the plan proves of the least, and the smaller line that it found. */
async function proofBeside(
  answer: BalanceAnswer,
  plan: Plan,
  pace: Pace,
  search: SearchOptions,
): Promise<Partial<BalanceAnswer>> {
  const { line } = answer;
  const from = { ...plan, benches: [] };
  const options = { ...search, method: DEFAULT_METHOD, level: true, strictLimit: false, explain: false };
  const staffed = await solveBesideBenches(line, pace, plan, (rest) =>
    answerProof(rest, pace, { ...options, from: rest === line ? from : null }),
  );
  if (staffed === null || staffed.answer.plan === null) return {};
  const { answer: best, outcome } = staffed;
  const { bound, level, measures } = best;
  const standing = sizeOf(plan, answer.measures!);
  const found = sizeOf(best.plan!, measures!);
  const turn = compareSizes(found, standing);
  const isAsFew = found.people === standing.people && found.stations === standing.stations;
  return {
    bound,
    search: best.search,
    outcome: isAsFew && outcome === "proved" ? "proved" : "found",
    level: turn === 0 ? { ...level!, smoothness: "found" } : null,
    standing: { size: standing, better: turn < 0 ? found : null },
  };
}

const sizeOf = (plan: Plan, { cycleOfPlan }: PlanMeasures): LineSize => ({
  people: peopleOf(plan),
  stations: plan.stations.length,
  cycle: cycleOfPlan,
});

const compareSizes = (one: LineSize, two: LineSize): number =>
  one.people - two.people || one.stations - two.stations || compare(one.cycle, two.cycle);
