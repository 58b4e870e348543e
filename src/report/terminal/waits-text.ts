import type { BalanceAnswer } from "../../answer/balance/balance-answer.js";
import { visibleText } from "../../findings/visible-text.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { decimal, longTime } from "../../time/show-values.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { type Column, formatTable } from "./table.js";

/** Units that only wait between two tasks, the fixtures that hold them, and what that adds to the lead time. */
export function waitsText({ line, measures }: BalanceAnswer, look: Look): string {
  if (measures === null || measures.waiting === null || measures.leadTimeOfWaits === null) return "";
  const id = (task: number) => visibleText(line.tasks[task]!.id);
  const rows = measures.waiting.map(({ wait, units, fixtures }) => [
    `${id(wait.from)} -> ${id(wait.to)}`,
    longTime(wait.wait),
    decimal(units, 2),
    String(fixtures),
  ]);
  const columns: Column[] = [
    { head: "between", wraps: true, narrowest: 8 },
    { head: "wait", align: "right" },
    { head: "units", align: "right" },
    { head: "fixtures", align: "right" },
  ];
  const show = showTimesIn(line.unit);
  const added = `Waiting takes nobody's time; it adds ${show(measures.leadTimeOfWaits)} to the lead time.`;
  return `${formatTable(columns, rows, look.width)}${paragraph(added, look)}`;
}
