import { type Finding, finding } from "../findings/finding.js";
import { listOf } from "../findings/list-of.js";
import { idKey } from "../line/ids.js";
import type { Line, Task } from "../line/line.js";
import type { LineSource } from "../line/write/update-line.js";
import { readTable } from "../table/read-table.js";
import type { ExportedTasks } from "./export-tasks.js";
import { readTaskTable } from "./read-task-table.js";
import { tasksIntoLine } from "./tasks-into-line.js";

/** Tasks that are named before the rest is counted. */
const NAMED = 3;

/**
 * Reads an exported table as `import` does without any option, and holds its tasks against those of the line. A finding tells what is not as it
 * was, beside what was told to be left out. A table whose keys need others of the line is held against the line file, which must stay as it is.
 *
 * @param file what the table is called
 */
export async function checkExport(
  file: string,
  bytes: Uint8Array,
  source: LineSource,
  { leftOut }: ExportedTasks,
): Promise<Finding[]> {
  const { line } = source;
  const warn = (message: string): Finding[] => [
    finding({ rule: "not-read-back", severity: "warning", message, file: line.file }),
  ];
  const { table, findings } = await readTable(file, bytes);
  if (table === null) return warn(`import cannot read this table: ${findings[0]!.message}`);
  const {
    imported,
    findings: told,
    asLine,
  } = readTaskTable(table, {
    unit: null,
    columns: new Map(),
    ranges: false,
    nothing: [],
    others: [],
    hasOrders: false,
    models: line.models.map(({ id }) => id),
    decimals: null,
  });
  const { line: back, findings: ofLine } = asLine();
  const fault = [...told, ...ofLine].find(({ severity }) => severity === "error");
  if (imported === null) return warn(`import refuses this table: ${fault!.message}`);
  if (back === null) {
    const { updated } = tasksIntoLine(imported, source, asLine);
    return updated?.lines.length === 0
      ? []
      : warn(
          `no line can be made of this table alone, and import --into would change the line: ${fault!.message}`,
        );
  }
  const left = new Set(leftOut.flatMap(({ key, tasks }) => tasks.map((id) => `${key} ${idKey(id)}`)));
  const others = differingTasks(line, back, (key, id) => left.has(`${key} ${idKey(id)}`));
  if (others.length === 0) return [];
  const names = others.slice(0, NAMED).map(({ id, keys }) => `${id} (${keys.join(", ")})`);
  const more = others.length > names.length ? [`${others.length - names.length} more`] : [];
  return warn(
    `import reads other values of ${listOf([...names, ...more])} than the line has; look at these cells`,
  );
}

/** The tasks that are not the same in both lines, with the keys that differ. */
function differingTasks(
  line: Line,
  back: Line,
  isLeftOut: (key: string, id: string) => boolean,
): { readonly id: string; readonly keys: readonly string[] }[] {
  const numbers = new Map(back.tasks.map(({ id }, number) => [idKey(id), number]));
  return line.tasks.flatMap((task, number) => {
    const { id } = task;
    const found = numbers.get(idKey(id));
    if (found === undefined) return [{ id, keys: ["id"] }];
    const [was, is] = [valuesOf(line, number), valuesOf(back, found, line.models.length)];
    const keys = Object.keys(was).filter((key) => was[key] !== is[key] && !isLeftOut(key, id));
    return keys.length === 0 ? [] : [{ id, keys }];
  });
}

/** What a table says of a task, as text; times of one piece, once more for each model where the other line has several. */
function valuesOf(line: Line, number: number, models = 1): Readonly<Record<string, string>> {
  const task = line.tasks[number]!;
  const times = pieceTimes(task);
  const all = times.length === 1 ? Array(Math.max(1, models)).fill(times[0]) : times;
  const words = (list: readonly string[]) => list.map(idKey).sort().join("\n");
  return {
    name: task.name ?? "",
    time: all.join(" "),
    quantity: String(task.quantity),
    every: String(task.every),
    walking: String(task.walking),
    "machine-time": String(task.machineTime / task.quantity),
    people: String(task.people),
    zone: idKey(task.zone ?? ""),
    skill: words(task.skills),
    equipment: words(task.equipment),
    side: task.side ?? "",
    kind: task.kind ?? "",
    lift: String(Number.parseFloat(task.lift ?? "0")),
    caution: task.caution ?? "",
    "move-cost": String(task.moveCost),
    training: String(task.training),
    station: String(task.stations),
    "not-before": String(task.notBefore),
    "not-after": String(task.notAfter),
    "on-base": String(task.onBase),
    check: task.checks.join("\n"),
    after: words(line.before[number]!.map((each) => line.tasks[each]!.id)),
  };
}

const pieceTimes = ({ times, quantity, quantityByModel }: Task): (number | null)[] =>
  times.map((time, model) => (time === null ? null : time / (quantityByModel?.[model] ?? quantity)));
