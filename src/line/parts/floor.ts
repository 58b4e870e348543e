import * as z from "zod";
import type { TimeUnit } from "../../time/duration.js";
import { ONE } from "../../time/ratio.js";
import { readShare } from "../../time/share.js";
import { idKey } from "../ids.js";
import type { FloorStation, KeepPace, Line, Task } from "../line.js";
import { type Draft, type ObjectDraft, valuesOf } from "../read/draft.js";
import { named, namedOneOrMore, text, textOrNumber } from "../read/leaf.js";
import { readHolds, readPeople, readPlaces } from "../whole-numbers.js";
import { buildKeepPace, keepPaceKeys } from "./keep-pace.js";
import { limitKeys } from "./limits.js";
import { driftKeys } from "./models.js";
import { type Spellings, spellAll } from "./resources.js";

/** What stands on the floor; a bare time is in `unit`. */
export const floorKeys = (unit: TimeUnit | null) => ({
  stations: stationsSchema(unit).optional(),
  "max-places": textOrNumber(
    "count",
    "The most parallel workplaces of a station. Default: 1.",
    readPlaces,
  ).optional(),
  ...sharedPlaceKeys({
    holds: "Default: 1.",
    crew: "Default: 1, so they work together.",
  }),
});

/** How many units and people share a place. */
const sharedPlaceKeys = (otherwise: { readonly holds: string; readonly crew: string }) => ({
  holds: textOrNumber(
    "count",
    `How many units may stand at one workplace at the same time, such as one on a machine. Hands and stays must fit on average; a warning says where one person is wanted at two units at once. ${otherwise.holds}`,
    readHolds,
  ).optional(),
  "max-crew": textOrNumber(
    "count",
    `The most people at one workplace who share a unit, each on tasks of their own. ${otherwise.crew}`,
    readPeople,
  ).optional(),
});

/** The stations on the floor, in order of flow. */
function stationsSchema(unit: TimeUnit | null) {
  return z
    .array(
      z
        .strictObject({
          id: named("The name of the station."),
          zone: named(
            "The zone of the station. Where any station has a zone, tasks go only to stations of their zone.",
          ).optional(),
          equipment: namedOneOrMore(
            "What stands there: one equipment or a list. Tasks that need listed equipment go only where it stands.",
          ).optional(),
          skills: namedOneOrMore(
            "The skills of its people: one or a list. Where any station lists skills, tasks go only where theirs are.",
          ).optional(),
          "max-places": textOrNumber(
            "count",
            "The most parallel workplaces at this station. Default: as many as the line allows.",
            readPlaces,
          ).optional(),
          ...sharedPlaceKeys({
            holds: "Default: as many as the line allows.",
            crew: "Default: as many as the line allows.",
          }),
          "plan-to": text(
            "share",
            "Share of the working time of this station that may be loaded with work. Default: that of the line.",
            readShare,
          ).optional(),
          ...keepPaceKeys(
            "In place of plan-to: the chance with which this station stays within its working time. Default: that of the line, unless the station has a plan-to.",
          ),
          ...limitKeys("Limits of this station, each in place of the line's limit of the same name."),
          ...driftKeys(unit, "Default: as far as the line allows."),
        })
        .meta({ description: "A station on the floor." }),
    )
    .meta({ description: "The stations on the floor, in order of flow. A plan may add more after them." });
}

/** Where on the floor a task may stand. */
export const floorKeysOfTask = () => ({
  zone: named("The zone of the work. Tasks of two zones never share a station.").optional(),
  station: namedOneOrMore(
    "The only station that may hold the task, or a list of stations. Without `stations` in the file, they are called S1, S2 and so on.",
  ).optional(),
  "not-before": named("The first station that may hold the task.").optional(),
  "not-after": named("The last station that may hold the task.").optional(),
});

type FloorKeys = ObjectDraft<ReturnType<typeof floorKeys>>["at"];
export type StationKeys = Draft<ReturnType<typeof stationsSchema>>["items"][number]["at"];
export type PlaceKeys = ObjectDraft<ReturnType<typeof floorKeysOfTask>>["at"];

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

interface PlacedTask {
  readonly keys: PlaceKeys;
}

/** Keys of a task that name stations. */
export const STATION_KEYS = ["station", "not-before", "not-after"] as const;

export function draftFloor(keys: FloorKeys, given: boolean, tasks: readonly PlacedTask[]): FloorDraft {
  return given ? listedFloor(keys.stations) : numberedFloor(tasks);
}

function listedFloor(list: FloorKeys["stations"]): FloorDraft {
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
function numberedFloor(tasks: readonly PlacedTask[]): FloorDraft {
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

/** The stations on the floor, of a draft without errors. */
export function buildFloor(
  keys: FloorKeys,
  floor: FloorDraft,
  spell: Spellings,
  keepPace: KeepPace | null,
): Pick<Line, "floor" | "isFloorListed" | "maxPlaces" | "holds" | "maxCrew"> {
  return {
    floor: floor.stations.map((station) => buildStation(station, spell, keepPace)),
    isFloorListed: floor.listed,
    maxPlaces: keys["max-places"]?.value ?? 1,
    holds: keys.holds?.value ?? 1,
    maxCrew: keys["max-crew"]?.value ?? 1,
  };
}

function buildStation(
  { id, keys }: FloorDraft["stations"][number],
  spell: Spellings,
  ofLine: KeepPace | null,
): FloorStation {
  const [own, planTo] = [buildKeepPace(keys), keys["plan-to"]?.value ?? null];
  return {
    id,
    zone: keys.zone === undefined ? null : spell.zone(keys.zone.value),
    equipment: spellAll(spell.equipment, keys.equipment),
    skills: keys.skills === undefined ? null : spellAll(spell.skill, keys.skills),
    maxPlaces: keys["max-places"]?.value ?? null,
    holds: keys.holds?.value ?? null,
    maxCrew: keys["max-crew"]?.value ?? null,
    // What is asked here stands in place of the plan-to of the line.
    planTo: own === null ? planTo : ONE,
    keepPace: own ?? (planTo === null ? ofLine : null),
    limits: [],
    driftRoom: keys["drift-room"]?.value ?? null,
  };
}

/** Where a task may stand, of a draft without errors. */
export function buildWindow(
  keys: PlaceKeys,
  floor: FloorDraft,
): Pick<Task, "stations" | "notBefore" | "notAfter"> {
  const numberOf = (named: { value: string } | undefined) =>
    named === undefined ? null : floor.numberOf(named.value)!;
  const stations = new Set(valuesOf(keys.station).map((each) => numberOf(each)!));
  return {
    stations: keys.station === undefined ? null : [...stations].sort((one, two) => one - two),
    notBefore: numberOf(keys["not-before"]),
    notAfter: numberOf(keys["not-after"]),
  };
}
