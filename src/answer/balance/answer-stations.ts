import { countOf } from "../../findings/count-of.js";
import { type Finding, finding } from "../../findings/finding.js";
import { type Line, mayDouble, withoutPlanTo } from "../../line/line.js";
import { limitsPerShift, unitsPerShift } from "../../line/parts/limits.js";
import { heldCycle } from "../../plan/figures/held-cycle.js";
import { stationLimit, stationTime } from "../../plan/figures/working-time.js";
import { measurePlan, measureShifts, measureStations } from "../../plan/measure.js";
import { type Post, postsOf } from "../../plan/post.js";
import { floorStationOf } from "../../plan/station-numbers.js";
import type { BalancingOptions } from "../../solve/balance.js";
import { type FixedStations, fixStations } from "../../solve/fix-stations.js";
import { DEFAULT_NODES } from "../../solve/methods.js";
import type { Pace } from "../../time/pace.js";
import { compare, ONE, ZERO } from "../../time/ratio.js";
import { showTimesApart } from "../../time/show-in-unit.js";
import { percent } from "../../time/show-values.js";
import type { TaktSum } from "../../time/takt.js";
import { answerModels } from "./answer-models.js";
import { type BalanceAnswer, EMPTY_ANSWER } from "./balance-answer.js";
import { findPaceNeeds } from "./find-pace-needs.js";
import { findRounding } from "./find-rounding.js";
import { findBehindFloor, findShopNotes } from "./find-shop-notes.js";
import { paceFromPlan, rateStations } from "./rate-stations.js";

/**
 * The best cycle that so many stations can keep, and what it gives beside one station more and one fewer: the whole answer of
 * `balance --stations`. The plan sets the pace; the demand, where there is one, is only compared.
 *
 * @param count a whole number from 1 to the number of tasks
 */
export async function answerStations(
  asked: Line,
  count: number,
  takt: TaktSum | null,
  options: Pick<BalancingOptions, "nodes" | "checkpoint">,
): Promise<BalanceAnswer> {
  const line = withoutPlanTo(asked);
  const nodes = options.nodes ?? Number.MAX_SAFE_INTEGER;
  const fixed = await fixStations(line, count, nodes, options.checkpoint);
  if (fixed.plan === null) {
    const stations = `${countOf(count, "station")} or fewer, one place each, keeps the rules of the line`;
    return fixed.isProved
      ? noAnswer(line, takt, options, "infeasible", `no plan with ${stations}`)
      : noAnswer(
          line,
          takt,
          options,
          "stopped",
          `no plan with ${stations}, as far as was looked; whether there is one is open`,
        );
  }
  const pace = paceFromPlan(fixed, line.handling, takt?.takt ?? null);
  const models = answerModels(line, pace, fixed.plan);
  const measures = measurePlan(line, pace, fixed.plan);
  const outputCycle = heldCycle(line, fixed.plan, pace.lineCycle);
  return {
    ...EMPTY_ANSWER,
    line: asked,
    pace,
    takt,
    outcome: fixed.proved ? "proved" : "found",
    plan: fixed.plan,
    stations: measureStations(line, pace, fixed.plan),
    measures: {
      ...measures,
      outputCycle,
      ...measureShifts(line, pace, measures.idlePerUnit, outputCycle),
    },
    bound: {
      stations: null,
      cycleOfPlan: fixed.cycleBound,
      people: null,
      isOfPeople: false,
      kind: fixed.kind,
      reason: { kind: "cycle", cycle: fixed.reason },
      within: fixed.within,
    },
    rates: await rateNeighbours(line, fixed, options),
    search: { nodes: fixed.nodes, nodeLimit: options.nodes, ended: fixed.ended },
    findings: [
      ...findFewer(line, fixed),
      ...findShiftLimits(asked),
      ...findSlowness(asked, fixed, takt),
      ...findPaceNeeds(line, pace, fixed.plan),
      ...findBehindFloor(line, fixed.plan),
      ...findShopNotes(line, pace, fixed.plan, models),
      ...findRounding(line, fixed.within, "a cycle shorter by less than that is not ruled out"),
    ],
    models,
  };
}

