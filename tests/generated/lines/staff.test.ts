import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { anyLine, lineFile } from "./any-line.js";

const SEED = 20_260;

interface Step {
  readonly people: number | null;
  readonly fromDemand: number;
  readonly toDemand: number;
  readonly outcome: string;
  readonly skipped: readonly number[];
}

async function answerTo(file: string, ...args: string[]) {
  const run = await runLinepoise({ args: [...args, "--json"], files: { "line.yaml": file } });
  return JSON.parse(run.stdout) as {
    readonly rows: readonly ({ readonly demand: number; readonly people: number | null } & Readonly<
      Record<string, unknown>
    >)[];
    readonly steps: readonly Step[];
    readonly measures: ({ readonly operators: number } & Readonly<Record<string, unknown>>) | null;
  };
}

/** Without a calendar, and with one, whose shifts have an output. */
const anyHours = fc.constantFrom("", "calendar: {shifts: {early: {length: 8 h}}}\n");

/** What a row of `staff` and a balance at the same demand both tell. */
const TOLD = ["stations", "cycleOfPlanSeconds", "efficiencyAtPace", "outputPerShift"] as const;

/** Rules of the shop floor, so that the other search is asked as well. */
const anyRule = fc.constantFrom("", "max-places: 2\n", "stations: [{id: S1}, {id: S2, plan-to: 90 %}]\n");

describe("People of a generated line as its demand moves", () => {
  it("never fall where demand rises, and are those of a balance at each end of each step", async () => {
    await fc.assert(
      fc.asyncProperty(anyLine, anyRule, async (any, rule) => {
        const file = `${rule}${lineFile(any)}`;
        // From the pace of one person for everything to one that no station holds.
        const { steps, rows } = await answerTo(file, "staff", "line.yaml", "--demand", "10..120/37 per hour");
        const people = steps.map((step) => step.people ?? Number.POSITIVE_INFINITY);
        expect(people).toEqual([...new Set(people)].sort((one, two) => one - two));
        for (const [at, step] of steps.entries()) {
          expect(step.fromDemand).toBe(at === 0 ? 10 : steps[at - 1]!.toDemand + 1);
          for (const units of new Set([step.fromDemand, step.toDemand])) {
            const { measures } = await answerTo(
              file,
              "balance",
              "line.yaml",
              "--demand",
              `${units} per hour`,
            );
            expect([units, measures?.operators ?? null]).toEqual([units, step.people]);
          }
        }
        expect(steps.at(-1)!.toDemand).toBe(120);
        for (const { demand, people: needed } of rows) {
          const step = steps.find(({ fromDemand, toDemand }) => fromDemand <= demand && demand <= toDemand)!;
          expect(needed).toBe(step.people);
        }
      }),
      { seed: SEED, numRuns: 20 },
    );
  });

  it("stand beside the figures of a balance at that demand, whatever the other demands are", async () => {
    await fc.assert(
      fc.asyncProperty(anyLine, anyRule, anyHours, async (any, rule, hours) => {
        const file = `${rule}${hours}${lineFile(any)}`;
        const told = (from: Readonly<Record<string, unknown>> | null) =>
          TOLD.map((key) => from?.[key] ?? null);
        const { rows } = await answerTo(file, "staff", "line.yaml", "--demand", "15..105/45 per hour");
        for (const row of rows) {
          const demand = `${row.demand} per hour`;
          const { measures } = await answerTo(file, "balance", "line.yaml", "--demand", demand);
          expect([demand, ...told(row)]).toEqual([demand, ...told(measures)]);
        }
        const [, , last] = rows;
        const alone = await answerTo(file, "staff", "line.yaml", "--demand", "105..105/1 per hour");
        expect(told(alone.rows[0]!)).toEqual(told(last!));
      }),
      { seed: SEED, numRuns: 20 },
    );
  });

  it("are the same bytes when the file is read anew in another order", async () => {
    await fc.assert(
      fc.asyncProperty(anyLine, async (any) => {
        const args = ["staff", "line.yaml", "--demand", "10..80/10 per hour"];
        const turned = { ...any, tasks: any.tasks.toReversed() };
        const [one, two] = await Promise.all(
          [any, turned].map((each) => runLinepoise({ args, files: { "line.yaml": lineFile(each) } })),
        );
        expect(one!.stdout).toBe(two!.stdout);
      }),
      { seed: SEED, numRuns: 8 },
    );
  });
});
