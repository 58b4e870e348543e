import { type Node, Pair, Scalar, YAMLMap, YAMLSeq } from "yaml";
import type { Place } from "../../findings/finding.js";
import type { YamlNodes } from "./parse-yaml.js";

/** A value of a line file that comes from elsewhere, with its place there. */
export interface PlacedValue {
  readonly place: Place;
  readonly value: string | readonly PlacedValue[] | { readonly entries: readonly PlacedEntry[] };
}

export interface PlacedEntry {
  readonly key: string;
  readonly place: Place;
  readonly value: PlacedValue;
}

const isList = (value: Exclude<PlacedValue["value"], string>): value is readonly PlacedValue[] =>
  Array.isArray(value);

/** A line file that was never written as text, such as the tasks of a table: it is read as one, and its findings are told at its places. */
export function placedTree(file: string, root: PlacedValue): YamlNodes {
  const places = new Map<unknown, Place>();
  const at = <Made extends Node>(node: Made, place: Place): Made => {
    places.set(node, place);
    return node;
  };
  const nodeOf = ({ place, value }: PlacedValue): Node => {
    if (typeof value === "string") return at(new Scalar(value), place);
    if (!isList(value)) {
      const map = at(new YAMLMap(), place);
      map.items = value.entries.map(
        (each) => new Pair(at(new Scalar(each.key), each.place), nodeOf(each.value)),
      );
      return map;
    }
    const list = at(new YAMLSeq(), place);
    list.items = value.map(nodeOf);
    return list;
  };
  return {
    file,
    root: nodeOf(root),
    resolve: (node) => node as Node | null,
    whereIs: (node, otherwise) => places.get(node) ?? otherwise,
    commentAfter: () => null,
    pointOf: (node) => places.get(node) ?? null,
  };
}