function noAnswer(
  line: Line,
  takt: TaktSum | null,
  options: Pick<BalancingOptions, "nodes">,
  outcome: "infeasible" | "stopped",
  message: string,
): BalanceAnswer {
  return {
    ...EMPTY_ANSWER,
    line,
    pace: takt?.pace ?? {
      takt: null,
      lineCycle: ZERO,
      handling: line.handling,
      planTo: ONE,
      workingTime: ZERO,
      stationLimit: ZERO,
    },
    takt,
    outcome,
    search: { nodes: 0, nodeLimit: options.nodes, ended: null },
    findings: [
      finding({
        rule: outcome === "infeasible" ? "no-plan" : "no-plan-found",
        severity: "error",
        message,
        file: line.file,
        fact: { kind: "no-plan" },
      }),
    ],
  };
}

/** One station fewer, this many, one more, each number of stations once: a plan may need fewer than are allowed. After Ctrl-C this many only. */
async function rateNeighbours(
  line: Line,
  fixed: FixedStations,
  options: Pick<BalancingOptions, "nodes" | "checkpoint">,
) {
  const rates = [rateStations(line, fixed)];
  for (const count of [fixed.count - 1, fixed.count + 1]) {
    const stopped = fixed.ended === "interrupted" || fixed.ended === "time";
    if (count < 1 || count > line.tasks.length || stopped) continue;
    const other = await fixStations(line, count, options.nodes ?? DEFAULT_NODES, options.checkpoint);
    if (other.plan === null) continue;
    const rate = rateStations(line, other);
    if (rates.every(({ stations }) => stations !== rate.stations)) rates.push(rate);
  }
  return rates.sort((one, two) => one.stations - two.stations);
}

/** Whether some of the stations asked for are of no use. */
function findFewer(line: Line, { count, plan, proved }: FixedStations): Finding[] {
  const used = plan?.stations.length ?? count;
  if (used >= count) return [];
  const why = proved ? "no more of them bring a shorter cycle" : "no shorter cycle was found with more";
  const message = `${count} stations were asked for; the plan uses ${used}, as ${why}`;
  return [finding({ rule: "fewer-stations", severity: "warning", message, file: line.file })];
}

/** At which units limits per shift are held, as the plan sets its own pace. */
function findShiftLimits(line: Line): Finding[] {
  const names = limitsPerShift(line);
  if (names.length === 0 || unitsPerShift(line) === null) return [];
  const message = `${names.join(", ")}: held at the units that the demand asks of the longest shift, whatever the plan could make`;
  return [finding({ rule: "limits-at-demand", severity: "note", message, file: line.file })];
}

/** Whether the demand needs a shorter cycle, or one that keeps no reserve. */
function findSlowness(line: Line, fixed: FixedStations, takt: TaktSum | null): Finding[] {
  if (takt === null) return [];
  const pace = paceFromPlan(fixed, line.handling, null);
  const [keeps, asked] = showTimesApart(line.unit, pace.lineCycle, takt.pace.lineCycle);
  const count = fixed.plan?.stations.length ?? fixed.count;
  const each = mayDouble(line) ? ", one place each," : "";
  const stations = `${count} ${count === 1 ? "station" : "stations"}${each} ${count === 1 ? "has" : "have"} a cycle of ${keeps}`;
  const warn = (rule: string, message: string) => [
    finding({ rule, severity: "warning", message, file: line.file }),
  ];
  if (compare(pace.lineCycle, takt.pace.lineCycle) > 0) {
    return warn("slower-than-demand", `${stations}; the demand needs a line cycle of ${asked}`);
  }
  const posts = fixed.plan === null ? [] : postsOf(line, takt.pace, fixed.plan);
  const above = posts.flatMap((post) => aboveLimit(line, takt.pace, post));
  if (above.length === 0) return [];
  const shown = above.slice(0, NAMED).join("; ");
  const more = above.length > NAMED ? `; and ${countOf(above.length - NAMED, "station")} more` : "";
  return warn("no-reserve", `${stations}; that meets the demand, but ${shown}${more}`);
}

/** Stations above their limit that a warning names. */
const NAMED = 4;

/** What a station takes beside the limit that it would have at the pace of the demand, by its own plan-to or that of the line. */
function aboveLimit(line: Line, pace: Pace, station: Post): string[] {
  const [takes, limit] = [stationTime(station), stationLimit(station, pace.lineCycle)];
  if (compare(takes, limit) <= 0) return [];
  const [taken, may] = showTimesApart(line.unit, takes, limit);
  const own = floorStationOf(line, station.id)?.planTo ?? null;
  const whose = own === null ? `${percent(pace.planTo, 4)} plan-to` : `its own plan-to of ${percent(own, 4)}`;
  return [`${station.id} takes ${taken}, more than ${may} (${whose})`];
}
