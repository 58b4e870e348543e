import { type Finding, finding, type Place } from "../../findings/finding.js";
import { idKey } from "../../line/ids.js";
import type { Line } from "../../line/line.js";
import type { Draft } from "../../line/schema/draft.js";
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
}

/** The stations, then the benches, in the order of the file. */
export function draftStations(line: Line, { stations, benches }: PlanKeys): DraftStation[] {
  const atLine = (stations?.items ?? []).map(({ at, place }, turn) => ({
    id: at.id?.value ?? stationIds(line, [turn])[0]!,
    keys: at,
    place: at.id?.place ?? place,
    isBench: false,
  }));
  const beside = (benches?.items ?? []).map(({ at, place }, turn) => ({
    id: at.id?.value ?? `B${turn + 1}`,
    keys: at,
    place: at.id?.place ?? place,
    isBench: true,
  }));
  return [...atLine, ...beside];
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
