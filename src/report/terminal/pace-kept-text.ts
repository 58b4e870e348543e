import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import { visibleText } from "../../findings/visible-text.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { difference } from "../../time/show-numbers.js";
import { chanceBeside, decimal, percent } from "../../time/show-values.js";
import { left, type PlainTable, right } from "../plain-table.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { formatTable } from "./table.js";

/** How far each station may be loaded where its times vary, with what is asked; null where nothing is. */
export function paceKept({
  line,
  stations,
}: ShownBalance): { readonly table: PlainTable; readonly words: string } | null {
  const show = showTimesIn(line.unit);
  const kept = stations.flatMap((station) =>
    station.paceKept === null ? [] : [{ ...station, ...station.paceKept }],
  );
  const [first] = kept;
  if (first === undefined) return null;
  const isAlike = kept.every(({ asked }) => difference(asked.chance, first.asked.chance) === 0);
  const isByModel = kept.some(({ model }) => model !== null);
  const rows = kept.map((each) => [
    visibleText(each.id),
    ...(isAlike ? [] : [percent(each.asked.chance, 4), decimal(each.asked.score, 10)]),
    ...(isByModel ? [visibleText(each.model ?? "-")] : []),
    show(each.mean),
    show(each.deviation),
    show(each.needed),
    show(each.workingTime),
    percent(each.planTo),
    chanceBeside(each.chance, each.asked.chance),
  ]);
  const columns = [
    left("station"),
    ...(isAlike ? [] : [right("asked"), right("z")]),
    ...(isByModel ? [left("model")] : []),
    right("time"),
    right("deviation"),
    right("time + z x deviation"),
    right("working time"),
    right("plan-to"),
    right("chance"),
  ];
  const asked = isAlike
    ? `Each station is to stay within its working time with ${percent(first.asked.chance, 4)}: z = ${decimal(first.asked.score, 10)}. `
    : "";
  const model = isByModel
    ? "Each model is to stay within it; the one that needs most is shown, with its time. "
    : "";
  const words = `${asked}${model}Times count as normal and independent. The plan-to is an answer here: time / working time. Loads, the cycle and the output that is possible are those of mean times.`;
  return { table: { columns, rows, rowsOf: "stations" }, words };
}

/** The same on a terminal; empty where nothing is asked. */
export function paceKeptText(answer: ShownBalance, look: Look): string {
  const kept = paceKept(answer);
  if (kept === null) return "";
  return `${formatTable(kept.table.columns, kept.table.rows, look.width)}${paragraph(kept.words, look)}`;
}
