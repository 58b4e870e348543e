import {
  planSeveralDemands,
  type SeveralDemandsAnswer,
  slackNearToday,
  withSlowBenches,
} from "../answer/rebalance/several-demands.js";
import { leftOut, SLACK } from "../answer/rebalance/way-there.js";
import { type Finding, hasErrors } from "../findings/finding.js";
import { severalDemandsJson } from "../report/json/several-demands-json.js";
import { severalDemandsText } from "../report/terminal/several-demands-text.js";
import { demandWords } from "../report/terminal/staff-words.js";
import { DEFAULT_NODES } from "../solve/methods.js";
import type { Demand } from "../time/demand.js";
import { namesSeveral, readDemandList } from "../time/demand-list.js";
import { plainDecimal } from "../time/show-values.js";
import { type Context, UsageError } from "./context.js";
import { refuseTogether } from "./emit.js";
import { emitResult } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import type { LoadedLine } from "./load-line.js";
import { besideBenches, loadPlan } from "./load-plan.js";
import { openTargets, type PlanTarget, savePlan, type WriteOptions } from "./save-plan.js";
import { nodeLimit, type SearchOptions, watchSearch } from "./watch-search.js";

export interface SeveralDemandsOptions extends WriteOptions, SearchOptions {
  readonly from: string;
  readonly cycle?: string;
  readonly demand?: string;
  readonly peopleAbove?: number;
  readonly strictLimit?: true;
}

/** What the place of the demand in the name of a plan file is called. */
const PLACE = "{demand}";

/** What leads to the same where several demands are asked for. */
const ASK_INSTEAD: Readonly<Record<string, string>> = {
  "--steps": `: write the plans with --write plan-${PLACE}.yaml, then ask for one change at a time, from one of these plans`,
};

/** The name of the plan file with its demand in it. Throws a UsageError where there is none. */
export function withDemandInName<Options extends WriteOptions>(
  options: Options,
  demand: Demand | null,
): Options {
  const { write } = options;
  if (write === undefined || !write.includes(PLACE)) return options;
  if (demand === null)
    throw new UsageError(`--write ${write}: a given line cycle has no demand to name the file by`);
  return { ...options, write: write.replaceAll(PLACE, plainDecimal(demand.units, 6)) };
}

/** Whether `--demand` names several; options that one demand alone, or several alone, can have are refused with the other. */
export function asksSeveral(
  { demand, peopleAbove }: SeveralDemandsOptions,
  ofOne: readonly (readonly [name: string, value: unknown])[],
): boolean {
  const isSeveral = demand !== undefined && namesSeveral(demand);
  if (!isSeveral && peopleAbove !== undefined)
    throw new UsageError('--people-above needs several demands, such as --demand "140, 165 per day"');
  const [wrong] = isSeveral ? ofOne.filter(([, value]) => value !== undefined) : [];
  if (wrong !== undefined)
    throw new UsageError(
      `${wrong[0]} is for one demand; --demand names several${ASK_INSTEAD[wrong[0]] ?? ""}`,
    );
  return isSeveral;
}

/** A plan for each of several demands, near to each other. */
export async function rebalanceSeveral(
  context: Context,
  path: string,
  options: SeveralDemandsOptions,
  loaded: LoadedLine,
): Promise<ExitStatus> {
  refuseTogether(["--cycle", options.cycle], ["--demand", options.demand]);
  const { line } = loaded;
  const demands = readDemandList(options.demand!, line.demand?.period ?? null);
  if (!demands.ok) throw new UsageError(`--demand: ${demands.problem}`);
  const from = await loadPlan(context, "rebalance", options.from, line, options);
  if (from === null) return EXIT_STATUS.wrongInput;
  const part = besideBenches(context, line, from);
  const targets = await openEach(context, path, options, demands.value);
  const watch = watchSearch(context, options.seconds);
  const planned = await planSeveralDemands(part.line, demands.value, part.plan, {
    nodes: nodeLimit(options) ?? DEFAULT_NODES,
    strictLimit: options.strictLimit === true,
    peopleAbove: options.peopleAbove ?? 0,
    checkpoint: watch.checkpoint,
  });
  watch.close();
  const answer = { ...withSlowBenches(planned, line, from), peopleAtBenches: part.peopleAtBenches };
  const told = [...findingsAt(answer), ...(context.interrupted() ? [leftOut("interrupted", SLACK)] : [])];
  if (!options.json) loaded.tell([...loaded.findings, ...told], false);
  for (const { demand, takt, balance } of context.interrupted() ? [] : answer.demands) {
    const target = targets.get(demand);
    if (target === undefined || takt === null || balance?.plan == null) continue;
    const plan = part.withBenches(balance.plan);
    await savePlan(context, target, { line: { ...line, demand }, pace: takt.pace, plan });
  }
  const near = answer.fromToday?.demand ?? demands.value[0]!;
  const slack = context.interrupted() ? null : slackNearToday(line, near, from, options.strictLimit === true);
  const json = () => severalDemandsJson(answer, options.from, options.seconds ?? null, slack);
  const text = () => severalDemandsText(answer, options.from, slack, context);
  await emitResult(context, { json, text, list: ["demands", "change.moves"] }, options);
  if (context.interrupted()) return EXIT_STATUS.interrupted;
  const isWhole = answer.demands.every(({ people }) => people !== null);
  return isWhole && !hasErrors(told) ? EXIT_STATUS.fine : EXIT_STATUS.answerIsNo;
}

/** Errors and warnings; what a plan has of its own is said with its demand, as the plans differ. */
function findingsAt({ demands }: SeveralDemandsAnswer): Finding[] {
  const all = demands.flatMap(({ demand, balance }) =>
    (balance?.findings ?? [])
      .filter(({ severity }) => severity !== "note")
      .map((each) => ({ each, at: balance!.plan && demandWords(demand) })),
  );
  const counts = new Map<string, number>();
  for (const { each } of all) counts.set(each.message, (counts.get(each.message) ?? 0) + 1);
  const seen = new Set<string>();
  return all.flatMap(({ each, at }) => {
    if (at === null) return [each];
    if (counts.get(each.message)! < demands.length)
      return [{ ...each, message: `at ${at}: ${each.message}` }];
    // The same at every demand.
    if (seen.has(each.message)) return [];
    seen.add(each.message);
    return [each];
  });
}

/** A file for the plan of each demand, checked before the long work; none where no plan is to be written. Throws a UsageError. */
async function openEach(
  context: Context,
  path: string,
  options: SeveralDemandsOptions,
  demands: readonly Demand[],
): Promise<Map<Demand, PlanTarget>> {
  const { write } = options;
  const targets = new Map<Demand, PlanTarget>();
  if (write === undefined) {
    await openTargets(context, path, options);
    return targets;
  }
  if (!write.includes(PLACE)) {
    const place = `write ${PLACE} where its number belongs, such as plan-${PLACE}.yaml`;
    throw new UsageError(`--write ${write}: each demand has a plan of its own; ${place}`);
  }
  for (const demand of demands) {
    const target = await openTargets(context, path, withDemandInName(options, demand));
    if (target !== null) targets.set(demand, target);
  }
  return targets;
}
