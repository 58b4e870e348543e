import { countOf } from "../../findings/count-of.js";
import type { Finding } from "../../findings/finding.js";
import { quoted } from "../../time/quoted.js";
import { idKey } from "../ids.js";
import type { LineDraft } from "../line-draft.js";
import { MOST_NUMBERED, STATION_KEYS } from "../parts/floor.js";
import type { TextDraft } from "../read/draft.js";
import { valuesOf } from "../read/draft.js";
import { found, type KnownNames, type LineRule, refuseUnknown, type UsedName } from "./line-rule.js";

export const duplicateStation: LineRule = {
  name: "duplicate-station",
  purpose: "Every station stands once.",
  check(draft) {
    const first = new Map<string, TextDraft<string>>();
    return draft.floor.stations.flatMap(({ keys: { id } }) => {
      if (id === undefined) return [];
      const earlier = first.get(idKey(id.value));
      if (earlier === undefined) {
        first.set(idKey(id.value), id);
        return [];
      }
      const { line, column } = earlier.place;
      const message = `stations: ${quoted(id.value)} stands here a second time; the first is in line ${line}, column ${column}`;
      return [found("duplicate-station", draft, { severity: "error", message, place: id.place })];
    });
  },
};

export const unknownStation: LineRule = {
  name: "unknown-station",
  purpose: "Every station that a task names exists, or is numbered where the file lists none.",
  check(draft) {
    const { listed, complete, stations } = draft.floor;
    if (!listed) return refuseNumbers(draft);
    if (!complete) return [];
    const names = stations.map((station) => station.id);
    const refuse = (id: string) => `no station is called ${id}`;
    return refuseUnknown("unknown-station", draft, { names, refuse }, namedStations(draft));
  },
};

function namedStations({ tasks }: LineDraft): UsedName[] {
  return tasks.flatMap(({ id, keys }) =>
    STATION_KEYS.flatMap((key) =>
      valuesOf(keys[key]).map((named) => ({ named, where: `task ${id}, ${key}`, task: id })),
    ),
  );
}

function refuseNumbers(draft: LineDraft) {
  return namedStations(draft)
    .filter(({ named }) => draft.floor.numberOf(named.value) === undefined)
    .map(({ named, where, task }) => {
      const message = `${where}: ${quoted(named.text)} is no station: the file lists no \`stations\`, so S1 to S${MOST_NUMBERED} name them by number${advice(named.text)}`;
      return found("unknown-station", draft, { severity: "error", message, place: named.place, task });
    });
}

/** s3, 3, S 3, S03 and station 3 are meant as S3. */
function advice(text: string): string {
  const number = Number(/^(?:s|station)?\s*0*([1-9]\d{0,3})$/iu.exec(text.trim())?.[1] ?? 0);
  return number >= 1 && number <= MOST_NUMBERED ? `; write S${number}` : "";
}

export const stationRange: LineRule = {
  name: "station-range",
  purpose: "The first station that may hold a task does not come after the last.",
  check(draft) {
    return draft.tasks.flatMap(({ id, keys }) => {
      const [first, last] = [keys["not-before"], keys["not-after"]];
      if (first === undefined || last === undefined) return [];
      const [from, to] = [draft.floor.numberOf(first.value), draft.floor.numberOf(last.value)];
      if (from === undefined || to === undefined || from <= to) return [];
      const message = `task ${id}: not-before ${first.value} comes after not-after ${last.value}, so no station is left; exchange them, or take one out`;
      return [found("station-range", draft, { severity: "error", message, place: first.place, task: id })];
    });
  },
};

export const unknownZone: LineRule = {
  name: "unknown-zone",
  purpose: "Where stations stand in zones, every zone of a task is one of them.",
  check(draft) {
    const known = knownZones(draft);
    if (known === null || !draft.floor.complete) return [];
    const used = draft.tasks.flatMap(({ id, keys }) =>
      keys.zone === undefined ? [] : [{ named: keys.zone, where: `task ${id}, zone`, task: id }],
    );
    return refuseUnknown("unknown-zone", draft, known, used);
  },
};

