import type { Line, Person } from "../../line/line.js";
import type { Station } from "../plan.js";

/** Where people work: at a station, or at a bench beside the line. */
export type Workplace = Pick<Station, "tasks" | "places" | "crew" | "sides" | "persons">;

/** Who of a place is meant: the number of a person who shares the work, or a side; null where all work together. */
export type Seat = number | "left" | "right" | null;

/** Skills that one person of a place needs. */
export interface AskedSkills {
  readonly seat: Seat;
  /** In the order of the tasks; never empty. */
  readonly skills: readonly string[];
}

/**
 * A place of which some task needs skills, with every way in which its people may have them: of those at each task one has all that it needs.
 * Nothing is asked of those whom a way leaves out.
 */
export interface SkilledPlace<Post extends Workplace = Workplace> {
  readonly post: Post;
  readonly ways: readonly (readonly AskedSkills[])[];
}

/** The places whose work needs skills; none where no people are listed, or the floor says what its stations can do. */
export function skilledPlaces<Post extends Workplace>(
  line: Line,
  posts: readonly Post[],
): SkilledPlace<Post>[] {
  if (line.people.length === 0 || line.floor.some(({ skills }) => skills !== null)) return [];
  return posts.flatMap((post) => {
    const asks = asksAt(line, post);
    if (asks.length === 0) return [];
    const place = { post, ways: waysToAsk(line, post, asks) };
    const { places } = post;
    return Array.from({ length: Number.isSafeInteger(places) && places > 0 ? places : 1 }, () => place);
  });
}

/** Skills of a task, and the people of its place who may have them, by index. */
interface Ask {
  readonly skills: readonly string[];
  readonly by: readonly number[];
}

/** What tasks ask, without what others ask of the same people anyway. */
function asksAt(line: Line, post: Workplace): Ask[] {
  const all = post.tasks.flatMap((task, at): Ask[] => {
    const { skills } = line.tasks[task]!;
    return skills.length === 0 ? [] : [{ skills, by: whoIsAt(line, post, task, at) }];
  });
  const isPart = <Each>(one: readonly Each[], two: readonly Each[]) =>
    one.every((each) => two.includes(each));
  const isSaidBy = (one: Ask, two: Ask) => isPart(one.skills, two.skills) && isPart(two.by, one.by);
  return all.filter(
    (ask, at) =>
      !all.some(
        (other, index) => index !== at && isSaidBy(ask, other) && (index < at || !isSaidBy(other, ask)),
      ),
  );
}

/** With sides the left is the first of a place, the right the second; further people are only at tasks of more than two. */
function whoIsAt(line: Line, { crew, sides, persons }: Workplace, task: number, at: number): number[] {
  const everybody = [...Array(Math.max(1, crew)).keys()];
  if (persons !== null) return (persons[at] ?? []).map((person) => person - 1);
  const side = sides?.[at];
  if (side === undefined || crew < 2) return everybody;
  if (side !== "both") return [side === "left" ? 0 : 1];
  return line.tasks[task]!.people > 2 ? everybody : [0, 1];
}

function seatOf({ crew, sides, persons }: Workplace, person: number): Seat {
  if (persons !== null) return person + 1;
  return sides === null || crew < 2 || person > 1 ? null : person === 0 ? "left" : "right";
}

function waysToAsk(line: Line, post: Workplace, asks: readonly Ask[]): AskedSkills[][] {
  const ways: AskedSkills[][] = [];
  const asked = new Map<number, readonly string[]>();
  // Where there is one way only it is told what nobody has.
  const isChosen = asks.some(({ by }) => by.length > 1);
  const mayHave = (skills: readonly string[]) =>
    !isChosen || line.people.some((person) => hasAll(person, skills));
  const isTriedBefore = (by: readonly number[], person: number) =>
    by.some(
      (other) =>
        other < person &&
        seatOf(post, other) === null &&
        seatOf(post, person) === null &&
        String(asked.get(other) ?? "") === String(asked.get(person) ?? ""),
    );
  const share = (at: number) => {
    if (at === asks.length) {
      const inOrder = [...asked].sort(([one], [two]) => one - two);
      ways.push(inOrder.map(([person, skills]) => ({ seat: seatOf(post, person), skills })));
      return;
    }
    const { skills, by } = asks[at]!;
    for (const person of by) {
      if (isTriedBefore(by, person)) continue;
      const before = asked.get(person);
      const after = [...new Set([...(before ?? []), ...skills])];
      if (!mayHave(after)) continue;
      asked.set(person, after);
      share(at + 1);
      if (before === undefined) asked.delete(person);
      else asked.set(person, before);
    }
  };
  share(0);
  return ways;
}

const hasAll = (person: Person, skills: readonly string[]): boolean =>
  skills.every((skill) => person.skills.includes(skill));

/** What is asked of one of the people. */
export interface Seated extends AskedSkills {
  /** The number of the person. */
  readonly person: number;
}

/**
 * One way to give every place people of its own, nobody at two places: for each place who has which seat; null where there is none. Ways to
 * share the skills of a place are tried in turn, people are matched to what they ask (augmenting paths, Berge 1957).
 */
export function seatPeople(places: readonly SkilledPlace[], people: readonly Person[]): Seated[][] | null {
  // Places of one way have no choice.
  const inTurn = [...places.keys()].sort((one, two) => places[one]!.ways.length - places[two]!.ways.length);
  const chosen: (readonly AskedSkills[])[] = [];
  const failed = new Set<string>();
  const choose = (at: number, seating: Seating): Seating | null => {
    if (at === inTurn.length) return seating;
    // Only what is asked of people so far matters, not where.
    const key = `${at}:${seating.asked
      .map(({ skills }) => skills.toSorted().join("|"))
      .sort()
      .join(";")}`;
    if (failed.has(key)) return null;
    for (const way of places[inTurn[at]!]!.ways) {
      const next = seatMore(seating, way, people);
      if (next === null) continue;
      chosen[at] = way;
      const found = choose(at + 1, next);
      if (found !== null) return found;
    }
    failed.add(key);
    return null;
  };
  const seating = choose(0, { asked: [], whereIs: new Map() });
  if (seating === null) return null;
  const personAt = new Map([...seating.whereIs].map(([person, index]) => [index, person]));
  const seated: Seated[][] = [];
  let index = 0;
  for (const [at, place] of inTurn.entries())
    seated[place] = chosen[at]!.map((asked) => ({ ...asked, person: personAt.get(index++)! }));
  return seated;
}

interface Seating {
  readonly asked: readonly AskedSkills[];
  /** By number of a person, the index of what is asked of them. */
  readonly whereIs: ReadonlyMap<number, number>;
}

function seatMore(
  { asked, whereIs: before }: Seating,
  way: readonly AskedSkills[],
  people: readonly Person[],
): Seating | null {
  const all = [...asked, ...way];
  const whereIs = new Map(before);
  const seat = (index: number, tried: Set<number>): boolean =>
    [...people.keys()].some((person) => {
      if (tried.has(person) || !hasAll(people[person]!, all[index]!.skills)) return false;
      tried.add(person);
      const taken = whereIs.get(person);
      if (taken !== undefined && !seat(taken, tried)) return false;
      whereIs.set(person, index);
      return true;
    });
  for (let index = asked.length; index < all.length; index++) if (!seat(index, new Set())) return null;
  return { asked: all, whereIs };
}
