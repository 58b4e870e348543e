import { describe, expect, it } from "vitest";
import { type BalanceAnswer, readAnswer } from "../tools/read-answer.js";
import { type ClassicLine, readClassicLines, readOptima } from "../tools/read-classic-lines.js";

/*
 * Two ends of time and space assembly line balancing, after J. Bautista and J. Pereira (2007), from memory: where space binds nowhere,
 * the line has its plain optimum in time; where time binds nowhere, it has the least stations by space alone. A space that is a copy of
 * the task time has the published optimum at both ends (A. Scholl, 1993, see shared/classic-optima.csv).
 */
const lines = readClassicLines();
const optima = readOptima().filter(({ line }) => line === "jackson" || line === "mitchell");

function answerOf({ times, precedence }: ClassicLine, most: number, cycle: number): Promise<BalanceAnswer> {
  const rows = times.map((time, at) => {
    const after = precedence.flatMap(([first, then]) => (then === at + 1 ? [first] : []));
    return `  ${at + 1}: {time: ${time}, uses: {space: ${time} dm}, after: [${after.join(", ")}]}`;
  });
  const file = ["unit: s", `limits: {space: {per: station, most: ${most} dm}}`, "tasks:", ...rows, ""];
  return readAnswer(file.join("\n"), ["--cycle", String(cycle)]);
}

describe.each(optima)("$line at $limit", ({ line, limit, stations }) => {
  const given = lines.get(line)!;
  const sum = given.times.reduce((all, each) => all + each, 0);

  it.each([
    ["both time and its copy bind", limit, limit],
    ["only the copy binds", limit, sum],
    ["only time binds", sum, limit],
  ])("needs its published stations where %s", async (_, most, cycle) => {
    const { outcome, measures } = await answerOf(given, most, cycle);
    expect([outcome, measures.stations]).toEqual(["proved", stations]);
  });
});
