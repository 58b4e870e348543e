import type { DraftTask } from "./draft-task.js";
import { idKey } from "./ids.js";
import { type LineKeys, type StationKeys, valuesOf } from "./line-keys.js";

/** Numbers above are no names of stations where the file lists none. */
export const MOST_NUMBERED = 1000;

/** The stations that tasks may name. */
export interface FloorDraft {
  /** The file lists its stations; otherwise S1, S2, ... number them. */
  readonly listed: boolean;
  /** Every station listed has an id that could be read, so that a name which is none of them is wrong. */
  readonly complete: boolean;
  readonly stations: readonly { readonly id: string; readonly keys: StationKeys }[];
  /** The number of the station that the text names, or undefined. */
  numberOf(name: string): number | undefined;
}

/** Keys of a task that name stations. */
export const STATION_KEYS = ["station", "not-before", "not-after"] as const;

export function draftFloor(keys: LineKeys, given: boolean, tasks: readonly DraftTask[]): FloorDraft {
  return given ? listedFloor(keys.stations) : numberedFloor(tasks);
}

function listedFloor(list: LineKeys["stations"]): FloorDraft {
  const stations = (list?.items ?? []).flatMap(({ at }) =>
    at.id === undefined ? [] : [{ id: at.id.value, keys: at }],
  );
  const numbers = new Map<string, number>();
  for (const [number, { id }] of stations.entries()) {
    if (!numbers.has(idKey(id))) numbers.set(idKey(id), number);
  }
  const complete = list !== undefined && list.count === stations.length;
  return { listed: true, complete, stations, numberOf: (name) => numbers.get(idKey(name)) };
}

/** As many plain stations as the highest number that a task names. */
function numberedFloor(tasks: readonly DraftTask[]): FloorDraft {
  const named = tasks.flatMap(({ keys }) => STATION_KEYS.flatMap((key) => [...valuesOf(keys[key])]));
  const numbers = named.map(({ value }) => defaultNumber(value) ?? -1);
  const count = numbers.reduce((most, number) => Math.max(most, number + 1), 0);
  const stations = Array.from({ length: count }, (_, at) => ({ id: `S${at + 1}`, keys: {} }));
  return { listed: false, complete: true, stations, numberOf: defaultNumber };
}

function defaultNumber(name: string): number | undefined {
  const number = Number(/^S([1-9]\d{0,3})$/u.exec(idKey(name))?.[1] ?? 0);
  return number >= 1 && number <= MOST_NUMBERED ? number - 1 : undefined;
}
