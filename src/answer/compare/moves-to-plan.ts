import type { Line } from "../../line/line.js";
import { peopleOf } from "../../plan/figures/people.js";
import type { Plan } from "../../plan/plan.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Pace } from "../../time/pace.js";
import { matchStations, movesBetween } from "../rebalance/match-stations.js";
import { TradeOffs } from "../rebalance/trade-offs.js";
import type { OptionMoves } from "./option-answer.js";

/** What stays on the line in an option, with its plan and the pace that it keeps; tasks by their numbers in what stays. */
export interface BuiltOnLine {
  readonly line: Line;
  readonly pace: Pace;
  readonly plan: Plan;
  /** By task number of what stays its number in the whole line. */
  readonly kept: readonly number[];
}

/** The search for the fewest moves of an option may look at so much less than its balance. */
const SHARE = 10;

/** Moves from today's plan, and the plan of what stays on the line that they lead to. */
interface MovesToPlan {
  readonly moves: OptionMoves;
  readonly plan: Plan;
}

/**
 * The fewest tasks that change their station or bench, or go from one to the other, on the way from today's plan to one of the option
 * with as many people and stations: the given plan where no other takes fewer. Stations are matched as `rebalance` matches them, benches
 * by what is built there.
 */
export async function fewestMovesTo(
  whole: Line,
  today: Plan,
  to: Plan,
  built: BuiltOnLine,
  search: { readonly nodes: number; readonly checkpoint: Watch },
): Promise<MovesToPlan> {
  const { line, pace, plan, kept } = built;
  const own = movesBetween(whole, today, to).length;
  const beside = movesAtBenches(whole, today, to);
  const asGiven = (outcome: OptionMoves["outcome"]) => ({ moves: { count: own + beside, outcome }, plan });
  if (verifyPlan(line, pace, plan, false).length > 0) return asGiven("found");
  const numberOf = new Map(kept.map((task, at) => [task, at]));
  const stations = today.stations.map((station) => ({
    ...station,
    tasks: station.tasks.flatMap((task) => numberOf.get(task) ?? []),
    sides: null,
    persons: null,
  }));
  const nodes = Math.max(1, Math.floor(search.nodes / SHARE));
  const options = { ...search, nodes, strictLimit: false, maxMoves: null, keep: [] };
  const trading = new TradeOffs(line, pace, { stations }, plan, options);
  const row = await trading.withAtMost({ people: peopleOf(plan), stations: plan.stations.length });
  if (row === null || row.moves.length >= own)
    return asGiven(row?.moves.length === own ? row.outcome : "found");
  return { moves: { count: row.moves.length + beside, outcome: row.outcome }, plan: row.plan };
}

/** Tasks that go to a bench, come from one, or change it. */
function movesAtBenches(line: Line, from: Plan, to: Plan): number {
  const [before, after] = [benchesOf(from), benchesOf(to)];
  const atLine = (plan: Plan) => new Set(plan.stations.flatMap(({ tasks }) => tasks));
  const [onBefore, onAfter] = [atLine(from), atLine(to)];
  const off = after.stations.flatMap(({ tasks }) => tasks).filter((task) => onBefore.has(task));
  const on = before.stations.flatMap(({ tasks }) => tasks).filter((task) => onAfter.has(task));
  const matched = matchStations({ ...line, floor: [] }, before, after);
  const benchBefore = new Map(
    before.stations.flatMap(({ tasks }, at) => tasks.map((task) => [task, at] as const)),
  );
  const between = after.stations.flatMap(({ tasks }, at) =>
    tasks.filter((task) => benchBefore.has(task) && benchBefore.get(task) !== matched[at]),
  );
  return off.length + on.length + between.length;
}

const benchesOf = ({ benches }: Plan): Plan => ({ stations: benches ?? [] });
