import type { Document } from "yaml";
import { countOf, thousands } from "../findings/count-of.js";
import { type Finding, finding, hasErrors, sortFindings } from "../findings/finding.js";
import type { Line } from "./line.js";
import { draftLine, type LineDraft } from "./line-draft.js";
import { type LineKeys, lineFileSchema } from "./line-file.js";
import { buildWaits } from "./parts/arrows.js";
import { buildBenches } from "./parts/benches.js";
import { buildFloor } from "./parts/floor.js";
import { buildFlow } from "./parts/flow.js";
import { buildGroups } from "./parts/groups.js";
import { withLimits } from "./parts/limits.js";
import { buildModels, sharesOf } from "./parts/models.js";
import { buildOptions } from "./parts/options.js";
import { buildPace, readFileUnit } from "./parts/pace.js";
import { buildPartList } from "./parts/part-list.js";
import { buildLevel, withParts } from "./parts/part-use.js";
import { buildPolicy } from "./parts/policy.js";
import { buildRates } from "./parts/rates.js";
import { buildResources, spellingsOf } from "./parts/resources.js";
import { buildSpacings } from "./parts/spacing.js";
import { buildStaffing } from "./parts/staffing.js";
import { buildSupplies } from "./parts/supply.js";
import { buildTask } from "./parts/task.js";
import { buildTraining } from "./parts/training.js";
import { parseYaml, type YamlNodes } from "./read/parse-yaml.js";
import { readShape } from "./read/read-shape.js";
import { checkOptions, LINE_RULES } from "./rules/register.js";

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
  return { ...readLineTree(tree, findings), document: tree.document };
}

/** Reads a line file that is taken apart already; `findings` tell of that. */
export function readLineTree(
  tree: YamlNodes,
  findings: readonly Finding[] = [],
): Omit<LineReading, "document"> {
  const unit = readFileUnit(tree);
  // Without a unit, or with a faulty one, times are read as seconds: one finding about the unit says enough.
  const shape = readShape(lineFileSchema(unit ?? "s"), tree);
  const tooMany = refuseTooManyTimes(tree.file, shape.draft?.at ?? {});
  if (tooMany !== null)
    return { line: null, findings: sortFindings([...findings, ...shape.findings, tooMany]) };
  const draft = draftLine(tree.file, shape.draft);
  const checked = [...LINE_RULES.flatMap((rule) => rule.check(draft)), ...checkOptions(draft)];
  const all = sortFindings([...findings, ...shape.findings, ...checked]);
  return { line: hasErrors(all) ? null : buildLine(draft), findings: all };
}

/** Times of tasks for each model: a file of a megabyte might ask for billions. */
const MOST_TIMES = 300_000;

function refuseTooManyTimes(file: string, { tasks, models }: LineKeys): Finding | null {
  const [ofTasks, ofModels] = [tasks?.count ?? 0, models?.count ?? 0];
  if (ofTasks * ofModels <= MOST_TIMES) return null;
  const message = `${countOf(ofTasks, "task")} of ${countOf(ofModels, "model")} make ${thousands(ofTasks * ofModels)} task times; at most ${thousands(MOST_TIMES)} are read`;
  return finding({ rule: "too-large", severity: "error", message, file, place: models!.place });
}

/** The line that a draft without errors describes. */
function buildLine(draft: LineDraft): Line {
  const { keys } = draft;
  const spell = spellingsOf(draft);
  const shares = sharesOf(draft.models);
  const benches = buildBenches(draft.benches);
  const rates = buildRates(keys.rates);
  const pace = buildPace(keys, draft.places);
  const line: Line = {
    file: draft.file,
    name: keys.line?.value ?? baseName(draft.file),
    ...pace,
    tasks: draft.tasks.map((_, number) => buildTask(draft, number, spell, shares)),
    before: draft.before,
    waits: buildWaits(draft.arrows, draft.models),
    ...buildFloor(keys, draft.floor, spell, pace.keepPace),
    ...buildResources(keys, spell),
    ...buildTraining(keys, spell),
    limits: [],
    ...buildGroups(draft.groups, draft.tasks.length),
    ...buildModels(keys, draft.models),
    ...buildSpacings(keys, draft),
    ...buildLevel(keys, draft.tasks, draft.models),
    ...buildPartList(keys),
    benches,
    options: buildOptions(draft.options, benches, rates),
    rates,
    ...buildStaffing(keys),
    ...buildFlow(keys),
    policy: buildPolicy(keys.policy),
    supplies: buildSupplies(keys.supply),
  };
  return withParts(withLimits(line, draft), draft);
}

/** The file's name without its folders and endings: `lines/cargo-bike.line.yaml` is `cargo-bike`. */
function baseName(file: string): string {
  const last = file.split(/[/\\]/u).at(-1)!;
  return last.replace(/(?:\.line)?\.ya?ml$/u, "") || last;
}
