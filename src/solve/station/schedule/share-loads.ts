/** Tasks put to people at the most before nothing is said. */
const MOST_TRIES = 5_000;

/**
 * Who does which task, as bits of people who are alike, so that none of them is loaded above a limit, whatever the order of work: each task
 * goes to as many different people as it takes. "no" where nobody can share them so, "open" where that is not known after many tries.
 *
 * @param loads of each task and person that it takes
 */
export function shareLoads(
  loads: readonly number[],
  people: readonly number[],
  persons: number,
  limit: number,
): readonly number[] | "no" | "open" {
  const masks = loads.map(() => 0);
  const order = [...loads.keys()].sort(
    (one, two) => people[two]! - people[one]! || loads[two]! - loads[one]! || one - two,
  );
  const left = Array<number>(persons).fill(limit);
  let ahead = loads.reduce((sum, load, task) => sum + load * people[task]!, 0);
  let tries = 0;
  const place = (at: number): boolean => {
    if (at === order.length) return true;
    if (ahead > left.reduce((sum, each) => sum + each, 0)) return false;
    const task = order[at]!;
    const load = loads[task]!;
    const give = (from: number, missing: number): boolean => {
      if (missing === 0) return place(at + 1);
      for (let person = from; person <= persons - missing; person++) {
        if (left[person]! < load || isTriedBefore(left, from, person)) continue;
        if (tries++ >= MOST_TRIES) return false;
        left[person]! -= load;
        masks[task]! |= 1 << person;
        ahead -= load;
        if (give(person + 1, missing - 1)) return true;
        left[person]! += load;
        masks[task]! &= ~(1 << person);
        ahead += load;
      }
      return false;
    };
    return give(0, people[task]!);
  };
  if (place(0)) return masks;
  return tries < MOST_TRIES ? "no" : "open";
}

/** Somebody before, from a number on, has as much time left. */
function isTriedBefore(left: readonly number[], from: number, person: number): boolean {
  for (let other = from; other < person; other++) if (left[other] === left[person]) return true;
  return false;
}
