import fc from "fast-check";
import { expect, it } from "vitest";
import { allFollowers } from "../../../src/line/reach.js";
import { mergeTogether } from "../../../src/solve/merge-together.js";
import { smallLines } from "../search/small-lines.js";

const cases = smallLines(9).chain(({ before }) =>
  fc.record({
    before: fc.constant(before),
    groups: fc.array(fc.uniqueArray(fc.nat(before.length - 1), { minLength: 1, maxLength: 3 }), {
      maxLength: 3,
    }),
  }),
);

/**
 * Which tasks share every station that any plan may give them, by plain repetition: tasks of a group, and tasks that wait for a
 * shared one and are waited for by another.
 */
function shareByRepetition(before: readonly (readonly number[])[], groups: readonly (readonly number[])[]) {
  const label = before.map((_, task) => task);
  const join = (one: number, two: number) => {
    const [from, to] = [label[one]!, label[two]!];
    for (const [task, each] of label.entries()) if (each === from) label[task] = to;
    return from !== to;
  };
  for (const group of groups) for (const task of group) join(task, group[0]!);
  for (let isChanged = true; isChanged; ) {
    isChanged = false;
    // Along arrows a station is never left for an earlier one: whoever is behind it and before it is at it.
    const behind = label.map((own) => reach(before, label, own));
    for (const [one, afterOne] of behind.entries()) {
      for (const [two, afterTwo] of behind.entries())
        if (afterOne.has(label[two]!) && afterTwo.has(label[one]!)) isChanged ||= join(one, two);
    }
  }
  return label;
}

/** Labels of the tasks behind those of a label, over the tasks of any label met on the way. */
function reach(before: readonly (readonly number[])[], label: readonly number[], start: number): Set<number> {
  const found = new Set<number>();
  const open = [start];
  for (let own = open.pop(); own !== undefined; own = open.pop()) {
    for (const [task, earlier] of before.entries()) {
      const next = label[task]!;
      if (found.has(next) || !earlier.some((each) => label[each] === own)) continue;
      found.add(next);
      open.push(next);
    }
  }
  return found;
}

it("joins exactly the tasks that can only stand at one station, and orders all of them by the arrows", () => {
  let [loops, joined] = [0, 0];
  fc.assert(
    fc.property(cases, ({ before, groups }) => {
      const blocks = mergeTogether(before, groups);
      const blockOf = before.map((_, task) => blocks.findIndex((tasks) => tasks.includes(task)));
      expect(blocks.flat().sort((one, two) => one - two)).toEqual([...before.keys()]);
      const label = shareByRepetition(before, groups);
      for (const one of before.keys()) {
        for (const two of before.keys())
          expect(blockOf[one] === blockOf[two]).toBe(label[one] === label[two]);
      }
      const turn = new Map(blocks.flat().map((task, at) => [task, at]));
      for (const [task, earlier] of before.entries())
        for (const each of earlier) expect(turn.get(each)!).toBeLessThan(turn.get(task)!);
      const asked = new Set(groups.filter((group) => group.length > 1).flat());
      if (asked.size > 0) joined++;
      if (blocks.some((tasks) => tasks.length > 1 && tasks.some((task) => !asked.has(task)))) loops++;
    }),
    { seed: 101, numRuns: 500 },
  );
  // Tasks that only lie between those of a group must have come up.
  expect(loops).toBeGreaterThan(20);
  expect(joined).toBeGreaterThan(100);
});

it("leaves nothing between two tasks of a block outside it", () => {
  fc.assert(
    fc.property(cases, ({ before, groups }) => {
      const followers = allFollowers(before);
      for (const tasks of mergeTogether(before, groups)) {
        for (const between of before.keys()) {
          const isBehind = tasks.some((task) => followers.has(task, between));
          const isAhead = tasks.some((task) => followers.has(between, task));
          if (isBehind && isAhead) expect(tasks).toContain(between);
        }
      }
    }),
    { seed: 102, numRuns: 300 },
  );
});
