import type { BalanceAnswer } from "../../answer/balance/balance-answer.js";
import { countOf } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import type { UnfinishedBalance } from "../../solve/balance.js";
import type { StuckTask } from "../../solve/explain/find-stuck-tasks.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { difference } from "../../time/show-numbers.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { formatTable } from "./table.js";

/** How far a search came that found no plan, where it got stuck, and what to try. */
export function unfinishedText(
  { line, search }: BalanceAnswer,
  unfinished: UnfinishedBalance,
  look: Look,
): string {
  const { plan, left, stuck } = unfinished;
  const placed = line.tasks.length - left.length;
  const all = countOf(line.tasks.length, "task");
  const best = `The best partial plan places ${placed} of ${all} at ${countOf(plan.stations.length, "station")}. No station was found for:`;
  const shown = stuck.slice(0, MOST_SHOWN);
  const further = stuck.length - shown.length;
  const rows = [
    ...shown.map((each) => stuckWords(line, each)),
    ...(further > 0 ? [`and ${countOf(further, "further task")}: see --json`] : []),
  ].map((words) => ["-", visibleText(words)]);
  const list = formatTable([{ head: "" }, { head: "", wraps: true }], rows, look.width);
  const times = search.ended === "time" ? "more --seconds" : "more --nodes or --seconds";
  const held = stuck.some(({ stations }) => stations !== null) ? "; more stations for the tasks named" : "";
  return `${paragraph(best, look)}${list}${paragraph(`To try: ${times}; --from PLAN, a plan to start from${held}.`, look)}`;
}

const MOST_SHOWN = 10;

function stuckWords(line: Line, { task, stations, needs, room }: StuckTask): string {
  const { id } = line.tasks[task]!;
  const show = showTimesIn(line.unit);
  if (stations === null || room === null) {
    const where = line.floor.length === 0 ? "at any station" : "behind the floor, too";
    return `${id} takes ${show(needs)} and may stand ${where}`;
  }
  const ids = stations.map((station) => line.floor[station]!.id);
  const where = ids.length === 1 ? ids[0] : `${ids.slice(0, -1).join(", ")} or ${ids.at(-1)}`;
  const there = ids.length === 1 ? "" : " at one of them";
  const left =
    difference(room, needs) < 0
      ? `the most time left there is ${show(room)}`
      : `up to ${show(room)} is left${there}, so another rule keeps it out`;
  return `${id} takes ${show(needs)} and must stand at ${where}; ${left}`;
}
