import { isMap, isSeq, parseDocument } from "yaml";
import { idKey } from "../line/ids.js";
import type { Line } from "../line/line.js";
import { flowText } from "../line/write/flow-text.js";
import { pairOf, textOf } from "../line/write/source-edits.js";
import type { Pace } from "../time/pace.js";
import { plainSeconds } from "../time/show-values.js";
import { PLAN_FORMAT } from "./file/look-at-plan-file.js";
import { entryOf, entryText, type PlanEntry } from "./file/plan-entry.js";
import { type PlanContent, rewritePlan } from "./file/rewrite-plan.js";
import { fingerprintOf } from "./fingerprint.js";
import type { Plan } from "./plan.js";

/** The line file that a plan names, or null where the text is no plan file. */
export function lineOfPlanFile(text: string): string | null {
  const plan = parseDocument(text, { schema: "failsafe" });
  if (plan.errors.length > 0 || !isMap(plan.contents) || plan.get("format") !== PLAN_FORMAT) return null;
  const line = plan.get("line");
  return typeof line === "string" ? line : null;
}

/**
 * The text of a plan file. Given the text that stands there now, whatever stays as it is keeps its bytes: comments, blanks, line
 * ends, and the lines of stations that do not change.
 *
 * @param lineFile the path of the line file as seen from the plan file
 */
export function writePlanFile(
  line: Line,
  pace: Pace,
  plan: Plan,
  lineFile: string,
  present: string | null,
): string {
  const content: PlanContent = {
    format: PLAN_FORMAT,
    line: lineFile,
    lineCycle: plainSeconds(pace.lineCycle),
    fingerprint: fingerprintOf(line),
    stations: plan.stations.map((station) => entryOf(line, station)),
    benches: (plan.benches ?? []).map((bench) => entryOf(line, bench)),
  };
  return present === null ? freshText(content) : (tryRewriting(present, content) ?? freshText(content));
}

function freshText({ format, line, lineCycle, fingerprint, stations, benches }: PlanContent): string {
  const list = (name: string, entries: readonly PlanEntry[]) =>
    entries.length === 0 ? [] : [`${name}:`, ...entries.map((entry) => `  - ${entryText(entry)}`)];
  return [
    `format: ${format}`,
    `line: ${flowText(line)}`,
    `made-for: {line-cycle: ${lineCycle}, fingerprint: ${flowText(fingerprint)}}`,
    ...list("stations", stations),
    ...list("benches", benches),
    "",
  ].join("\n");
}

/** Null where the file is written so oddly that the result would not read back as the plan: then it is written anew. */
function tryRewriting(present: string, content: PlanContent): string | null {
  try {
    const text = rewritePlan(present, content);
    return saysTheSame(text, content) ? text : null;
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

function saysTheSame(text: string, content: PlanContent): boolean {
  const document = parseDocument(text, { schema: "failsafe" });
  const root = document.contents;
  if (document.errors.length > 0 || !isMap(root)) return false;
  const entries = (name: "stations" | "benches") => {
    const list = pairOf(root, name)?.value;
    const items: WrittenEntry[] = isSeq(list) ? list.toJS(document) : [];
    return items.map((entry, at) =>
      normalText({
        id: entry.id ?? `${name === "stations" ? "S" : "B"}${at + 1}`,
        places: Number(entry.places ?? 1),
        tasks: entry.tasks ?? [],
        sides: Object.entries(entry.sides ?? {}),
        persons: Object.entries(entry.persons ?? {}).map(([task, who]) => [task, [who].flat().map(Number)]),
      }),
    );
  };
  const madeFor = pairOf(root, "made-for")?.value;
  return (
    textOf(pairOf(root, "line")?.value) === content.line &&
    isMap(madeFor) &&
    textOf(pairOf(madeFor, "line-cycle")?.value) === content.lineCycle &&
    textOf(pairOf(madeFor, "fingerprint")?.value) === content.fingerprint &&
    isEqual(entries("stations"), content.stations.map(normalText)) &&
    isEqual(entries("benches"), content.benches.map(normalText))
  );
}

interface WrittenEntry {
  readonly id?: string;
  readonly places?: string;
  readonly tasks?: readonly string[];
  readonly sides?: Readonly<Record<string, string>>;
  readonly persons?: Readonly<Record<string, string | readonly string[]>>;
}

const normalText = ({ id, places, tasks, sides, persons }: PlanEntry): string =>
  JSON.stringify([
    idKey(id),
    places,
    tasks.map(idKey),
    sides.map(([task, side]) => `${idKey(task)}: ${side}`).sort(),
    persons.map(([task, who]) => `${idKey(task)}: ${who.join()}`).sort(),
  ]);

const isEqual = (one: readonly string[], two: readonly string[]): boolean =>
  JSON.stringify(one) === JSON.stringify(two);
