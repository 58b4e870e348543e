import fc from "fast-check";
import { expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

/*
 * Lines of up to six tasks with parts and two models, put at stations and at a bench in any way: quantities against sums in whole
 * numbers, written down plainly in thousandths of a piece.
 */
const UNITS = 37;
/** Milliseconds after which a test counts as hung. */
const LONGEST_TEST = 120_000;

interface Task {
  readonly every: number;
  readonly quantity: number;
  readonly has: readonly [boolean, boolean];
  /** Pieces of each part; 0 for none. */
  readonly pieces: readonly number[];
  readonly station: number;
}

const PARTS = ["P-1", "P-10", "P-2"];
const PACKS = [7, 50, 1];

const task: fc.Arbitrary<Task> = fc.record({
  every: fc.constantFrom(1, 1, 2, 5),
  quantity: fc.integer({ min: 1, max: 3 }),
  has: fc.constantFrom([true, true] as const, [true, false] as const, [false, true] as const),
  pieces: fc.tuple(...PARTS.map(() => fc.integer({ min: 0, max: 4 }))),
  station: fc.integer({ min: 0, max: 3 }),
});

const cases = fc.record({
  tasks: fc.array(task, { minLength: 1, maxLength: 6 }),
  /** Percent of the first model. */
  share: fc.constantFrom(10, 25, 50, 75),
  turned: fc.boolean(),
});

function lineText(tasks: readonly Task[], share: number, turned: boolean): string {
  const rows = tasks.map(({ every, quantity, has, pieces }, at) => {
    const time = `{A: ${has[0] ? 10 : '"-"'}, B: ${has[1] ? 10 : '"-"'}}`;
    const parts = pieces.flatMap((count, part) => (count === 0 ? [] : [`${PARTS[part]}: ${count}`]));
    const used = parts.length === 0 ? "" : `, parts: {${parts.join(", ")}}`;
    return `  t${at}: {time: ${time}, quantity: ${quantity}, every: ${every}${used}}`;
  });
  const list = PARTS.map((part, at) => `  ${part}: {pack: ${PACKS[at]}}`);
  const turn = (all: readonly string[]) => (turned ? all.toReversed() : all);
  return [
    "unit: s",
    `models: {A: ${share} %, B: ${100 - share} %}`,
    "part-list:",
    ...turn(list),
    "tasks:",
    ...turn(rows),
    "",
  ].join("\n");
}

/** Tasks of stations 0 to 2 are at the line, those of 3 at a bench; empty ones are left out. */
function planText(tasks: readonly Task[]): string {
  const at = (station: number) =>
    tasks.flatMap((each, task) => (each.station === station ? [`t${task}`] : []));
  const entry = (id: string, ids: readonly string[]) =>
    ids.length === 0 ? [] : [`  - {id: ${id}, tasks: [${ids.join(", ")}]}`];
  const bench = entry("B", at(3));
  return [
    "format: linepoise-plan/1",
    "line: a.line.yaml",
    "stations:",
    ...[0, 1, 2].flatMap((station) => entry(`S${station}`, at(station))),
    ...(bench.length === 0 ? [] : ["benches:", ...bench]),
    "",
  ].join("\n");
}

/** Pieces of a part for the units, at the tasks of these stations: units x per cent x tenths of every n-th unit. */
function piecesOf(tasks: readonly Task[], part: number, share: number, stations: readonly number[]): number {
  const perCent = ({ has }: Task) => (has[0] ? share : 0) + (has[1] ? 100 - share : 0);
  const thousandths = tasks
    .filter(({ station }) => stations.includes(station))
    .map((each) => UNITS * perCent(each) * (10 / each.every) * each.quantity * each.pieces[part]!)
    .reduce((sum, each) => sum + each, 0);
  return thousandths / 1000;
}

async function placesOf(line: string, plan: string) {
  const files = { "a.line.yaml": line, "a.plan.yaml": plan };
  const args = ["parts", "a.line.yaml", "a.plan.yaml", "--units", String(UNITS), "--json"];
  const { stdout, status } = await runLinepoise({ args, files });
  return { status, stdout, answer: status === 2 ? null : JSON.parse(stdout) };
}

it(
  "Each list is what its tasks take, packs are rounded up in each list, lists add up to the totals, and the order of the file changes nothing",
  async () => {
    let asked = 0;
    await fc.assert(
      fc.asyncProperty(cases, async ({ tasks, share, turned }) => {
        // A plan of benches alone is no plan.
        fc.pre(tasks.some(({ station }) => station < 3));
        const plan = planText(tasks);
        const { status, answer, stdout } = await placesOf(lineText(tasks, share, false), plan);
        expect(status).toBe(0);
        const again = await placesOf(lineText(tasks, share, turned), plan);
        expect(again.stdout).toBe(stdout);
        asked += answer.places.length;
        for (const [part, id] of PARTS.entries()) {
          const found = new Map<string, { quantityExact: number; quantity: number; packs: number }>(
            answer.places.flatMap((place: { id: string; parts: { part: string }[] }) =>
              place.parts.filter((each) => each.part === id).map((each) => [place.id, each]),
            ),
          );
          for (const [station, name] of ["S0", "S1", "S2", "B"].entries()) {
            const pieces = piecesOf(tasks, part, share, [station]);
            const given = found.get(name);
            expect([given?.quantityExact ?? 0, given?.quantity ?? 0, given?.packs ?? 0]).toEqual([
              pieces,
              Math.ceil(pieces),
              Math.ceil(pieces / PACKS[part]!),
            ]);
          }
          const total = answer.totals.find((each: { part: string }) => each.part === id);
          const packs = [...found.values()].reduce((sum, each) => sum + each.packs, 0);
          expect([total?.quantityExact ?? 0, total?.packs ?? 0]).toEqual([
            piecesOf(tasks, part, share, [0, 1, 2, 3]),
            packs,
          ]);
        }
      }),
      { numRuns: 60, seed: 17 },
    );
    expect(asked).toBeGreaterThan(60);
  },
  LONGEST_TEST,
);
