import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { difference } from "../../time/show-numbers.js";
import { chanceBeside, decimal, percent } from "../../time/show-values.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { type Column, formatTable } from "./table.js";

/** How far each station may be loaded where its times vary, with what is asked; empty where nothing is. */
export function paceKeptText({ line, stations }: ShownBalance, look: Look): string {
  const show = showTimesIn(line.unit);
  const kept = stations.flatMap((station) =>
    station.paceKept === null ? [] : [{ ...station, ...station.paceKept }],
  );
  const [first] = kept;
  if (first === undefined) return "";
  const isAlike = kept.every(({ asked }) => difference(asked.chance, first.asked.chance) === 0);
  const rows = kept.map((each) => [
    each.id,
    ...(isAlike ? [] : [percent(each.asked.chance, 4), decimal(each.asked.score, 10)]),
    show(each.stationTime),
    show(each.deviation),
    show(each.needed),
    show(each.workingTime),
    percent(each.planTo),
    chanceBeside(each.chance, each.asked.chance),
  ]);
  const right = (head: string): Column => ({ head, align: "right" });
  const columns: Column[] = [
    { head: "station" },
    ...(isAlike ? [] : [right("asked"), right("z")]),
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
  const words = `${asked}Times count as normal and independent. The plan-to is an answer here: time / working time.`;
  return `${formatTable(columns, rows, look.width)}${paragraph(words, look)}`;
}
