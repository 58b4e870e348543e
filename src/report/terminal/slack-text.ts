import type { PaceKept, Slack, StationSlack, TaskSlack } from "../../answer/rebalance/slack.js";
import { countOf } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import { showTimesDownIn, showTimesIn } from "../../time/show-in-unit.js";
import { decimal, percentDown } from "../../time/show-values.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { formatTable } from "./table.js";

/** Stations that are shown at the most; the others are in --json. */
const SHOWN = 40;

/** A row a station, the one that gives way first in front. */
export function slackText(slack: Slack, look: Look): string {
  const { line, tightest, hasReserve } = slack;
  if (tightest.length === 0) return "";
  const shown = tightest.slice(0, SHOWN);
  const rows = shown.map(({ id, kept, keptWithinLimit, tightest: task }) => [
    visibleText(id),
    `${keptWords(line, kept)}${BECAUSE[kept.givesWay ?? "load"]}`,
    kept.growth === null ? "" : percentDown(kept.growth),
    ...(hasReserve ? [keptWords(line, keptWithinLimit)] : []),
    task === null ? "" : taskWords(line, task),
  ]);
  const table = formatTable(
    [
      { head: "station" },
      { head: "keeps", align: "right", breaks: true },
      { head: "growth", align: "right" },
      ...(hasReserve ? [{ head: "within limit", align: "right", breaks: true } as const] : []),
      { head: "its tightest task", wraps: true },
    ],
    rows,
    look.width,
  );
  return `${table}${paragraph(meaning(slack, tightest.slice(SHOWN)), look)}`;
}

function meaning(
  { line, hasReserve, tightest, faultsAtAnyPace: faults }: Slack,
  others: readonly StationSlack[],
): string {
  const pace = line.demand === null ? "the shortest line cycle" : "the highest demand";
  const limit = hasReserve ? `; within limit: ${pace} that keeps to the station limit as well` : "";
  const above = tightest.slice(0, SHOWN).filter(({ isAboveAlone }) => isAboveAlone);
  const alone =
    above.length === 0
      ? ""
      : ` (a task alone, as at ${listOf(above.map(({ id }) => visibleText(id)))}, may take all of the working time)`;
  const [next] = others;
  const rest =
    next === undefined
      ? ""
      : ` ${countOf(others.length, "more station")} ${others.length === 1 ? "keeps" : "keep"} ${keptWords(line, next.kept)} or better: see --json.`;
  const what = faults === 0 ? "that check passes" : "at which check does not find the station overloaded";
  const beside =
    faults === 0 ? "" : ` At any pace check finds ${countOf(faults, "other error")} in this plan.`;
  return `keeps: ${pace} ${what}${limit}${alone}.${beside}${rest}`;
}

const BECAUSE: Readonly<Record<NonNullable<PaceKept["givesWay"]>, string>> = {
  load: "",
  "keep-pace": " (its times vary)",
  dwell: " (dwell)",
  limit: " (a limit)",
  "model-overload": " (a model)",
  machine: " (machines)",
  pace: " (handling)",
};

function keptWords(line: Line, { demand, lineCycle, givesWay }: PaceKept): string {
  if (lineCycle === null) return givesWay === null ? "any" : "none";
  return demand === null
    ? showTimesIn(line.unit)(lineCycle)
    : `${decimal(demand, 6)} per ${line.demand!.period}`;
}

function taskWords(line: Line, { task, time, growth }: TaskSlack): string {
  const [show, down] = [showTimesIn(line.unit), showTimesDownIn(line.unit)];
  const changed = down(growth!);
  const words = changed.startsWith("-") ? `${changed.slice(1)} less` : `${changed} more`;
  return `${visibleText(line.tasks[task]!.id)} (${show(time)}): ${words}`;
}
