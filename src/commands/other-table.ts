import type { Finding } from "../findings/finding.js";
import { holdsOrders } from "../import-tables/read-orders.js";
import { holdsTasks } from "../import-tables/task-columns.js";
import { holdsReadings } from "../study/read-readings-table.js";
import { findingAt, type Table } from "../table/table.js";

const HELD = [
  { holds: holdsReadings, by: "study", what: "stopwatch readings", read: (file: string) => `study ${file}` },
  {
    holds: holdsTasks,
    by: "import",
    what: "tasks with their times",
    read: (file: string) => `import ${file}`,
  },
  {
    holds: holdsOrders,
    by: "order",
    what: "the orders in which units were built",
    read: (file: string) => `order LINE --from ${file}`,
  },
] as const;

/** Says of a table that another command reads what it is and which one; null where the asked one does, or none. */
export function findOtherTable(asked: (typeof HELD)[number]["by"], table: Table): Finding | null {
  const held = HELD.filter(({ holds }) => holds(table.rows));
  const [first] = held;
  if (first === undefined || held.some(({ by }) => by === asked)) return null;
  const message = `the table seems to hold ${first.what}; try: linepoise ${first.read(table.file)}`;
  return findingAt(table, table.rows[0]![0]!, { rule: "headings", severity: "error", message });
}
