import type { LoadChart } from "../answer/charts/load-chart.js";
import { visibleText } from "../findings/visible-text.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { left, type PlainTable, right } from "./plain-table.js";

/** Each task whose time varies: its mean, its spread (standard deviation), and what nine units in ten take no longer than; null where none does. */
export function varyingTimes({ line, rows }: LoadChart): PlainTable | null {
  const show = showTimesIn(line.unit);
  const cells = rows.flatMap(({ id, varying }) =>
    varying.map(({ task, time, deviation, nineInTen }) => [
      visibleText(line.tasks[task]!.id),
      visibleText(id),
      show(time),
      show(deviation),
      show(nineInTen),
    ]),
  );
  const columns = [
    left("task"),
    left("at"),
    right("mean per good unit"),
    right("spread"),
    right("nine in ten at most"),
  ];
  return cells.length === 0 ? null : { columns, rows: cells, rowsOf: "tasks" };
}
