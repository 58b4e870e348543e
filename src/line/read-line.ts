import type { Document } from "yaml";
import { type Finding, hasErrors, sortFindings } from "../findings/finding.js";
import { buildLine } from "./build-line.js";
import type { Line } from "./line.js";
import { draftLine } from "./line-draft.js";
import { parseYaml } from "./read/parse-yaml.js";
import { readShape } from "./read/read-shape.js";
import { checkOptions, LINE_RULES } from "./rules/register.js";
import { lineFileSchema } from "./schema/line-file-schema.js";
import { readFileUnit } from "./schema/read-file-unit.js";

export interface LineReading {
  /** The line, or null where an error among the findings keeps it from being one. */
  readonly line: Line | null;
  /** Every fault of the file, sorted as people mend it. */
  readonly findings: readonly Finding[];
  /** The document with its comments, or null where the text is no YAML. */
  readonly document: Document | null;
}

/** Reads the text of a line file; `file` is what findings call it. Never throws for anything in the text. */
export function readLine(file: string, text: string): LineReading {
  const { tree, findings } = parseYaml(file, text);
  if (tree === null) return { line: null, findings: sortFindings(findings), document: null };
  const unit = readFileUnit(tree);
  // Without a unit, or with a faulty one, times are read as seconds: one finding about the unit says enough.
  const shape = readShape(lineFileSchema(unit ?? "s"), tree);
  const draft = draftLine(file, shape.draft);
  const checked = [...LINE_RULES.flatMap((rule) => rule.check(draft)), ...checkOptions(draft)];
  const all = sortFindings([...findings, ...shape.findings, ...checked]);
  return { line: hasErrors(all) ? null : buildLine(draft), findings: all, document: tree.document };
}