export const unknownEquipment: LineRule = {
  name: "unknown-equipment",
  purpose: "Where equipment is counted, all that tasks need and stations have is.",
  check(draft) {
    const known = knownEquipment(draft);
    if (known === null) return [];
    const atStations = draft.floor.stations.flatMap(({ id, keys }) =>
      valuesOf(keys.equipment).map((named) => ({ named, where: `station ${id}, equipment`, task: null })),
    );
    const inTasks = draft.tasks.flatMap(({ id, keys }) =>
      valuesOf(keys.equipment).map((named) => ({ named, where: `task ${id}, equipment`, task: id })),
    );
    return refuseUnknown("unknown-equipment", draft, known, [...atStations, ...inTasks]);
  },
};

export const equipmentCount: LineRule = {
  name: "equipment-count",
  purpose: "No more stations have an equipment than exist of it.",
  check(draft) {
    return (draft.keys.equipment?.entries ?? []).flatMap(({ id, place, value }) => {
      const holders = draft.floor.stations.filter(({ keys }) =>
        valuesOf(keys.equipment).some((each) => idKey(each.value) === idKey(id)),
      );
      if (value === undefined || holders.length <= value.value) return [];
      const names = holders.map((station) => station.id).join(", ");
      const exist = value.value === 1 ? "only 1 exists" : `only ${value.value} exist`;
      const message = `equipment ${id}: ${countOf(holders.length, "station")} (${names}) have it and ${exist}; take it off a station, or correct the count`;
      return [found("equipment-count", draft, { severity: "error", message, place })];
    });
  },
};

export const unknownSkill: LineRule = {
  name: "unknown-skill",
  purpose:
    "Where stations or people have skills, every skill of a task is one of them; of stations this is only a warning.",
  check(draft) {
    const known = knownSkills(draft);
    if (known === null || !draft.floor.complete) return [];
    const used = draft.tasks.flatMap(({ id, keys }) =>
      valuesOf(keys.skill).map((named) => ({ named, where: `task ${id}, skill`, task: id })),
    );
    // A floor need not say everything: a skill that no station states binds no task to any.
    return refuseUnknown(
      "unknown-skill",
      draft,
      known,
      used,
      statesSkills(draft.floor) ? "warning" : "error",
    );
  },
};

export const unusedTraining: LineRule = {
  name: "unused-training",
  purpose: "Warns of training for skills that no task needs.",
  check: (draft) => findUnusedSkills(draft, "unused-training", "training", "nobody is trained for it"),
};

export const unusedMoveCost: LineRule = {
  name: "unused-move-cost",
  purpose: "Warns of costs of moves for skills that no task needs.",
  check: (draft) => findUnusedSkills(draft, "unused-move-cost", "move-costs", "no move costs more for it"),
};

/** Skills that a map names and no task needs. */
function findUnusedSkills(
  draft: LineDraft,
  rule: string,
  where: "training" | "move-costs",
  so: string,
): Finding[] {
  const named = (draft.keys[where]?.entries ?? []).map(({ id, place }) => ({
    named: { text: id, value: id, place },
    where,
    task: null,
  }));
  const names = draft.tasks.flatMap(({ keys }) => valuesOf(keys.skill)).map(({ value }) => value);
  const refuse = (name: string) => `no task needs the skill ${name}, so ${so}`;
  return refuseUnknown(rule, draft, { names, refuse }, named, "warning");
}

