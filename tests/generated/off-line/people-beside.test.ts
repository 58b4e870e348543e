import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { answerOption } from "../../../src/answer/compare/answer-option.js";
import { answerOffLine } from "../../../src/answer/off-line/answer-off-line.js";
import { RANKS } from "../../../src/answer/off-line/rank-order.js";
import type { Line } from "../../../src/line/line.js";
import { lineOf, paceOf } from "../../tools/line-of.js";

const CASES = { numRuns: 60, seed: 4117 };
const LIMIT = 10;
const SKILLS = ["press", "brakes"];

/** Tasks of 1 to 10 s, each with a skill or none; arrows from lower numbers; the first `away` of them are built at a bench. */
const drawn = fc.record({
  tasks: fc.array(
    fc.record({
      seconds: fc.integer({ min: 1, max: LIMIT }),
      skill: fc.constantFrom(null, ...SKILLS),
      before: fc.array(fc.nat({ max: 5 }), { maxLength: 2 }),
    }),
    { minLength: 3, maxLength: 6 },
  ),
  away: fc.integer({ min: 1, max: 2 }),
  people: fc.array(fc.subarray(SKILLS), { minLength: 1, maxLength: 5 }),
});

type Drawn = typeof drawn extends fc.Arbitrary<infer Value> ? Value : never;

/** A skill that nobody has is a fault of the file. */
const lines = drawn.filter(({ tasks, people }) =>
  tasks.every(({ skill }) => skill === null || people.some((skills) => skills.includes(skill))),
);

/** Arrows lead from lower to higher numbers; what is built away needs nothing of the line, and the last task waits for it. */
function arrowsOf({ tasks, away }: Drawn): number[][] {
  return tasks.map(({ before }, task) => {
    const earlier = before.filter((each) => each < task && (task >= away || each < away));
    const joining = task === tasks.length - 1 ? [...Array(away).keys()] : [];
    return [...new Set([...earlier.filter((each) => each >= away || task < away), ...joining])];
  });
}

function read(one: Drawn): Line {
  const arrows = arrowsOf(one);
  const rows = one.tasks.map(({ seconds, skill }, task) => {
    const after = arrows[task]!.map((each) => `t${each}`).join(", ");
    const base = task < one.away ? "" : ", on-base: true";
    return `  t${task}: {time: ${seconds}, after: [${after}]${skill === null ? "" : `, skill: ${skill}`}${base}}`;
  });
  const block = [...Array(one.away).keys()].map((task) => `t${task}`).join(", ");
  const people = one.people.map((skills, at) => `p${at}: [${skills.join(", ")}]`).join(", ");
  return lineOf(
    [
      "unit: s",
      `people: {${people}}`,
      `options: {off: {off-line: [[${block}]]}}`,
      "tasks:",
      ...rows,
      "",
    ].join("\n"),
  );
}

/** Whether each place can have a person of its own, by trying everybody. */
function mayStaff(places: readonly (readonly string[])[], people: readonly (readonly string[])[]): boolean {
  const [first, ...others] = places;
  if (first === undefined) return true;
  return people.some(
    (person, at) =>
      first.every((skill) => person.includes(skill)) &&
      mayStaff(
        others,
        people.filter((_, each) => each !== at),
      ),
  );
}

/** The fewest stations over every way to put the tasks that stay in stations, with people for all of them and for the bench. */
function fewest(one: Drawn): number | null {
  const { tasks, away, people } = one;
  const arrows = arrowsOf(one);
  const kept = [...tasks.keys()].filter((task) => task >= away);
  const skillsOf = (group: readonly number[]) => [
    ...new Set(group.flatMap((task) => tasks[task]!.skill ?? [])),
  ];
  const bench = [...Array(away).keys()];
  const places = Math.max(1, Math.ceil(bench.reduce((sum, task) => sum + tasks[task]!.seconds, 0) / LIMIT));
  let best: number | null = null;
  const put = (at: number, station: readonly number[]): void => {
    if (at === kept.length) {
      const used = Math.max(...station) + 1;
      const groups = Array.from({ length: used }, (_, each) =>
        kept.filter((_, index) => station[index] === each),
      );
      if (groups.some((group) => group.length === 0)) return;
      if (groups.some((group) => group.reduce((sum, task) => sum + tasks[task]!.seconds, 0) > LIMIT)) return;
      const asked = [...groups.map(skillsOf), ...Array.from({ length: places }, () => skillsOf(bench))];
      if (
        mayStaff(
          asked.filter((skills) => skills.length > 0),
          people,
        )
      )
        best = Math.min(best ?? used, used);
      return;
    }
    const first = Math.max(
      0,
      ...arrows[kept[at]!]!.filter((each) => each >= away).map((each) => station[kept.indexOf(each)]!),
    );
    for (let each = first; each < kept.length; each++) put(at + 1, [...station, each]);
  };
  put(0, []);
  return best === null ? null : best + places;
}

describe("People with skills for line and bench", () => {
  it("are found wherever there are any, as few as trying everything needs, and none is at two places", async () => {
    const seen = { staffed: 0, short: 0 };
    await fc.assert(
      fc.asyncProperty(lines, async (one) => {
        const line = read(one);
        const pace = paceOf(LIMIT);
        const asked = [[...Array(one.away).keys()]];
        const search = { nodes: 20_000, strictLimit: false, checkpoint: () => null };
        const more = { ranks: RANKS, benches: 1, joinsAtSeveral: true, asked };
        const answer = await answerOffLine(line, pace, null, { ...search, ...more });
        const plan = answer.asked![0]!.rated!.plan!;
        const best = fewest(one);
        expect([plan.people, plan.outcome]).toEqual([best, best === null ? "infeasible" : "proved"]);
        const [option] = line.options;
        const compared = await answerOption(
          { name: "off", line, option: option!, pace, takt: null, today: null, nodes: 20_000 },
          async () => null,
        );
        const people = compared.posts.reduce((sum, post) => sum + post.crew * post.places, 0);
        expect([compared.plan === null ? null : people, compared.outcome]).toEqual([
          best,
          best === null ? "infeasible" : "proved",
        ]);
        seen[best === null ? "short" : "staffed"]++;
      }),
      CASES,
    );
    expect(Math.min(...Object.values(seen))).toBeGreaterThan(5);
  }, 60_000);
});
