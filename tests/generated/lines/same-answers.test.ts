import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { fileOf, type RuledLine, ruledLines } from "./ruled-line.js";

const SEED = 41;

/** Options that every command takes alike. */
const anyLimit = fc.constantFrom<readonly string[]>([], ["--nodes", "30"]);

// biome-ignore lint/suspicious/noExplicitAny: the document of any command
type Json = Readonly<Record<string, unknown>> & { readonly [key: string]: any };

async function jsonOf(line: RuledLine, ...args: string[]): Promise<Json | null> {
  const run = await runLinepoise({ args: [...args, "--json"], files: { "l.yaml": fileOf(line) } });
  // Not every draw is a line: two kinds of rules may speak against each other.
  return run.status > 1 ? null : JSON.parse(run.stdout);
}

const balanced = (line: RuledLine, ...args: string[]) => jsonOf(line, "balance", "l.yaml", ...args);

/** People, stations, cycle and outcome of a balance, and what is proved of them. */
function told({ outcome, measures, bound }: Json) {
  const repairs = measures?.repairPeople ?? 0;
  return {
    outcome,
    people: measures === null ? null : measures.operators + repairs,
    stations: measures?.stations ?? null,
    cycle: measures?.cycleOfPlanSeconds ?? null,
    output: measures?.outputPerShift ?? null,
    least: bound === null ? null : (bound.people ?? bound.stations) + repairs,
  };
}

const without = (line: RuledLine, ids: readonly string[]): RuledLine => ({
  ...line,
  tasks: Object.fromEntries(
    Object.entries(line.tasks).flatMap(([id, { after, ...task }]) => {
      const stays = ((after as string[] | undefined) ?? []).filter((each) => !ids.includes(each));
      return ids.includes(id) ? [] : [[id, { ...task, ...(stays.length > 0 ? { after: stays } : {}) }]];
    }),
  ),
});

describe("On a generated line with rules of the shop floor", () => {
  it("a row of staff is the balance of its demand, in whatever range it stands", async () => {
    let rows = 0;
    await fc.assert(
      fc.asyncProperty(ruledLines(), anyLimit, async (line, limit) => {
        const staff = (range: string) =>
          jsonOf(line, "staff", "l.yaml", "--demand", `${range} per hour`, ...limit);
        const [answer, wider, alone] = [
          await staff("40..100/30"),
          await staff("25..115/45"),
          await staff("70..70/1"),
        ];
        if (answer === null) return;
        const row = (of: Json | null, demand: number) =>
          of!.rows.find((each: Json) => each.demand === demand);
        expect(row(wider, 70)).toEqual(row(answer, 70));
        expect(row(alone, 70)).toEqual({
          ...row(answer, 70),
          crewSecondsPerShift: row(alone, 70).crewSecondsPerShift,
        });
        for (const each of answer.rows) {
          const balance = await balanced(line, "--demand", `${each.demand} per hour`, ...limit);
          if (balance === null) continue;
          rows++;
          const { outcome, people, stations, cycleOfPlanSeconds, outputPerShift, leastPeople } = each;
          const own = {
            outcome,
            people,
            stations,
            cycle: cycleOfPlanSeconds,
            output: outputPerShift,
            least: leastPeople,
          };
          expect([each.demand, own]).toEqual([each.demand, told(balance)]);
        }
      }),
      { seed: SEED, numRuns: 16 },
    );
    expect(rows).toBeGreaterThan(20);
  });

  it("an option of compare is the balance of the line with its changes written out", async () => {
    let options = 0;
    await fc.assert(
      fc.asyncProperty(ruledLines(), anyLimit, async (line, limit) => {
        const { t1, ...others } = line.tasks;
        const time =
          typeof t1!.time === "number"
            ? 7
            : Object.fromEntries(Object.keys(t1!.time!).map((key) => [key, 7]));
        const changed: Readonly<Record<string, { readonly option: object; readonly line: RuledLine }>> = {
          faster: { option: { demand: "75 per hour" }, line: { ...line, demand: "75 per hour" } },
          places: { option: { "max-places": 3 }, line: { ...line, demand: "55 per hour", "max-places": 3 } },
          shorter: {
            option: { times: { t1: 7 } },
            line: { ...line, demand: "55 per hour", tasks: { t1: { ...t1, time }, ...others } },
          },
        };
        const asked = Object.fromEntries(Object.entries(changed).map(([name, { option }]) => [name, option]));
        const answer = await jsonOf(
          { ...line, demand: "55 per hour", options: asked },
          "compare",
          "l.yaml",
          ...limit,
        );
        if (answer === null) return;
        const alone = { "as it is": { ...line, demand: "55 per hour" } } as Record<string, RuledLine>;
        for (const [name, each] of Object.entries(changed)) alone[name] = each.line;
        for (const option of answer.options) {
          const balance = await balanced(alone[option.name]!, ...limit);
          if (balance === null) continue;
          options++;
          expect([option.name, option.outcome, told(option.plan)]).toEqual([
            option.name,
            balance.outcome,
            told(balance),
          ]);
          expect(option.plan.stations).toEqual(balance.stations);
        }
      }),
      { seed: SEED, numRuns: 20 },
    );
    expect(options).toBeGreaterThan(30);
  });

  it("what a block of off-line leaves on the line is the balance of the line without it", async () => {
    let blocks = 0;
    await fc.assert(
      fc.asyncProperty(ruledLines(true), anyLimit, async (line, limit) => {
        const pace = ["--demand", "55 per hour", ...limit];
        const answer = await jsonOf(line, "off-line", "l.yaml", ...pace);
        for (const block of answer?.blocks ?? []) {
          const rest = await balanced(without(line, block.tasks), ...pace);
          if (rest === null || block.outcome === "bounded") continue;
          blocks++;
          const { outcome, people, stations, least } = told(rest);
          const beside = block.bench.people;
          const own = { outcome: block.outcome, people: block.linePeople, stations: block.stations };
          expect([block.tasks, own]).toEqual([block.tasks, { outcome, people, stations }]);
          if (people !== null) expect(block.leastPeople - beside).toBe(least);
        }
      }),
      { seed: SEED, numRuns: 20 },
    );
    expect(blocks).toBeGreaterThan(15);
  });
});
