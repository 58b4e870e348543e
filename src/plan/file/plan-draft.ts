import { type Finding, finding, type Place } from "../../findings/finding.js";
import { idKey } from "../../line/ids.js";
import type { Line } from "../../line/line.js";
import type { Draft } from "../../line/read/draft.js";
import { stationIds } from "../station-numbers.js";
import { doubledStation } from "./look-at-plan-file.js";
import type { PlanFileSchema } from "./plan-file-schema.js";

export type PlanRoot = Draft<PlanFileSchema>;
export type PlanKeys = PlanRoot["at"];
export type StationKeys = NonNullable<PlanKeys["stations"]>["items"][number]["at"];

/** A station or bench as it is written, with its id or the one that its turn gives it. */
export interface DraftStation {
  readonly id: string;
  readonly keys: StationKeys;
  readonly place: Place;
  readonly isBench: boolean;
  /** Every task that is written could be read. */
  readonly isListed: boolean;
  /** It is called what its id says, and so many places and such sides and persons as are written could be read. */
  readonly isSure: boolean;
}

/** The stations, then the benches, in the order of the file. */
export function draftStations(line: Line, { stations, benches }: PlanKeys): DraftStation[] {
  const atLine = (stations?.items ?? []).map((written, turn) =>
    draftStation(written, stationIds(line, [turn])[0]!, stations!.count === stations!.items.length, false),
  );
  const beside = (benches?.items ?? []).map((written, turn) =>
    draftStation(written, `B${turn + 1}`, benches!.count === benches!.items.length, true),
  );
  return [...atLine, ...beside];
}

type Written = NonNullable<PlanKeys["stations" | "benches"]>["items"][number];

/** @param byTurn its id where none is written, which is sure only where every station before it could be read */
function draftStation(
  { at, keys, place }: Written,
  byTurn: string,
  isCounted: boolean,
  isBench: boolean,
): DraftStation {
  const given: StationKeys = at;
  const isRead = (["id", "places", "sides", "persons"] as const).every(
    (key) =>
      (keys as Readonly<Record<string, Place | undefined>>)[key] === undefined || given[key] !== undefined,
  );
  const { sides, persons, tasks } = given;
  const isWhole = ({ entries, count }: NonNullable<typeof sides | typeof persons>) =>
    entries.length === count && entries.every(({ value }) => value !== undefined);
  return {
    id: given.id?.value ?? byTurn,
    keys: given,
    place: given.id?.place ?? place,
    isBench,
    isListed: tasks !== undefined && tasks.items.length === tasks.count,
    isSure:
      isRead &&
      (sides === undefined || isWhole(sides)) &&
      (persons === undefined || isWhole(persons)) &&
      (given.id !== undefined || isCounted),
  };
}

/** Lists without anything in them, and ids that stand twice. */
export function findDraftFaults(file: string, keys: PlanKeys, stations: readonly DraftStation[]): Finding[] {
  const first = new Map<string, Place>();
  const doubled = stations.flatMap(({ id, place, isBench }) => {
    const earlier = first.get(idKey(id));
    if (earlier !== undefined)
      return [doubledStation(file, isBench ? "benches" : "stations", id, earlier, place)];
    first.set(idKey(id), place);
    return [];
  });
  if (keys.stations?.count !== 0) return doubled;
  const message = "stations: the list is empty; a plan has at least one station";
  const { place } = keys.stations;
  return [finding({ rule: "no-stations", severity: "error", message, file, place }), ...doubled];
}
