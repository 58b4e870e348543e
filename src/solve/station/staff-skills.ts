/**
 * What is asked of each person of a place, as bits of skills, by their numbers or with sides the left first; 0 asks nothing. Empty where no
 * task there needs a skill.
 */
export type Team = readonly bigint[];

export const NO_TEAM: Team = [];
export const NO_TEAMS: readonly Team[] = [NO_TEAM];

/** The skills asked of people, one entry a person of whom any is asked, at so many places. */
export function asksOf(team: Team, places: number): readonly bigint[] {
  let asks = asked.get(team);
  if (asks === undefined) {
    asks = team.filter((own) => own !== 0n);
    asked.set(team, asks);
  }
  return places === 1 ? asks : Array.from({ length: places }, () => asks).flat();
}

/** Teams come back again and again. */
const asked = new WeakMap<Team, readonly bigint[]>();

/**
 * Whether everybody of whom skills are asked can be a person of their own who has all of them (a matching; augmenting paths, Berge 1957).
 */
export function mayBeStaffed(asks: readonly bigint[], people: readonly bigint[]): boolean {
  if (asks.length > people.length) return false;
  return asks.length === 0 || staffSkills(asks, people) !== null;
}

/** For each of those asked the number of a person, or null where no such assignment exists. */
export function staffSkills(asks: readonly bigint[], people: readonly bigint[]): number[] | null {
  const able = ableOf(people);
  const whereIs = new Int32Array(people.length).fill(NOBODY);
  const seen = new Int32Array(people.length).fill(NOBODY);
  const assign = (ask: number, turn: number): boolean => {
    for (const person of able(asks[ask]!)) {
      if (seen[person] === turn) continue;
      seen[person] = turn;
      if (whereIs[person] === NOBODY || assign(whereIs[person]!, turn)) {
        whereIs[person] = ask;
        return true;
      }
    }
    return false;
  };
  for (let ask = 0; ask < asks.length; ask++) if (!assign(ask, ask)) return null;
  return asks.map((_, ask) => whereIs.indexOf(ask));
}

const NOBODY = -1;

/** The numbers of those of a list who have all of some skills; lists are asked again and again. */
function ableOf(people: readonly bigint[]): (skills: bigint) => readonly number[] {
  const known = able.get(people) ?? new Map<bigint, readonly number[]>();
  able.set(people, known);
  return (skills) => {
    let own = known.get(skills);
    if (own === undefined) {
      own = [...people.keys()].filter((person) => (skills & ~people[person]!) === 0n);
      known.set(skills, own);
    }
    return own;
  };
}

const able = new WeakMap<readonly bigint[], Map<bigint, readonly number[]>>();
