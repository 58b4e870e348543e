import { idKey } from "../ids.js";
import type { LineDraft } from "../line-draft.js";
import type { StationKeys } from "../parts/floor.js";
import { heldWith } from "../parts/groups.js";
import type { TaskKeys } from "../parts/task.js";
import { valuesOf } from "../read/draft.js";
import { listedEquipment, listedSkills } from "./floor.js";
import { found, type LineRule } from "./line-rule.js";

export const noStationFits: LineRule = {
  name: "no-station-fits",
  purpose: "Every task has a station that is all the task asks for.",
  check(draft) {
    if (!draft.floor.complete) return [];
    const needsOfTask = needsOf(draft);
    const hasStation = stationFinder(draft);
    return draft.tasks.flatMap(({ id, place, keys }) => {
      const needs = needsOfTask(keys);
      // What no station at all is has a finding of its own: a name that is not known, or stations in the wrong order.
      const alone = needs.some((each) => !hasStation([each]));
      if (alone || hasStation(needs) || isReversed(draft, keys)) return [];
      const message = `task ${id} asks for a station ${needs.map((each) => each.words).join(", ")}, and there is none; take one of these out, or change the stations`;
      return [found("no-station-fits", draft, { severity: "error", message, place, task: id })];
    });
  },
};

function isReversed({ floor }: LineDraft, keys: Parameters<ReturnType<typeof needsOf>>[0]): boolean {
  const [first, last] = [keys["not-before"], keys["not-after"]];
  if (first === undefined || last === undefined) return false;
  return (floor.numberOf(first.value) ?? 0) > (floor.numberOf(last.value) ?? Number.POSITIVE_INFINITY);
}

export const togetherFits: LineRule = {
  name: "together-fits",
  purpose: "Tasks kept together are of one zone, and one station is all they ask for.",
  check(draft) {
    const { together } = draft.groups;
    if (together.length === 0 || !draft.floor.complete) return [];
    const held = heldWith(together, draft.tasks.length);
    const told = new Set<number>();
    const needs = needsOf(draft);
    const hasStation = stationFinder(draft);
    return together.flatMap(({ tasks, place }) => {
      const group = tasks.length === 0 ? -1 : held[tasks[0]!.task]!;
      if (group < 0 || told.has(group)) return [];
      told.add(group);
      const members = [...held.keys()].filter((task) => held[task] === group);
      const problem = problemOf(draft, members, needs, hasStation);
      if (problem === null) return [];
      const ids = members.map((task) => draft.tasks[task]!.id).join(", ");
      const message = `together: ${ids} ${problem}; take one of these out, or keep fewer tasks together`;
      return [found("together-fits", draft, { severity: "error", message, place })];
    });
  },
};

function problemOf(
  draft: LineDraft,
  members: readonly number[],
  needs: ReturnType<typeof needsOf>,
  hasStation: HasStation,
) {
  const keys = members.map((task) => draft.tasks[task]!.keys);
  const zones = new Map(
    keys.flatMap(({ zone }) => (zone === undefined ? [] : [[idKey(zone.value), zone.value]])),
  );
  if (zones.size > 1) return `are of several zones: ${[...zones.values()].join(", ")}`;
  const each = keys.map((own) => needs(own));
  // What one task alone finds no station for has a finding of its own.
  if (each.some((own) => !hasStation(own))) return null;
  const all = [...new Map(each.flat().map((need): [string, Need] => [need.words, need])).values()];
  if (hasStation(all)) return null;
  return `ask together for a station ${all.map((need) => need.words).join(", ")}, and there is none`;
}

/** One thing that a task asks of its station, in the words of a message: "in zone paint". */
interface Need {
  readonly words: string;
  /** Whether a station of the floor, by its number, will do. */
  fits(number: number, keys: StationKeys): boolean;
  /** Whether a station behind the floor will do. */
  readonly behind: boolean;
}

/** Whether any station is all of that. */
type HasStation = (needs: readonly Need[]) => boolean;

/** Looks each thing that tasks ask for up once, as many ask for the same: their words tell them apart. */
function stationFinder({ floor }: LineDraft): HasStation {
  const known = new Map<string, boolean>();
  return (needs) => {
    const words = JSON.stringify(needs.map((each) => each.words));
    const answer =
      known.get(words) ??
      (needs.every((each) => each.behind) ||
        floor.stations.some(({ keys }, number) => needs.every((each) => each.fits(number, keys))));
    known.set(words, answer);
    return answer;
  };
}

/** What each task asks of its station, as far as the names in it are known. */
function needsOf(draft: LineDraft): (keys: TaskKeys) => Need[] {
  const { floor } = draft;
  const anyZone = floor.stations.some((station) => station.keys.zone !== undefined);
  const listed = listedEquipment(draft);
  const skills = listedSkills(draft);
  return (keys) => [
    ...windowNeeds(draft, keys),
    ...(anyZone && keys.zone !== undefined ? [zoneNeed(keys.zone.value)] : []),
    ...valuesOf(keys.equipment)
      .filter((each) => listed.has(idKey(each.value)))
      .map((each) => holdingNeed(`with ${each.value}`, each.value, (station) => station.equipment)),
    ...valuesOf(keys.skill)
      .filter((each) => skills.has(idKey(each.value)))
      .map((each) => holdingNeed(`with the skill ${each.value}`, each.value, (station) => station.skills)),
  ];
}

function windowNeeds({ floor }: LineDraft, keys: TaskKeys): Need[] {
  const names = valuesOf(keys.station);
  const stations = names.flatMap((each) => floor.numberOf(each.value) ?? []);
  const [first, last] = [keys["not-before"], keys["not-after"]];
  const needs: Need[] = [];
  if (stations.length > 0) {
    const words = `that is ${names.map((each) => each.value).join(" or ")}`;
    needs.push({ words, fits: (number) => stations.includes(number), behind: false });
  }
  const from = first && floor.numberOf(first.value);
  const to = last && floor.numberOf(last.value);
  if (from !== undefined) {
    needs.push({ words: `not before ${first!.value}`, fits: (number) => number >= from, behind: true });
  }
  if (to !== undefined) {
    needs.push({ words: `not after ${last!.value}`, fits: (number) => number <= to, behind: false });
  }
  return needs;
}

function zoneNeed(zone: string): Need {
  const fits = (_: number, station: StationKeys) =>
    station.zone !== undefined && idKey(station.zone.value) === idKey(zone);
  return { words: `in zone ${zone}`, fits, behind: false };
}

function holdingNeed(
  words: string,
  name: string,
  held: (station: StationKeys) => StationKeys["equipment"],
): Need {
  const fits = (_: number, station: StationKeys) =>
    valuesOf(held(station)).some((each) => idKey(each.value) === idKey(name));
  return { words, fits, behind: false };
}
