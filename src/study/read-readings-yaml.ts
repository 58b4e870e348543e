import * as z from "zod";
import { finding, hasErrors } from "../findings/finding.js";
import { named, text, textOrNumber } from "../line/read/leaf.js";
import { parseYaml, type YamlTree } from "../line/read/parse-yaml.js";
import { readShape } from "../line/read/read-shape.js";
import { readEvery } from "../line/whole-numbers.js";
import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import { TIME_UNITS, type TimeUnit, unitNamed } from "../time/units.js";
import { isBare, otherUnit, readWritten, roundedWords, UNIT_MISSING } from "./read-cell.js";
import type { ReadingsOptions, ReadingsReading, TakenReading } from "./readings.js";
import { readRating } from "./study-terms.js";

/** Whether a text is readings in YAML and no table. */
export const isReadingsYaml = (file: string, content: string): boolean =>
  /\.ya?ml$/iu.test(file) || /^(?:elements|tasks)\s*:/mu.test(content);

function readUnit(typed: string): Reading<TimeUnit> {
  const unit = unitNamed(typed.trim());
  return unit === null
    ? refuse(`${quoted(typed.trim())} is no unit; units are ${TIME_UNITS.join(", ")}`)
    : accept(unit);
}

/** Readings stay text until the unit of the file is known. */
const readings = z
  .array(textOrNumber("other-time", "What the watch showed.", (typed) => accept(typed)))
  .meta({ description: "The readings in the order in which they were taken, one for each cycle." });

const schema = z.strictObject({
  unit: text("unit", "What a bare number means.", readUnit).optional(),
  rating: text("share", "The rating of readings that have none of their own.", readRating).optional(),
  elements: z.record(
    named("The element."),
    z.union([
      readings,
      z.strictObject({
        task: named("The task that it is a part of.").optional(),
        every: textOrNumber("count", "Done on every so many units only.", readEvery).optional(),
        rating: text("share", "Its rating, such as 110 %.", readRating).optional(),
        unit: text("unit", "What a bare number means.", readUnit).optional(),
        readings,
      }),
    ]),
  ),
});

const START = { line: 1, column: 1, endColumn: 2 };

/** Of our own files, the one that a tree is; null for readings. */
function otherFile({ document }: YamlTree): "line" | "plan" | null {
  if (document.has("elements")) return null;
  if (document.has("made-for") || String(document.get("format")).startsWith("linepoise-plan/")) return "plan";
  return document.has("tasks") ? "line" : null;
}

/** Readings in YAML: elements by name, each with a list of readings, or a map with `rating`, `task`, `every`, `unit` and `readings`. */
export function readReadingsYaml(file: string, content: string, options: ReadingsOptions): ReadingsReading {
  const { tree, findings } = parseYaml(file, content);
  const own = tree === null ? null : otherFile(tree);
  if (own !== null) {
    const into = own === "line" ? ", and puts times into a line file by --into" : "";
    const message = `this is a ${own} file; study takes readings of a stopwatch (\`elements:\` in YAML)${into}`;
    const fault = finding({ rule: `${own}-file`, severity: "error", message, file, place: START });
    return { readings: null, findings: [fault], source: content };
  }
  const read = tree === null ? null : readShape(schema, tree);
  const all = [...findings, ...(read?.findings ?? [])];
  const root = read?.draft?.at;
  if (root?.elements === undefined) return { readings: null, findings: all, source: content };
  const other = otherUnit(root.unit?.value ?? null, options.unit);
  if (other !== null)
    all.push(finding({ rule: "unit", severity: "error", message: other, file, place: root.unit!.place }));
  let isUnitMissed = false;
  const units = new Set<TimeUnit | null>();
  const elements = root.elements.entries.map(({ id, place, value }, turn) => {
    const keys = value?.kind === "object" ? value.at : {};
    const list = value?.kind === "list" ? value : keys.readings;
    const unit = keys.unit?.value ?? root.unit?.value ?? options.unit;
    const rating = keys.rating?.value ?? root.rating?.value ?? null;
    units.add(unit);
    const taken = (list?.items ?? []).flatMap((item, cycle): TakenReading[] => {
      if (unit === null && isBare(item.text, options.leaveOut)) {
        if (!isUnitMissed)
          all.push(
            finding({ rule: "unit", severity: "error", message: UNIT_MISSING, file, place: item.place }),
          );
        isUnitMissed = true;
        return [];
      }
      const one = readWritten(item.text, unit, options.leaveOut);
      if (one.ok) {
        const address = `line ${item.place.line}, column ${item.place.column}`;
        const { rounded, ...shown } = one.value;
        if (rounded !== null) {
          const message = `element ${id}: ${roundedWords(item.text, rounded, 0)}`;
          all.push(finding({ rule: "rounded", severity: "warning", message, file, place: item.place }));
        }
        return [{ ...shown, rating, observer: null, cycle, turn, place: item.place, address }];
      }
      const message = `element ${id}: ${one.problem}`;
      all.push(finding({ rule: "reading", severity: "error", message, file, place: item.place }));
      return [];
    });
    if (list !== undefined && list.count === 0) {
      const message = `element ${id}: it has no readings`;
      all.push(finding({ rule: "no-readings", severity: "error", message, file, place }));
    }
    return {
      name: id,
      task: keys.task?.value ?? null,
      every: keys.every?.value ?? 1,
      place,
      readings: taken,
    };
  });
  if (elements.length === 0 && !hasErrors(all))
    all.push(finding({ rule: "no-readings", severity: "error", message: "no element is listed", file }));
  if (hasErrors(all)) return { readings: null, findings: all, source: content };
  const [unit = null] = units;
  return {
    readings: {
      file,
      elements,
      unit: units.size === 1 ? unit : null,
      decimalMark: null,
      table: null,
      layout: "YAML",
    },
    findings: all,
    source: content,
  };
}
