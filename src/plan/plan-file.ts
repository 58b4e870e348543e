import { Document, isMap, isScalar, isSeq, parseDocument, Scalar, type YAMLMap, type YAMLSeq } from "yaml";
import type { Line } from "../line/line.js";
import type { Pace } from "../time/pace.js";
import { seconds } from "../time/show-values.js";
import { fingerprintOf } from "./fingerprint.js";
import type { Plan, Station } from "./plan.js";

export const PLAN_FORMAT = "linepoise-plan/1";

const LAYOUT = { lineWidth: 0, flowCollectionPadding: false } as const;

/** The line file that a plan names, or null where the text is no plan file. */
export function lineOfPlanFile(text: string): string | null {
  const plan = parseDocument(text, { schema: "failsafe" });
  if (plan.errors.length > 0 || !isMap(plan.contents) || plan.get("format") !== PLAN_FORMAT) return null;
  const line = plan.get("line");
  return typeof line === "string" ? line : null;
}

/**
 * The text of a plan file. Given the text that stands there now, its comments, its other keys and the stations that stay
 * as they are keep their lines.
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
  const document = present === null ? new Document({}) : parseDocument(present, { schema: "failsafe" });
  document.set("format", PLAN_FORMAT);
  document.set("line", textNode(lineFile));
  const madeFor = { "line-cycle": seconds(pace.lineCycle), fingerprint: fingerprintOf(line) };
  document.set("made-for", inOneLine(document, madeFor));
  replaceStations(document, plan, line);
  return document.toString(LAYOUT);
}

/** Text that stays text in every reader: quoted where YAML 1.1 or 1.2 would take it for something else, such as NO. */
function textNode(text: string): Scalar<string> {
  const node = new Scalar(text);
  const isPlain = (["1.1", "1.2"] as const).every((version) => {
    const read = parseDocument(text, { version });
    return read.errors.length === 0 && isScalar(read.contents) && read.contents.value === text;
  });
  if (!isPlain) node.type = Scalar.QUOTE_DOUBLE;
  return node;
}

function inOneLine(document: Document, value: unknown): YAMLMap | YAMLSeq {
  const node = document.createNode(value) as YAMLMap | YAMLSeq;
  node.flow = true;
  return node;
}

function replaceStations(document: Document, plan: Plan, line: Line): void {
  const present = document.get("stations");
  const list = isSeq(present) ? present : (document.createNode([]) as YAMLSeq);
  const nodes = new Map(list.items.filter(isMap).map((node) => [String(node.get("id")), node]));
  list.items = plan.stations.map((station) => {
    const node = nodes.get(station.id);
    if (node === undefined) return inOneLine(document, stationEntry(station, line));
    return updateStation(document, node, station, line);
  });
  if (list !== present) document.set("stations", list);
}

function stationEntry(station: Station, line: Line) {
  const tasks = station.tasks.map((task) => textNode(line.tasks[task]!.id));
  const sides = chosenSides(station, line);
  return {
    id: textNode(station.id),
    ...(station.places > 1 ? { places: station.places } : {}),
    tasks,
    ...(sides.size > 0 ? { sides } : {}),
  };
}

/** The sides of tasks that may be worked from either; those of all others are said in the line file. */
function chosenSides({ tasks, sides }: Station, line: Line): Map<Scalar<string>, string> {
  const chosen = tasks.flatMap((task, at): [Scalar<string>, string][] => {
    const side = sides?.[at];
    const { id, side: asked } = line.tasks[task]!;
    const isFree = (asked === "either" || asked === null) && side !== "both";
    return side === undefined || !isFree ? [] : [[textNode(id), side]];
  });
  return new Map(chosen);
}

function updateStation(document: Document, node: YAMLMap, station: Station, line: Line): YAMLMap {
  const entry = stationEntry(station, line);
  const present = node.get("tasks");
  const before = isSeq(present) ? present.items.map(String) : [];
  if (before.join("\n") !== entry.tasks.map(String).join("\n"))
    node.set("tasks", inOneLine(document, entry.tasks));
  if (station.places > 1) node.set("places", String(station.places));
  else node.delete("places");
  updateSides(document, node, entry.sides ?? new Map());
  return node;
}

function updateSides(document: Document, node: YAMLMap, sides: ReadonlyMap<Scalar<string>, string>): void {
  if (sides.size === 0) {
    node.delete("sides");
    return;
  }
  const present = node.get("sides");
  const pairs = (of: Iterable<readonly [unknown, unknown]>) =>
    [...of].map(([task, side]) => `${task}: ${side}`);
  const before = isMap(present) ? pairs(present.items.map(({ key, value }) => [key, value])) : [];
  if (before.join("\n") !== pairs(sides).join("\n")) node.set("sides", inOneLine(document, sides));
}
