import { isMap, isSeq, type Pair, type YAMLMap } from "yaml";
import { idKey } from "../../line/ids.js";
import { flowText } from "../../line/write/flow-text.js";
import {
  applyEdits,
  contentEnd,
  type Edit,
  insertBehind,
  lineEnd,
  pairOf,
  rangeOf,
  takeOut,
  textOf,
} from "../../line/write/source-edits.js";
import { editList } from "./edit-list.js";
import { entryText, listText, type PlanEntry, personsText, sidesText } from "./plan-entry.js";

/** The lines of an entry after it became `wanted`: only what differs is written anew. */
export function editEntry(source: string, map: YAMLMap, wanted: PlanEntry, from: number, to: number): string {
  try {
    const edits = [
      ...editTasks(source, map, wanted),
      ...editPlaces(source, map, wanted),
      ...editByTask(source, map, "sides", wanted.sides, sidesText(wanted.sides)),
      ...editByTask(source, map, "persons", wanted.persons, personsText(wanted.persons)),
    ];
    return applyEdits(source, edits, from, to);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const whole = { from: rangeOf(map)[0], to: contentEnd(map), text: entryText(wanted) };
    return applyEdits(source, [whole], from, to);
  }
}

function editTasks(source: string, map: YAMLMap, { tasks }: PlanEntry): Edit[] {
  const pair = pairOf(map, "tasks");
  if (pair === undefined) return [insertBehind(source, map, lastPair(map), `tasks: ${listText(tasks)}`)];
  const present = isSeq(pair.value) ? pair.value.items.map((item) => idKey(textOf(item) ?? "")) : [];
  if (isSame(present, tasks.map(idKey))) return [];
  if (isSeq(pair.value) && !pair.value.flow && tasks.length > 0) {
    const start = lineEnd(source, contentEnd(pair.key));
    const used = new Set<number>();
    const wanted = tasks.map((task) => {
      const at = present.findIndex((each, index) => each === idKey(task) && !used.has(index));
      used.add(at);
      const edit = (one: number, two: number) => source.slice(one, two);
      return { present: at, fresh: flowText(task), edit };
    });
    return [editList(source, pair.value, start, wanted)];
  }
  return [replaceValue(pair, listText(tasks))];
}

function editPlaces(source: string, map: YAMLMap, { places }: PlanEntry): Edit[] {
  const pair = pairOf(map, "places");
  if (pair === undefined) {
    const behind = pairOf(map, "id") ?? lastPair(map);
    return places > 1 ? [insertBehind(source, map, behind, `places: ${places}`)] : [];
  }
  if (Number(textOf(pair.value)) === places) return [];
  return [places > 1 ? replaceValue(pair, String(places)) : takeOut(source, map, pair)];
}

/** What is said by task of the station: its side, or who does it. */
function editByTask(
  source: string,
  map: YAMLMap,
  name: "sides" | "persons",
  wanted: readonly (readonly [task: string, said: string | readonly number[]])[],
  text: string,
): Edit[] {
  const pair = pairOf(map, name);
  if (pair === undefined) {
    if (wanted.length === 0) return [];
    const behind = pairOf(map, "sides") ?? pairOf(map, "tasks") ?? lastPair(map);
    return [insertBehind(source, map, behind, `${name}: ${text}`)];
  }
  if (wanted.length === 0) return [takeOut(source, map, pair)];
  const told = (task: string, said: string) => `${idKey(task)}: ${said}`;
  const present = isMap(pair.value)
    ? (pair.value.items as Pair[]).map(({ key, value }) => told(textOf(key) ?? "", saidIn(value)))
    : [];
  const asked = wanted.map(([task, said]) => told(task, String(said)));
  return isSame([...present].sort(), [...asked].sort()) ? [] : [replaceValue(pair, text)];
}

/** One value, or the values of a list with commas between. */
const saidIn = (value: unknown): string =>
  isSeq(value) ? value.items.map((item) => textOf(item) ?? "").join() : (textOf(value) ?? "");

function replaceValue(pair: Pair, text: string): Edit {
  return { from: rangeOf(pair.value)[0], to: contentEnd(pair.value), text };
}

function lastPair(map: YAMLMap): Pair {
  const last = (map.items as Pair[]).at(-1);
  if (last === undefined) throw new RangeError("an entry with nothing in it");
  return last;
}

const isSame = (one: readonly string[], two: readonly string[]): boolean =>
  one.length === two.length && one.every((each, at) => each === two[at]);
