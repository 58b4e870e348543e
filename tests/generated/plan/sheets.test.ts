import fc from "fast-check";
import { expect, it } from "vitest";
import { elementsNamed, type MarkupElement, readMarkup } from "../../tools/read-markup.js";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { fileOf, type RuledLine, ruledLines } from "../lines/ruled-line.js";

/** Milliseconds after which a test counts as hung. */
const LONGEST_TEST = 240_000;

/** The same line with parts, quality points and names that a page must not take for markup. */
const withPaper = (line: RuledLine): RuledLine => ({
  ...line,
  tasks: Object.fromEntries(
    Object.entries(line.tasks).map(([id, task], at) => [
      id,
      { ...task, name: `<b>${id}&"'`, check: `look ${at}`, parts: { [`P<${at % 3}>`]: (at % 4) + 1 } },
    ]),
  ),
});

const turned = (line: RuledLine): RuledLine => ({
  ...line,
  tasks: Object.fromEntries(Object.entries(line.tasks).reverse()),
});

interface SheetJson {
  readonly id: string;
  readonly seconds: number;
  readonly limitSeconds: number;
  readonly handsSeconds: number;
  readonly walkingSeconds: number;
  readonly machineSeconds: number;
  readonly tasks: readonly {
    task: string;
    seconds: number;
    machineSeconds: number;
    runningSeconds: number;
  }[];
  readonly parts: readonly { part: string; quantityExact: number }[];
}

const sum = (all: readonly number[]) => all.reduce((one, two) => one + two, 0);
/** Each figure is rounded to 6 decimals by itself. */
const near = (one: number, two: number) => expect(Math.abs(one - two)).toBeLessThan(1e-5);

it(
  "Sums on every sheet are the figures of the plan, on paper as in the data, whatever the order of the file",
  async () => {
    let sheets = 0;
    await fc.assert(
      fc.asyncProperty(ruledLines(), async (drawn) => {
        const line = withPaper(drawn);
        const balanced = await runLinepoise({
          args: ["balance", "l.yaml", "--cycle", "45", "--nodes", "2000", "--write", "p.yaml"],
          files: { "l.yaml": fileOf(line) },
        });
        const plan = balanced.files["p.yaml"];
        fc.pre(plan !== undefined);
        const files = { "l.yaml": fileOf(line), "p.yaml": plan! };
        const run = async (...args: string[]) =>
          (await runLinepoise({ args: [args[0]!, "l.yaml", "p.yaml", ...args.slice(1)], files })).stdout;
        const shown = JSON.parse(await run("show", "--cycle", "45", "--json"));
        const told = JSON.parse(await run("sheets", "--cycle", "45", "--json"));
        const lists = JSON.parse(await run("parts", "--units", "1", "--json"));
        const page = await run("sheets", "--cycle", "45");
        const again = await runLinepoise({
          args: ["sheets", "l.yaml", "p.yaml", "--cycle", "45"],
          files: { ...files, "l.yaml": fileOf(turned(line)) },
        });
        expect(again.stdout).toBe(page);
        expect(told.sheets.map(({ id }: SheetJson) => id)).toEqual(
          shown.stations.map(({ id }: SheetJson) => id),
        );
        const sections = elementsNamed(readMarkup(page), "section").filter(
          (each) => each.attributes["aria-labelledby"] !== "training",
        );
        for (const [at, sheet] of (told.sheets as SheetJson[]).entries()) {
          const station = shown.stations[at];
          sheets += 1;
          expect([sheet.seconds, sheet.limitSeconds]).toEqual([station.seconds, station.limitSeconds]);
          expect(sheet.tasks.map(({ task }) => task)).toEqual(station.tasks);
          near(Math.max(...sheet.tasks.map(({ runningSeconds }) => runningSeconds)), sheet.seconds);
          near(sum(sheet.tasks.map(({ seconds }) => seconds)), sheet.handsSeconds + sheet.walkingSeconds);
          near(sum(sheet.tasks.map(({ machineSeconds }) => machineSeconds)), sheet.machineSeconds);
          const list = lists.places.find(({ id }: SheetJson) => id === sheet.id)?.parts ?? [];
          expect(sheet.parts.map(({ part, quantityExact }) => [part, quantityExact])).toEqual(
            list.map((each: SheetJson["parts"][number]) => [each.part, each.quantityExact]),
          );
          expect(rowsOnPaper(sections[at]!, sheet.tasks.length)).toEqual(
            sheet.tasks.map(({ task }) => `<b>${task}&"' (${task})`),
          );
        }
      }),
      { numRuns: 20, seed: 17 },
    );
    expect(sheets).toBeGreaterThan(30);
  },
  LONGEST_TEST,
);

/** The tasks of the first table of a sheet, as people read them. */
function rowsOnPaper(section: MarkupElement, count: number): string[] {
  const [tasks] = elementsNamed(section, "tbody");
  const rows = elementsNamed(tasks!, "tr");
  expect(rows).toHaveLength(count);
  return rows.map((row) => row.children[1]!.text);
}
