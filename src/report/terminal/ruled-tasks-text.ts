import type { TaskWindow } from "../../answer/balance/answer-rules.js";
import type { BalanceAnswer } from "../../answer/balance/balance-answer.js";
import type { Explanation } from "../../answer/balance/explanation.js";
import { visibleText } from "../../findings/visible-text.js";
import { decimal } from "../../time/show-values.js";
import { headed, paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { type Column, formatTable } from "./table.js";

/** What the line says of single tasks beyond times and arrows: people, visits, where they may stand. A part or none. */
export function ruledTasksText(
  { line, rules }: BalanceAnswer,
  { visits }: Explanation,
  look: Look,
): string[] {
  const windows = rules?.windows ?? null;
  const columns: (Column & { readonly of: (task: number) => string })[] = [
    { head: "task", givesWay: true, of: (task) => visibleText(line.tasks[task]!.id) },
  ];
  if (line.tasks.some(({ people }) => people > 1)) {
    columns.push({ head: "people", align: "right", of: (task) => String(line.tasks[task]!.people) });
  }
  if (visits !== null) {
    columns.push({
      head: "visits",
      align: "right",
      of: (task) => decimal(visits[task]!, 4),
    });
  }
  if (windows !== null) {
    const words = (task: number) => visibleText(windowWords(windows[task]!, line.floor.length));
    columns.push({ head: "may stand at", wraps: true, narrowest: 8, of: words });
  }
  if (columns.length === 1) return [];
  const rows = line.tasks.map((_, task) => columns.map((column) => column.of(task)));
  const about = windows === null ? "" : paragraph(WINDOWS, look);
  const table = formatTable(columns, rows, look.width);
  return [headed("what else is said of the tasks", `${table}${about}`, look)];
}

const WINDOWS =
  "May stand at: by fixed stations, zones, skills, equipment, together, waits, the order of work, and apart where that order or a fixed station settles it; the time that stations have is not counted.";

function windowWords({ stations, behind }: TaskWindow, onFloor: number): string {
  if (stations.length === 0 && behind === null) return "no station";
  const floor = stations.length === onFloor && onFloor > 0 ? "the whole floor" : stations.join(", ");
  if (behind === null) return floor;
  return `${floor === "" ? "" : `${floor}, `}${behind} and later`;
}
