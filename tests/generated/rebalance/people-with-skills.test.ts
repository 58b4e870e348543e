import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rebalanceLine } from "../../../src/answer/rebalance/rebalance-line.js";
import type { Line } from "../../../src/line/line.js";
import { peopleOf } from "../../../src/plan/figures/people.js";
import { ONE_PERSON, type Plan } from "../../../src/plan/plan.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { lineOf, numbersOf, paceOf } from "../../tools/line-of.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;
const NODES = 2_000;

const TASKS = 5;
const skills = fc.subarray(["weld", "wire"]);
const tasks = fc.array(
  fc.record({
    time: fc.constantFrom(20, 30, 50, 80),
    skill: fc.oneof(fc.constant<string[]>([]), skills),
    people: fc.constantFrom(1, 1, 1, 2),
    isAfter: fc.array(fc.constantFrom(true, false, false, false), { minLength: TASKS, maxLength: TASKS }),
    isAtNextStation: fc.boolean(),
  }),
  { minLength: 3, maxLength: TASKS },
);

const cases = fc.record({
  tasks,
  // Mostly few have any, so that it matters who is at which task.
  people: fc.array(fc.oneof(fc.constant<string[]>([]), skills), { minLength: 2, maxLength: 4 }),
  maxCrew: fc.constantFrom(1, 2, 2, 3),
  maxPlaces: fc.constantFrom(1, 1, 2),
  cycle: fc.integer({ min: 80, max: 300 }),
});
type Case = typeof cases extends fc.Arbitrary<infer Each> ? Each : never;

function lineOfCase({ tasks: all, people, maxCrew, maxPlaces }: Case): Line {
  const rows = all.map(({ time, skill, people: needed, isAfter }, task) => {
    const after = [...Array(task).keys()].filter((each) => isAfter[each]! && each + 2 >= task);
    // What nobody has all of is a fault of the file.
    const asked = people.some((own: readonly string[]) =>
      (skill as readonly string[]).every((each) => own.includes(each)),
    )
      ? skill
      : [];
    return `  t${task}: {time: ${time}, skill: [${asked}], people: ${needed}, after: [${after.map((each) => `t${each}`)}]}`;
  });
  const named = people.map((own, person) => `P${person}: [${own}]`);
  const terms = `max-crew: ${maxCrew}\nmax-places: ${maxPlaces}\npeople: {${named.join(", ")}}`;
  return lineOf(`line: crew\nunit: s\n${terms}\ntasks:\n${rows.join("\n")}\n`);
}

/** The tasks as listed, with as many at a place as its largest task needs. */
function asListed({ tasks: all }: Case): Plan {
  const stations: number[][] = [];
  for (const [task, { isAtNextStation }] of all.entries())
    if (task === 0 || isAtNextStation) stations.push([task]);
    else stations.at(-1)!.push(task);
  return {
    stations: stations.map((own, at) => {
      const crew = Math.max(...own.map((task) => all[task]!.people));
      return { ...ONE_PERSON, id: `S${at + 1}`, tasks: own, places: 1, crew };
    }),
  };
}

const rebalance = (line: Line, cycle: number, today: Plan) => {
  const options = { nodes: NODES, strictLimit: true, maxMoves: null, keep: [], checkpoint: () => null };
  return rebalanceLine(line, paceOf(cycle), null, today, options);
};

describe("two tasks of the one person who welds", () => {
  it("are done one after the other where today's two stations become one", async () => {
    const hoist = "hoist: {time: 20, people: 2, after: lug}";
    const line = lineOf(
      `line: x\nunit: s\nmax-crew: 2\npeople: {Ben: [weld], Cy: []}\ntasks: {frame: {time: 50, skill: weld}, lug: {time: 50, skill: weld}, ${hoist}}\n`,
    );
    const [frame, lug, lift] = numbersOf(line, "frame", "lug", "hoist");
    const today = {
      stations: [
        { ...ONE_PERSON, id: "S1", tasks: [frame!, lug!], places: 1, crew: 1 },
        { ...ONE_PERSON, id: "S2", tasks: [lift!], places: 1, crew: 2 },
      ],
    };
    // Ben welds for 50 + 50 s before both lift for 20 s.
    const { chosen } = await rebalance(line, 120, today);
    expect([chosen!.people, chosen!.moves.length]).toEqual([2, 1]);
    const { tasks, persons } = chosen!.plan.stations[0]!;
    expect(persons![tasks.indexOf(frame!)]).toEqual(persons![tasks.indexOf(lug!)]);
  });
});

describe("where people have skills and share the work of a unit, every row of a rebalance", {
  timeout: LONGEST_TEST,
}, () => {
  it("passes the verifier, with no more people than a plan of today that passes it", async () => {
    let [shared, passed, again] = [0, 0, 0];
    const hold = async (line: Line, cycle: number, today: Plan) => {
      const { tradeOffs, chosen } = await rebalance(line, cycle, today);
      for (const { plan } of tradeOffs) expect(verifyPlan(line, paceOf(cycle), plan, true)).toEqual([]);
      if (verifyPlan(line, paceOf(cycle), today, true).length === 0) {
        expect(chosen!.people).toBeLessThanOrEqual(peopleOf(today));
        passed++;
      }
      if (chosen?.plan.stations.some(({ crew }) => crew > 1)) shared++;
      return chosen?.plan ?? null;
    };
    await fc.assert(
      fc.asyncProperty(cases, fc.constantFrom(0.7, 0.9, 1.2, 1.6), async (each, faster) => {
        const line = lineOfCase(each);
        const found = await hold(line, each.cycle, asListed(each));
        if (found === null) return;
        if ((await hold(line, Math.round(each.cycle * faster), found)) !== null) again++;
      }),
      { seed: 71, numRuns: 80 },
    );
    expect([shared > 10, passed > 10, again > 10]).toEqual([true, true, true]);
  });
});
