import { topologicalOrder } from "../line/precedence.js";

/**
 * Tasks that must share a station, as blocks: the groups asked for, with every task that lies between two of a group, since it
 * can stand nowhere else; groups that wait for each other become one. Every task is in exactly one block, alone or not; the
 * blocks come in an order of work, and so do the tasks of each.
 */
export function mergeTogether(
  before: readonly (readonly number[])[],
  groups: readonly (readonly number[])[],
): number[][] {
  const blockOf = before.map((_, task) => task);
  const join = (one: number, two: number) => {
    const [from, to] = [Math.max(blockOf[one]!, blockOf[two]!), Math.min(blockOf[one]!, blockOf[two]!)];
    for (const [task, block] of blockOf.entries()) if (block === from) blockOf[task] = to;
  };
  for (const group of groups) for (const task of group) join(group[0]!, task);
  // Blocks on a loop of blocks stand between each other's tasks: all of them share the station.
  for (let loop = findLoop(before, blockOf); loop !== null; loop = findLoop(before, blockOf)) {
    for (const block of loop) join(loop[0]!, block);
  }
  const ids = [...new Set(blockOf)].sort((one, two) => one - two);
  const numberOf = new Map(ids.map((id, at) => [id, at]));
  const members: number[][] = ids.map(() => []);
  for (const task of topologicalOrder(before)) members[numberOf.get(blockOf[task]!)!]!.push(task);
  const between = ids.map(() => new Set<number>());
  for (const [task, earlier] of before.entries()) {
    const own = numberOf.get(blockOf[task]!)!;
    for (const each of earlier) {
      const other = numberOf.get(blockOf[each]!)!;
      if (other !== own) between[own]!.add(other);
    }
  }
  return topologicalOrder(between.map((set) => [...set])).map((block) => members[block]!);
}

/** Tasks that name the blocks of one loop of blocks, or null where there is none. */
function findLoop(before: readonly (readonly number[])[], blockOf: readonly number[]): number[] | null {
  const next = new Map<number, Set<number>>();
  for (const [task, earlier] of before.entries()) {
    for (const each of earlier) {
      if (blockOf[each] === blockOf[task]) continue;
      const known = next.get(blockOf[task]!) ?? new Set();
      next.set(blockOf[task]!, known.add(blockOf[each]!));
    }
  }
  const done = new Set<number>();
  for (const start of next.keys()) {
    const path: number[] = [];
    const on = new Set<number>();
    const stack: { block: number; rest: number[] }[] = [];
    const enter = (block: number) => {
      path.push(block);
      on.add(block);
      stack.push({ block, rest: [...(next.get(block) ?? [])] });
    };
    if (done.has(start)) continue;
    enter(start);
    while (stack.length > 0) {
      const top = stack.at(-1)!;
      const block = top.rest.pop();
      if (block === undefined) {
        done.add(top.block);
        on.delete(top.block);
        path.pop();
        stack.pop();
      } else if (on.has(block)) {
        return path.slice(path.indexOf(block));
      } else if (!done.has(block)) {
        enter(block);
      }
    }
  }
  return null;
}
