import type { Cost } from "../cost.js";
import { mostAtOnce, mostOfPerson, type Today, type Work } from "../work.js";
import { OverfullHomes } from "./overfull-homes.js";
import { ceilingDivision } from "./whole-numbers.js";

/**
 * What moves to any plan below a ceiling cost at the least. Every move leaves one station and comes to another, so it may be counted where
 * it leaves, where it comes to, or partly here and there: for each station of today by itself, what leaves it and what comes to it. What leaves: the others
 * must fit. What comes: so few people leave little time idle, and a station of which less stays than one person works must be filled up
 * with others, or be idle. Idle time of all stations together has a price (a Lagrangian relaxation, Geoffrion 1974); any price gives a bound, and the
 * best of some is taken. Stations that must be given up, as there will not be so many, lose all of theirs, the cheapest of them.
 *
 * Whole numbers only. Supports every work: it speaks of time and people alone, as `Headroom` does.
 */
export function leastMoves(work: Work, today: Today, ceiling: Cost): number {
  const homes = new OverfullHomes(work, today);
  const mostPeople = ceiling.stations > 0 ? ceiling.people : ceiling.people - 1;
  const mostStations = ceiling.stations > 0 ? Math.max(ceiling.stations, ceiling.people) - 1 : mostPeople;
  const mustGo = Math.max(0, today.labels - Math.min(mostPeople, mostStations));
  const leaving = Array.from({ length: today.labels }, (_, label) => homes.leastWithout(label, () => false));
  const whole = leaving.map((_, label) => homes.of(label).reduce((sum, { cost }) => sum + cost, 0));
  const known = sumOfCheapest(leaving, whole, mustGo);
  const idle = lookAtIdle(work, today, homes, mostPeople);
  if (idle === null) return known;
  let best = known;
  for (const share of SHARES) {
    for (const price of idle.prices) best = Math.max(best, idle.bound(share, price, mustGo));
  }
  return best;
}

/** Of every station the lower of both, of so many the second: those where that makes the least difference. */
function sumOfCheapest(kept: readonly number[], givenUp: readonly number[], mustGo: number): number {
  let sum = 0;
  let gone = 0;
  const more: number[] = [];
  for (const [at, cost] of kept.entries()) {
    sum += Math.min(cost, givenUp[at]!);
    if (givenUp[at]! <= cost) gone++;
    else more.push(givenUp[at]! - cost);
  }
  more.sort((one, two) => one - two);
  for (let at = 0; at < mustGo - gone; at++) sum += more[at]!;
  return sum;
}

/** A set of blocks that stay at a station: what the others cost that leave it, and the person-time that stays. */
interface Staying {
  readonly leave: number;
  readonly time: number;
}

/** Null where people are as good as unlimited. */
function lookAtIdle(work: Work, today: Today, homes: OverfullHomes, mostPeople: number) {
  const perPerson = reachableByPerson(work);
  const time = countedTime(work);
  const all = time.reduce((sum, each) => sum + each, 0);
  // What has one home moves at its cost; all others may fill up stations for nothing.
  const costs = today.homes.map((own) => (own.length === 1 ? Math.min(own[0]!.cost, MOST_COST) : 0));
  const free = time.reduce((sum, each, block) => sum + (costs[block] === 0 ? each : 0), 0);
  const spare = mostPeople * perPerson - all + free;
  const total = costs.reduce((sum, each) => sum + each, 0);
  if (spare > all || total === 0) return null;
  const cheapest = Math.min(...costs.filter((cost) => cost > 0));
  // The most person-time that comes for a cost of 1.
  const perCost = Math.max(
    1,
    ...time.map((own, block) => (costs[block]! > 0 ? Math.ceil(own / costs[block]!) : 0)),
  );
  const stays = Array.from({ length: today.labels }, (_, label) => {
    const own = homes
      .of(label)
      .filter(({ block }) => costs[block]! > 0)
      .map(({ block, load }) => ({ load, cost: costs[block]!, time: time[block]! }));
    return stayingSets(own, homes.roomAt(label).shared);
  });
  const whole = stays.map((sets) => Math.max(...sets.map(({ leave }) => leave)));
  const gaps = stays.map(([most]) => perPerson - most!.time).filter((gap) => gap > 0);
  const prices = [...new Set([perCost * cheapest, ...someOf(gaps)])].filter(
    (price) => PARTS * (price * total + spare) < Number.MAX_SAFE_INTEGER,
  );
  return {
    prices,
    /** Moves count by `share` of PARTS where they leave, by the rest where they come to; so much idle time costs as much as such a rest. */
    bound(share: number, price: number, mustGo: number): number {
      const rest = PARTS - share;
      const fillUp = (gap: number) => {
        let least = rest * gap;
        for (const cost of [cheapest, Math.floor(gap / perCost), Math.ceil(gap / perCost)])
          if (cost >= cheapest)
            least = Math.min(least, rest * (cost * price + Math.max(0, gap - cost * perCost)));
        return least;
      };
      const kept = stays.map((sets) =>
        Math.min(
          ...sets.map((each) => share * each.leave * price + fillUp(Math.max(0, perPerson - each.time))),
        ),
      );
      const givenUp = whole.map((leave) => share * leave * price);
      const sum = sumOfCheapest(kept, givenUp, mustGo) - rest * spare;
      return sum <= 0 ? 0 : ceilingDivision(sum, PARTS * price);
    },
  };
}

