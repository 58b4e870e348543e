import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type BalanceAnswer, readAnswer } from "../tools/read-answer.js";

// Lines of Kim, Kim and Kim (2000) and Lee, Kim and Kim (2001) with the least numbers of mated stations, computed exactly by an
// independent search; shared/README.md has the sources. A mated station is a station with two sides, each with a person or empty.

interface TwoSidedLine {
  readonly times: readonly number[];
  readonly sides: readonly ("L" | "R" | "E")[];
  readonly precedence: readonly (readonly [before: number, after: number])[];
  /** From each cycle on, up to the next one, so many mated stations are the least. */
  readonly least_mated_from_cycle: readonly (readonly [cycle: number, mated: number])[];
}

const LINES = JSON.parse(
  readFileSync(new URL("../../shared/two-sided-lines.json", import.meta.url), "utf8"),
) as Record<string, TwoSidedLine>;
const SIDES = { L: "left", R: "right", E: "either" };

const CASES = Object.entries(LINES).flatMap(([name, line]) =>
  line.least_mated_from_cycle.map(([cycle, mated]) => ({ name, cycle, mated })),
);

function textOf(name: string): string {
  const { times, sides, precedence } = LINES[name]!;
  const rows = times.map((time, at) => {
    const after = precedence.filter(([, to]) => to === at + 1).map(([from]) => `t${from}`);
    return `  t${at + 1}: {time: ${time}, side: ${SIDES[sides[at]!]}, after: [${after.join(", ")}]}\n`;
  });
  return `line: ${name}\nunit: s\ntasks:\n${rows.join("")}`;
}

const atCycle = new Map<string, Promise<BalanceAnswer>>();

/** The balance at a cycle; each is asked for once. */
function balanceAt(name: string, cycle: number): Promise<BalanceAnswer> {
  const key = `${name} ${cycle}`;
  const answer = atCycle.get(key) ?? readAnswer(textOf(name), ["--cycle", String(cycle), "--no-level"]);
  atCycle.set(key, answer);
  return answer;
}

describe("a line worked from two sides", () => {
  it.each(CASES)("$name with $mated mated stations has $cycle as its least cycle", async (row) => {
    const answer = await readAnswer(textOf(row.name), ["--stations", String(row.mated)]);
    const { measures, bound, outcome } = answer;
    expect({ outcome, cycle: measures.cycleOfPlanSeconds, bound: bound.cycleSeconds }).toEqual({
      outcome: "proved",
      cycle: row.cycle,
      bound: row.cycle,
    });
    expect(measures.stations).toBe(row.mated);
  });

  // At a given cycle the fewest people come first, at more stations where some have one person; never at fewer than are possible.
  // Where a proved plan has two people at every station, one mated station less would do with fewer people: it has the least of both.
  it.each(CASES)("$name at $cycle takes $mated mated stations where both sides are manned", async (row) => {
    const answer = await balanceAt(row.name, row.cycle);
    const { stations, operators } = answer.measures;
    expect(stations).toBeGreaterThanOrEqual(row.mated);
    expect(operators).toBeLessThanOrEqual(2 * row.mated);
    if (answer.outcome === "proved" && answer.stations.every(({ crew }) => crew === 2)) {
      expect(stations).toBe(row.mated);
    }
  });

  it("is manned on both sides throughout in more than half of the plans that are compared", async () => {
    const crews: (readonly number[])[] = [];
    for (const { name, cycle } of CASES) {
      const { stations } = await balanceAt(name, cycle);
      crews.push(stations.map(({ crew }) => crew));
    }
    const manned = crews.filter((each) => each.every((crew) => crew === 2));
    expect(manned.length).toBeGreaterThan(CASES.length / 2);
  });
});
