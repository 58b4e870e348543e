import type { Finding } from "../../findings/finding.js";
import { type Check, fault, listOf, taskFault } from "./fault.js";
import { findShortages } from "./match-people.js";
import { isWholeCount } from "./whole-times.js";

/**
 * A skill that some station of the floor states is at the station of each task that needs it. Where no station states any and
 * people are listed, each place whose work needs skills gets a person of its own who has all of them.
 */
export const checkSkills: Check = (view) => {
  if (view.line.floor.some(({ skills }) => skills !== null)) return checkSkillsOfFloor(view);
  return view.line.people.length > 0 ? checkPeople(view) : [];
};

const checkSkillsOfFloor: Check = (view) =>
  [...view.stationOf].flatMap(([task, at]) => {
    const there = at.floor?.skills ?? [];
    const stated = (skill: string) => view.line.floor.some(({ skills }) => skills?.includes(skill));
    const missing = view.line.tasks[task]!.skills.filter((skill) => stated(skill) && !there.includes(skill));
    if (missing.length === 0) return [];
    const has = there.length === 0 ? "has no skills" : `has ${listOf(there)}`;
    return [
      taskFault(
        "skill",
        view,
        at,
        task,
        `needs ${listOf(missing)}; it stands at ${at.id}, which ${has}`,
        SKILLS,
      ),
    ];
  });

const checkPeople: Check = ({ line, stations, benches }) => {
  const places = [...stations, ...benches].flatMap(({ id, tasks, station }): Place[] => {
    const skills = [...new Set(tasks.flatMap((task) => line.tasks[task]!.skills))];
    const count = isWholeCount(station.places) ? station.places : 1;
    return skills.length === 0 ? [] : Array.from({ length: count }, () => ({ id, skills }));
  });
  const found = findShortages(
    places.map(({ skills }) => skills),
    line.people,
  );
  const nobody = new Map<string, Finding>();
  const tooFew = found.flatMap((shortage) => {
    const asked = shortage.places.map((at) => places[at]!);
    const [{ id, skills }] = asked as [Place];
    if (shortage.people.length === 0) {
      const words = `${id} needs a person with ${listOf(skills)}; nobody is listed with that`;
      nobody.set(id, fault("skill", words, id, null, SKILLS));
      return [];
    }
    const where = [...new Set(asked.map((place) => `${place.id} (${listOf(place.skills)})`))];
    const able = shortage.people.map((at) => line.people[at]!.id);
    const words = `${asked.length} places need a person each, ${listOf(where)}; only ${listOf(able)} can take them`;
    return [fault("skill", words, id, null, SKILLS)];
  });
  return [...tooFew, ...nobody.values()];
};

const SKILLS = { kind: "short-of", what: "skills" } as const;

interface Place {
  readonly id: string;
  readonly skills: readonly string[];
}
