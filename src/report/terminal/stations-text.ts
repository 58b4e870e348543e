import { visibleText } from "../../findings/visible-text.js";
import type { BalanceAnswer } from "../../off-line/balance-answer.js";
import type { StationMeasures } from "../../plan/measure.js";
import { compare, multiply, ONE, type Ratio, ratio, toDecimal } from "../../time/ratio.js";
import { showTimesIn, showTimesRoughlyIn } from "../../time/show-in-unit.js";
import { percent } from "../../time/show-values.js";
import { type Look, paintFor } from "./style.js";
import { type Column, formatTable } from "./table.js";

/** Below this many columns the bars make room for the tasks. */
const ROOM_FOR_BARS = 72;

/** One row a station: its tasks in order of work, station time, load against the limit, idle time. */
export function stationsText({ line, measures, stations }: BalanceAnswer, look: Look): string {
  if (measures === null) return "";
  const [show, showIdle, paint] = [showTimesIn(line.unit), showTimesRoughlyIn(line.unit), paintFor(look)];
  const bars = look.width >= ROOM_FOR_BARS ? Math.min(30, Math.floor(look.width / 7)) : 0;
  const columns: Column[] = [
    { head: "station" },
    { head: "tasks in order of work", wraps: true },
    { head: "time", align: "right" },
    { head: bars > 0 ? "load against the limit" : "load", align: bars > 0 ? "left" : "right" },
    { head: "idle", align: "right" },
  ];
  const rows = stations.map((station) => [
    `${station.id}${station.id === measures.slowestStation ? " *" : ""}`,
    station.tasks.map((task) => visibleText(line.tasks[task]!.id)).join(", "),
    show(station.stationTime),
    `${bars > 0 ? `${loadBar(station.load, bars)} ` : ""}${percent(station.load).padStart(7)}`,
    showIdle(station.idle),
  ]);
  const table = formatTable(columns, rows, look.width, (text, row, column) => {
    if (row < 0) return paint.faint(text);
    if (column === 0) return paint.strong(text);
    return column === 3 ? paintLoad(stations[row]!, text, paint) : text;
  });
  return `${table}  * the slowest station\n`;
}

/** A bar of `length` for a full station; what a task alone takes beyond the limit is shown by an arrow. */
function loadBar(load: Ratio, length: number): string {
  if (compare(load, ONE) > 0) return `${"■".repeat(length - 1)}▶`;
  const filled = Number(toDecimal(multiply(load, ratio(length)), 0));
  return "■".repeat(filled) + "·".repeat(length - filled);
}

function paintLoad(station: StationMeasures, text: string, paint: ReturnType<typeof paintFor>): string {
  if (compare(station.load, ONE) > 0) return paint.bad(text);
  return compare(station.load, ratio(3, 4)) < 0 ? paint.warn(text) : paint.good(text);
}
