import { countPeople } from "../../findings/count-of.js";
import type { Finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { type Check, fault, listOf, taskFault } from "./fault.js";
import { findShortages } from "./match-people.js";
import { type Seat, type SkilledPlace, seatPeople, skilledPlaces, type Workplace } from "./skilled-places.js";

/**
 * A skill that some station of the floor states is at the station of each task that needs it. Where no station states any and
 * people are listed, of the people at each task one has all its skills, and nobody is at two places.
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
  const posts = [...stations, ...benches].map((at) => {
    const { id, tasks, sides, persons, station } = at;
    return { id, tasks, sides, persons, places: station.places, crew: station.crew };
  });
  const places = skilledPlaces(line, posts);
  if (places.some(({ ways }) => ways.length !== 1)) {
    if (seatPeople(places, line.people) !== null) return [];
    const hopeless = places.filter((place) => seatPeople([place], line.people) === null);
    if (hopeless.length > 0)
      return hopelessFaults(
        line,
        hopeless.map(({ post }) => post),
      );
    const all = [...new Set(places.map(({ post }) => `${post.id} (${listOf(skillsAt(line, post))})`))];
    const words = `the people listed cannot be at ${listOf(all)} at once, each at one place, with one of those at each task who has all its skills`;
    return [fault("skill", words, places[0]!.post.id, null, SKILLS)];
  }
  return shortagesOf(line, places);
};

/** Of people at a place none, or too few beside each other, have what its tasks need. */
function hopelessFaults(line: Line, posts: readonly Post[]): Finding[] {
  return [...new Set(posts)].map((post) => {
    const { id, crew } = post;
    const words = `${id} needs ${listOf(skillsAt(line, post))} of ${countPeople(crew)}; the people listed cannot share its tasks so that one at each has all its skills`;
    return fault("skill", words, id, null, SKILLS);
  });
}

type Post = Workplace & { readonly id: string };

const skillsAt = (line: Line, { tasks }: Post): string[] => [
  ...new Set(tasks.flatMap((task) => line.tasks[task]!.skills)),
];

/** Where it is certain what each person is asked: sets of places with too few people for them. */
function shortagesOf(line: Line, places: readonly SkilledPlace<Post>[]): Finding[] {
  const asked = places.flatMap(({ post: { id }, ways: [way] }) => way!.map((each) => ({ ...each, id })));
  const found = findShortages(
    asked.map(({ skills }) => skills),
    line.people,
  );
  const nobody = new Map<string, Finding>();
  const tooFew = found.flatMap((shortage) => {
    const short = shortage.places.map((at) => asked[at]!);
    const [{ id, skills, seat }] = short as [(typeof asked)[number]];
    if (shortage.people.length === 0) {
      const words = `${id} needs a person with ${listOf(skills)}${seatWords(seat)}; nobody is listed with that`;
      nobody.set(`${id} ${seat}`, fault("skill", words, id, null, SKILLS));
      return [];
    }
    const where = [
      ...new Set(short.map((each) => `${each.id} (${listOf(each.skills)}${seatWords(each.seat)})`)),
    ];
    const able = shortage.people.map((at) => line.people[at]!.id);
    const need = short.some((each) => each.seat !== null) ? "people are needed" : "places need a person each";
    const words = `${short.length} ${need}, ${listOf(where)}; only ${listOf(able)} can take them`;
    return [fault("skill", words, id, null, SKILLS)];
  });
  return [...tooFew, ...nobody.values()];
}

const seatWords = (seat: Seat): string =>
  seat === null ? "" : typeof seat === "number" ? ` as person ${seat}` : ` at the ${seat}`;

const SKILLS = { kind: "short-of", what: "skills" } as const;
