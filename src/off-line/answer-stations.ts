import { type Finding, finding } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import { measurePlan, measureStations } from "../plan/measure.js";
import type { BalanceOptions } from "../solve/balance.js";
import { explainLimitBound } from "../solve/explain-limit.js";
import { type FixedStations, fixStations } from "../solve/fix-stations.js";
import { DEFAULT_NODES } from "../solve/methods.js";
import { fromParts } from "../solve/parts.js";
import { add, compare, ratio } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { percent } from "../time/show-values.js";
import type { TaktSum } from "../time/takt.js";
import type { BalanceAnswer } from "./answer-balance.js";
import { paceOfPlan, rateStations } from "./rate-stations.js";

/**
 * The best cycle that so many stations can keep, and what it gives beside one station more and one fewer: the whole answer of
 * `balance --stations`. The plan sets the pace; the demand, where there is one, is only compared.
 *
 * @param count a whole number from 1 to the number of tasks
 */
export async function answerStations(
  line: Line,
  count: number,
  takt: TaktSum | null,
  options: Pick<BalanceOptions, "nodes" | "checkpoint">,
): Promise<BalanceAnswer> {
  const nodes = options.nodes ?? Number.MAX_SAFE_INTEGER;
  const fixed = await fixStations(line, count, nodes, options.checkpoint);
  const pace = paceOfPlan(fixed, line.handling, takt?.takt ?? null);
  const { certificate, slowestBound, nodes: looked, ended } = fixed.level;
  return {
    line,
    pace,
    takt,
    outcome: fixed.proved ? "proved" : "found",
    balance: null,
    plan: fixed.plan,
    stations: measureStations(line, pace, fixed.plan),
    measures: measurePlan(line, pace, fixed.plan),
    bound: {
      stations: null,
      cycleOfPlan: add(fromParts(line, slowestBound), ratio(line.handling)),
      kind: certificate.kind,
      reason: explainLimitBound(line, certificate),
    },
    level: null,
    rates: await rateNeighbours(line, fixed, options),
    gap: null,
    offLine: [],
    search: { nodes: looked, nodeLimit: options.nodes, ended },
    findings: findSlowness(line, fixed, takt),
  };
}

/** One station fewer, this many, one more; after Ctrl-C this many only. */
async function rateNeighbours(
  line: Line,
  fixed: FixedStations,
  options: Pick<BalanceOptions, "nodes" | "checkpoint">,
) {
  const rates = [rateStations(line, fixed)];
  for (const count of [fixed.count - 1, fixed.count + 1]) {
    const stopped = fixed.level.ended === "interrupted" || fixed.level.ended === "time";
    if (count < 1 || count > line.tasks.length || stopped) continue;
    const other = await fixStations(line, count, options.nodes ?? DEFAULT_NODES, options.checkpoint);
    rates.push(rateStations(line, other));
  }
  return rates.sort((one, two) => one.stations - two.stations);
}

/** Whether the demand needs a shorter cycle, or one that keeps no reserve. */
function findSlowness(line: Line, fixed: FixedStations, takt: TaktSum | null): Finding[] {
  if (takt === null) return [];
  const pace = paceOfPlan(fixed, line.handling, null);
  const show = showTimesIn(line.unit);
  const stations = `${fixed.count} ${fixed.count === 1 ? "station has" : "stations have"} a cycle of ${show(pace.lineCycle)}`;
  const warn = (rule: string, message: string) => [
    finding({ rule, severity: "warning", message, file: line.file }),
  ];
  if (compare(pace.lineCycle, takt.pace.lineCycle) > 0) {
    return warn(
      "slower-than-demand",
      `${stations}; the demand needs a line cycle of ${show(takt.pace.lineCycle)}`,
    );
  }
  if (compare(pace.workingTime, takt.pace.stationLimit) <= 0) return [];
  const limit = `${show(takt.pace.stationLimit)} (${percent(takt.pace.planTo)} plan-to)`;
  return warn(
    "no-reserve",
    `${stations}; that meets the demand, but the slowest station takes more than ${limit}`,
  );
}
