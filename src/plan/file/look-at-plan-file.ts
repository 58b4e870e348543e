import { isMap, type Pair, type YAMLMap } from "yaml";
import { type Finding, finding, type Place } from "../../findings/finding.js";
import { idKey } from "../../line/ids.js";
import type { YamlTree } from "../../line/read/parse-yaml.js";
import { textOf } from "../../line/read/read-shape.js";
import { quoted } from "../../time/quoted.js";

export const PLAN_FORMAT = "linepoise-plan/1";

const START: Place = { line: 1, column: 1, endColumn: 2 };
/** Keys that a line file has and a plan never. */
const LINE_KEYS = ["tasks", "demand", "calendar", "chains", "unit"];

export interface FirstLook {
  readonly findings: readonly Finding[];
  /** The file is something else than a plan, so that nothing more can be said of it. */
  readonly isOther: boolean;
  /** Where lists are written as maps, which is told already. */
  readonly maps: readonly Place[];
}

/** What is told before the keys of a plan file are read: files that are no plans, formats, and stations written as a map. */
export function lookAtPlanFile(tree: YamlTree): FirstLook {
  const root = tree.resolve(tree.root);
  if (!isMap(root)) return { findings: [], isOther: false, maps: [] };
  const format = pairOf(tree, root, "format");
  if (format === undefined) return lookForLine(tree, root);
  const stated = textOf(tree.resolve(format.value))?.trim() ?? "";
  const refused = stated === "" || stated === PLAN_FORMAT ? null : refuseFormat(stated);
  const place = tree.whereIs(format.value, tree.whereIs(format.key, START));
  const told =
    refused === null
      ? []
      : [
          finding({
            rule: "plan-format",
            severity: "error",
            message: refused.message,
            file: tree.file,
            place,
          }),
        ];
  const isOther = refused?.isOther ?? false;
  const maps = isOther ? [] : findMaps(tree, root);
  return { findings: [...told, ...maps.flatMap(({ findings }) => findings)], isOther, maps: placesOf(maps) };
}

function lookForLine(tree: YamlTree, root: YAMLMap): FirstLook {
  const key = LINE_KEYS.find((each) => pairOf(tree, root, each) !== undefined);
  if (key === undefined) {
    const maps = findMaps(tree, root);
    return { findings: maps.flatMap(({ findings }) => findings), isOther: false, maps: placesOf(maps) };
  }
  const message = `this is a line file, not a plan: it has \`${key}:\` and no \`format: ${PLAN_FORMAT}\``;
  const place = tree.whereIs(pairOf(tree, root, key)!.key, START);
  return {
    findings: [finding({ rule: "not-a-plan", severity: "error", message, file: tree.file, place })],
    isOther: true,
    maps: [],
  };
}

function refuseFormat(stated: string): { readonly message: string; readonly isOther: boolean } {
  const expected = `${PLAN_FORMAT} is expected`;
  if (/^linepoise-plan\/\d+$/u.test(stated)) {
    const message = `${quoted(stated)} is another version of plan files than this program reads: ${expected}`;
    return { message, isOther: true };
  }
  if (/^linepoise\/\d+$/u.test(stated)) {
    const message = `${quoted(stated)} is a result that a command printed, not a plan file: ${expected}`;
    return { message, isOther: true };
  }
  return { message: `${quoted(stated)} is no format of plan files: ${expected}`, isOther: false };
}

/** Maps lose their order in many programs, and take `1` and `"1"` for two keys or for one. */
function findMaps(tree: YamlTree, root: YAMLMap): WrittenMap[] {
  return ["stations", "benches"].flatMap((name) => {
    const pair = pairOf(tree, root, name);
    const node = tree.resolve(pair?.value);
    if (!isMap(node)) return [];
    const place = tree.whereIs(pair!.key, START);
    const first = name === "stations" ? "S1" : "B1";
    const message = `${name}: a map is written here, which keeps no order; a list is expected, such as - {id: ${first}, tasks: [...]}`;
    const refused = finding({ rule: "wrong-kind", severity: "error", message, file: tree.file, place });
    const written = tree.whereIs(pair!.value, place);
    return [{ place: written, findings: [refused, ...doubledKeys(tree, node, name)] }];
  });
}

interface WrittenMap {
  readonly place: Place;
  readonly findings: readonly Finding[];
}

const placesOf = (maps: readonly WrittenMap[]): Place[] => maps.map(({ place }) => place);

function doubledKeys(tree: YamlTree, map: YAMLMap, name: string): Finding[] {
  const first = new Map<string, Place>();
  return (map.items as Pair[]).flatMap(({ key }) => {
    const id = textOf(tree.resolve(key));
    if (id === null) return [];
    const place = tree.whereIs(key, START);
    const earlier = first.get(idKey(id));
    if (earlier === undefined) first.set(idKey(id), place);
    return earlier === undefined ? [] : [doubledStation(tree.file, name, id, earlier, place)];
  });
}

/** An id that stands in a plan a second time. */
export function doubledStation(file: string, list: string, id: string, first: Place, place: Place): Finding {
  const message = `${list}: ${quoted(id)} stands here a second time; the first is in line ${first.line}, column ${first.column}`;
  return finding({ rule: "duplicate-station", severity: "error", message, file, place, station: id });
}

function pairOf(tree: YamlTree, map: YAMLMap, name: string): Pair | undefined {
  return (map.items as Pair[]).find(({ key }) => textOf(tree.resolve(key))?.trim() === name);
}
