import highsModule, { type Highs } from "highs";
import { describe, expect, it } from "vitest";
import { leastLimit } from "../../src/solve/search/least-limit.js";
import { readClassicLines, toProblem } from "../tools/read-classic-lines.js";

/** The package is typed as CommonJS but loads as a module whose default export is the loader itself. */
const loadHighs = highsModule as unknown as () => Promise<Highs>;
const highs = await loadHighs();

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

const lines = readClassicLines();
const small = [...lines].filter(([, { times }]) => times.length <= 12);
const chosen = small.flatMap(([line, { times }]) =>
  Array.from({ length: Math.min(times.length, 7) }, (_, at) => ({ line, stations: at + 1 })),
);

/**
 * The assignment model with a fixed number of stations as an LP-format text: x_i_k puts task i in station k, c is the cycle, as
 * short as possible. Source of the model: A. Scholl, Balancing and Sequencing of Assembly Lines (1999), after E. H. Bowman (1960).
 */
function cycleProgramme(
  times: readonly number[],
  before: readonly (readonly number[])[],
  stations: number,
): string {
  const numbers = Array.from({ length: stations }, (_, at) => at + 1);
  const x = (task: number, station: number) => `x_${task}_${station}`;
  const place = (task: number, sign: string) => numbers.map((k) => `${sign} ${k} ${x(task, k)}`).join(" ");
  const rows = [
    ...times.map((_, task) => `${numbers.map((k) => x(task, k)).join(" + ")} = 1`),
    ...numbers.map((k) => `${times.map((time, task) => `${time} ${x(task, k)}`).join(" + ")} - c <= 0`),
    ...before.flatMap((direct, task) =>
      direct.map((each) => `${place(task, "+")} ${place(each, "-")} >= 0`.replace(/^\+ /, "")),
    ),
  ];
  const binaries = times.flatMap((_, task) => numbers.map((k) => x(task, k)));
  return [
    "Minimize",
    " cycle: c",
    "Subject To",
    ...rows.map((row, at) => ` r${at}: ${row}`),
    "Binary",
    ` ${binaries.join("\n ")}`,
    "End",
    "",
  ].join("\n");
}

/** Lines: A. Scholl, Data of Assembly Line Balancing Problems, TH Darmstadt, 1993. */
describe("an integer programme, solved by another solver, has the same least cycle as the exact search", () => {
  it.each(chosen)(
    "$line with $stations stations",
    async ({ line, stations }) => {
      const { times, before } = toProblem(lines.get(line)!, 1);
      const answer = await leastLimit(times, before, stations, { nodes: 100_000 }, () => null);
      expect(answer.ended).toBe("proved");

      const solution = highs.solve(cycleProgramme(times, before, stations), { random_seed: 1 });
      expect(solution.Status).toBe("Optimal");
      expect(answer.limit).toBe(Math.round(solution.ObjectiveValue));
    },
    LONGEST_TEST,
  );
});