export const noPersonFits: LineRule = {
  name: "no-person-fits",
  purpose: "Every task finds one person with all its skills.",
  check(draft) {
    if (draft.keys.people === undefined || statesSkills(draft.floor)) return [];
    const people = draft.keys.people.entries.map(
      ({ value }) => new Set(valuesOf(value).map((each) => idKey(each.value))),
    );
    return draft.tasks.flatMap(({ id, keys: { skill } }) => {
      const skills = valuesOf(skill).map((each) => each.value);
      const has = (person: ReadonlySet<string>) => (each: string) => person.has(idKey(each));
      // A skill that nobody has is a finding of its own.
      const known = skills.every((each) => people.some((person) => has(person)(each)));
      if (!known || skills.length === 0 || people.some((person) => skills.every(has(person)))) return [];
      const message = `task ${id}, skill: nobody of \`people\` has ${skills.join(" and ")} together; one of those at the task has all its skills`;
      return [found("no-person-fits", draft, { severity: "error", message, place: skill!.place, task: id })];
    });
  },
};

export const peopleAndSkills: LineRule = {
  name: "people-and-skills",
  purpose: "Skills are looked for at the stations or among the people, not at both.",
  check(draft) {
    const people = draft.places.people;
    if (people === undefined || !statesSkills(draft.floor)) return [];
    const message =
      "people: the stations state skills, so who has them is not looked at and nobody is counted; take `skills` out of `stations` to staff the line with these people";
    return [found("people-and-skills", draft, { severity: "warning", message, place: people, task: null })];
  },
};

export const crewAndSides: LineRule = {
  name: "crew-and-sides",
  purpose: "Where tasks have sides, the people of a place share a unit by its sides alone.",
  check(draft) {
    const { keys, floor, tasks } = draft;
    const sided = tasks.find((task) => task.keys.side !== undefined);
    if (sided === undefined) return [];
    const given = [
      { where: "max-crew", crew: keys["max-crew"] },
      ...floor.stations.map((station) => ({
        where: `station ${station.id}, max-crew`,
        crew: station.keys["max-crew"],
      })),
    ];
    return given.flatMap(({ where, crew }) => {
      if (crew === undefined || crew.value === 1) return [];
      const message = `${where}: ${crew.value} people share a unit, and this line is worked from its sides (task ${sided.id}), where each side has a person of its own; take out \`max-crew\`, or the sides`;
      return [found("crew-and-sides", draft, { severity: "error", message, place: crew.place })];
    });
  },
};

/** Zones of stations; null where no station has one. */
function knownZones({ floor }: LineDraft): KnownNames | null {
  const names = floor.stations.flatMap((station) => station.keys.zone?.value ?? []);
  return names.length === 0 ? null : { names, refuse: (name) => `no station is in a zone ${name}` };
}

/** Skills of stations where any states them, else of people; null where neither does. */
function knownSkills({ floor, keys, places }: LineDraft): KnownNames | null {
  if (statesSkills(floor)) {
    const skills = floor.stations.flatMap((station) => valuesOf(station.keys.skills));
    return {
      names: skills.map((each) => each.value),
      refuse: (name) => `no station has the skill ${name}, so any may hold the task`,
    };
  }
  if (places.people === undefined || keys.people === undefined) return null;
  const skills = keys.people.entries.flatMap((person) => valuesOf(person.value));
  return {
    names: skills.map((each) => each.value),
    refuse: (name) => `nobody of \`people\` has the skill ${name}`,
  };
}

/** Equipment that is counted; null where the line counts none. */
function knownEquipment({ keys }: LineDraft): KnownNames | null {
  if (keys.equipment === undefined) return null;
  return {
    names: keys.equipment.entries.map((each) => each.id),
    refuse: (name) => `${name} is not counted in \`equipment\` of the line`,
  };
}

/** Equipment that any station lists, by what makes names equal. */
export function listedEquipment({ floor }: LineDraft): ReadonlySet<string> {
  const listed = floor.stations.flatMap((station) => valuesOf(station.keys.equipment));
  return new Set(listed.map((each) => idKey(each.value)));
}

/** Skills that any station states, by what makes names equal. */
export function listedSkills({ floor }: LineDraft): ReadonlySet<string> {
  const listed = floor.stations.flatMap((station) => valuesOf(station.keys.skills));
  return new Set(listed.map((each) => idKey(each.value)));
}

function statesSkills({ stations }: LineDraft["floor"]): boolean {
  return stations.some((station) => station.keys.skills !== undefined);
}
