import { add, compare, divide, larger, multiply, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import type { Post } from "../post.js";

/**
 * How often a post can send on a unit of the line, in microseconds: the line cycle that it can just keep. It is the longest of what its
 * people, the room where units stand and its equipment can keep. Nobody loses time to handling while equipment is held.
 */
export const cycleOfPost = (post: Post): Ratio =>
  cyclesAt(post)
    .map(({ cycle }) => cycle)
    .reduce(larger);

/** What a post can keep no shorter cycle for: its people, the room where units stand, or an equipment that units keep. */
export type CycleSetBy = { readonly kind: "people" } | HeldBy;

/** What holds a post up where its people could keep a shorter cycle. */
export type HeldBy = { readonly kind: "dwell" } | { readonly kind: "equipment"; readonly name: string };

/** The first of these that needs the whole cycle of the post: with nothing but hands a unit stands as long as people work. */
export function cycleSetBy(post: Post): CycleSetBy {
  const cycle = cycleOfPost(post);
  return cyclesAt(post).find((each) => compare(each.cycle, cycle) === 0)!.by;
}

/** What keeps a post from a line cycle where more hands do not help; null where it keeps it, or where its people take longest. */
export function heldBy(post: Post, lineCycle: Ratio): HeldBy | null {
  if (compare(cycleOfPost(post), lineCycle) <= 0) return null;
  const by = cycleSetBy(post);
  return by.kind === "people" ? null : by;
}

function cyclesAt(post: Post): { readonly by: CycleSetBy; readonly cycle: Ratio }[] {
  return [
    { by: { kind: "people" }, cycle: cycleOfPeople(post) },
    { by: { kind: "dwell" }, cycle: cycleOfDwell(post) },
    ...post.equipment.map(({ name, held, units }) => ({
      by: { kind: "equipment", name } as const,
      cycle: perUnitOfLine({ ...post, places: units }, held),
    })),
  ];
}

/** (Busy time of its busiest person + handling) x share / (places x hours): what its people could keep if nothing held them up. */
export const cycleOfPeople = (post: Post): Ratio => perUnitOfLine(post, add(post.busy, post.handling));

/** (Dwell / units that may stand at a place + handling) x share / (places x hours): what the room where units stand can keep. */
export const cycleOfDwell = (post: Post): Ratio =>
  perUnitOfLine(post, add(divide(post.dwell, ratio(post.holds)), post.handling));

/** (Busy time / plan-to + handling) x share / (places x hours): what its people can keep with their reserve. */
export const cycleOfHands = (post: Post): Ratio =>
  perUnitOfLine(post, add(divide(post.busy, post.planTo), post.handling));

/** The line cycle that loads a post to its limit: what its people keep with their reserve, or the room where units stand without one. */
export const cycleWithReserve = (post: Post): Ratio => larger(cycleOfHands(post), cycleOfDwell(post));

/** Cycle of the plan = the largest over all posts, in microseconds; 0 without posts. */
export const cycleOfPlan = (posts: readonly Post[]): Ratio => posts.map(cycleOfPost).reduce(larger, ZERO);

/** The first post whose cycle is the cycle of the plan. Throws a RangeError for a plan without posts. */
export function slowestPost(posts: readonly Post[]): Post {
  const slowest = cycleOfPlan(posts);
  const found = posts.find((post) => compare(cycleOfPost(post), slowest) === 0);
  if (found === undefined) throw new RangeError("a plan without posts has no slowest one");
  return found;
}

function perUnitOfLine({ share, places, hours }: Post, ofUnit: Ratio): Ratio {
  return divide(multiply(ofUnit, share), multiply(ratio(places), hours));
}
