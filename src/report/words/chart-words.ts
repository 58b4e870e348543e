import type { LoadChart } from "../../answer/charts/load-chart.js";
import type { ChartRowOf, ChartTask, StationChart } from "../../answer/show/station-chart.js";
import { countPeople } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import { showTimesApart, showTimesIn } from "../../time/show-in-unit.js";
import { difference, isOne } from "../../time/show-numbers.js";
import { percent } from "../../time/show-values.js";

export const LETTERS = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";

/** The letter of a task in the picture, again from the first where there are too many. */
export const letterOf = (at: number): string => LETTERS[at % LETTERS.length]!;

/** Which unit it is, how often one comes, how long it stands and may stand. */
export function unitWords({ line, model, share, due, notDue, ...chart }: StationChart): string {
  const { interval, dwell, standingLimit, handOver, holds, places } = chart;
  const [every, stands, most] = showTimesApart(line.unit, interval, dwell, standingLimit);
  const which = model === null ? "A unit" : `A unit of ${line.models[model]!.id}`;
  const seldom = [
    ...due.map((each) => `with the work of every ${each} units`),
    ...notDue.map((each) => `without the work of every ${each} units`),
  ];
  const alike = isOne(share) ? "" : ` (${percent(share)} of the units)`;
  const place = places === 1 ? "comes" : "comes to each place";
  const room = holds === 1 ? "" : `, as a place has room for ${holds} units`;
  const long = difference(dwell, standingLimit) > 0 ? "; that is too long unless others stand shorter" : "";
  const handed =
    handOver === null
      ? ""
      : ` Handing its parts over to the line takes ${showTimesIn(line.unit)(handOver)} more, which is not drawn.`;
  return `${[which, ...seldom].join(" ")}${alike} stands ${stands}. One ${place} every ${every}, and may stand ${most} on average${room}${long}.${handed}`;
}

/** What a row of the picture stands for. */
export function rowWords(line: Line, of: ChartRowOf): string {
  switch (of.kind) {
    case "crew":
      return of.people === 1 ? "person" : countPeople(of.people);
    case "person":
      return `person ${of.number}`;
    case "side":
      return of.side;
    case "machine":
      return `machine for ${visibleText(line.tasks[of.task]!.id)}`;
    case "equipment":
      return visibleText(of.name);
    case "unit":
      return `unit ${of.number}`;
  }
}

/** Who does a task: a side, or persons by their numbers; nothing where all work together. */
export function whoWords({ who }: Pick<ChartTask, "who">): string {
  if (who === null) return "";
  if (typeof who === "string") return who;
  return who.length === 1 ? `person ${who[0]}` : `persons ${listOf(who.map(String))}`;
}

/** Names in a sentence before the rest is counted. */
const NAMED = 6;

/** What a picture of the loads leaves out: benches work hours and paces of their own. Null without any. */
export function benchesLeftOutWords({ plan }: LoadChart): string | null {
  const ids = [...new Set((plan.benches ?? []).map(({ id }) => visibleText(id)))];
  if (ids.length === 0) return null;
  const more = ids.length > NAMED ? [`${ids.length - NAMED} more`] : [];
  const [benches, stand, are] = ids.length === 1 ? ["bench", "stands", "is"] : ["benches", "stand", "are"];
  const named = listOf([...ids.slice(0, NAMED), ...more]);
  return `The ${benches} ${named} ${stand} beside the line and ${are} not drawn.`;
}