/** Which blocks may stay at home together: for each cost of those that leave the most person-time; the most that stays first. */
function stayingSets(
  own: readonly { readonly load: number; readonly cost: number; readonly time: number }[],
  room: number,
): Staying[] {
  const all = own.reduce((sum, { cost }) => sum + cost, 0);
  if (own.length > MOST_IN_SETS)
    return [
      { leave: 0, time: own.reduce((sum, each) => sum + each.time, 0) },
      { leave: all, time: 0 },
    ];
  const best = new Map<number, number>();
  for (let set = 0; set < 2 ** own.length; set++) {
    let [load, stay, kept, timed] = [0, 0, 0, 0];
    for (const [at, each] of own.entries()) {
      if (((set >>> at) & 1) === 0) continue;
      load += each.load;
      stay += each.time;
      kept += each.cost;
      if (each.load > 0) timed++;
    }
    if ((load <= room || timed <= 1) && (best.get(all - kept) ?? -1) < stay) best.set(all - kept, stay);
  }
  return [...best]
    .map(([leave, time]) => ({ leave, time }))
    .sort((one, two) => two.time - one.time || one.leave - two.leave);
}

/** The person-time of each block, of what stands alone above the limit no more than the people take who are counted for it. */
export function countedTime(work: Work): number[] {
  const perPerson = reachableByPerson(work);
  return work.work.map((own, block) =>
    Math.min(own, perPerson * work.people[block]! * placesAlone(work, block)),
  );
}

/** The most that one person may be loaded with, where loads are all multiples of one number. */
export function reachableByPerson(work: Work): number {
  if (mostAtOnce(work) > 1) return mostOfPerson(work);
  const step = work.loads.reduce(greatestCommonDivisor, 0);
  const most = work.kinds.flatMap(({ limits }) =>
    limits.map((limit, at) => Math.ceil((step === 0 ? limit : limit - (limit % step)) / (at + 1))),
  );
  return Math.max(1, ...most);
}

/** The fewest places at which a block stands alone: it may exceed the limit there, and still takes so many people. */
function placesAlone({ kinds, loads }: Work, block: number): number {
  const fewest = kinds
    .map(({ alone }) => 1 + alone.findIndex((most) => loads[block]! <= most))
    .filter((places) => places > 0);
  return fewest.length === 0 ? 1 : Math.min(...fewest);
}

function greatestCommonDivisor(one: number, two: number): number {
  return two === 0 ? one : greatestCommonDivisor(two, one % two);
}

/** Some of the numbers from the least to the greatest. */
function someOf(numbers: readonly number[]): number[] {
  const all = [...new Set(numbers)].sort((one, two) => one - two);
  const step = Math.ceil(all.length / MOST_PRICES) || 1;
  return all.filter((_, at) => at % step === 0);
}

/** A move counts in so many parts, by each of these where it leaves. */
const PARTS = 4;
const SHARES = [0, 1, 2, 3];
const MOST_PRICES = 24;
/** Sets of blocks that stay are listed where no more stand at a station. */
const MOST_IN_SETS = 10;
/** Dearer moves count as no more than this, so that sums stay exact. */
const MOST_COST = 1_000;
