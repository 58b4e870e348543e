import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;

interface ShownSum {
  readonly sum: string;
  readonly shown: string;
  /** Decimals that it is rounded to; trailing zeros are not shown. */
  readonly decimals: number;
  readonly calculated: number;
}

/** The sums that a text shows, "144.1 s of work / 72 s a station = 2.0014", each with what a calculator makes of what is shown. */
function sumsIn(text: string): ShownSum[] {
  // "cycle 85.853 s, 71.667 s line cycle x 0.515 of its hours / 43 % of the units"
  const plain = text
    .replace(/\s+/gu, " ")
    .replace(/(\d),(?=\d{3})/gu, "$1")
    .replace(/cycle ([\d.]+ \w+), ([^;]*? of the units)/gu, "; $2 = $1");
  return [
    ...plain.matchAll(/= (-?[\d,]+(?:\.(\d+))?)(?: (s|cmin|tmu)\b)?(?=[ ,;.)]|$)(?! \(rounded)/gu),
  ].flatMap((found) => {
    const before = plain.slice(Math.max(0, found.index - 400), found.index);
    const starts = [...before.matchAll(/; |: |\. |, (?=[\d(])|because /gu)].map(
      (cut) => cut.index + cut[0].length,
    );
    for (const start of [...starts.reverse(), 0]) {
      const sum = before.slice(start);
      if (!/[*/+]| x | of \d|\d - /u.test(sum) || sum.includes("(rounded)")) continue;
      const calculated = calculate(sum);
      if (calculated !== null)
        return [{ sum, shown: found[1]!.replaceAll(",", ""), decimals: decimalsOf(found), calculated }];
    }
    return [];
  });
}

/** Those of the unit, two of a plain number, or as many as are shown. */
function decimalsOf([, , shown = "", unit = ""]: RegExpMatchArray): number {
  return Math.max(shown.length, { s: 3, cmin: 2, tmu: 1 }[unit] ?? 2);
}

/** What is left of a clause when words and units are taken out of it, worked out; null where that is no sum. */
function calculate(clause: string): number | null {
  const bare = clause
    .replace(/(\d),(?=\d{3})/gu, "$1")
    .replace(/repairs of/gu, "*")
    .replace(/([\d.]+) ?%/gu, "($1/100)")
    .replace(/ x /gu, " * ")
    .replace(/[a-z][\w-]*|`/giu, "");
  const tokens = bare.match(/\d+(?:\.\d+)?|[-+*/()]/gu) ?? [];
  if (bare.replace(/[\d.\s+*/()-]/gu, "") !== "" || tokens.length < 3) return null;
  const value = additive(tokens);
  return tokens.length === 0 && Number.isFinite(value) ? value : null;
}

function additive(tokens: string[]): number {
  let value = product(tokens);
  while (tokens[0] === "+" || tokens[0] === "-")
    value += tokens.shift() === "+" ? product(tokens) : -product(tokens);
  return value;
}

function product(tokens: string[]): number {
  let value = factor(tokens);
  while (tokens[0] === "*" || tokens[0] === "/")
    value *= tokens.shift() === "*" ? factor(tokens) : 1 / factor(tokens);
  return value;
}

function factor(tokens: string[]): number {
  const first = tokens.shift();
  if (first !== "(") return Number(first ?? Number.NaN);
  const value = additive(tokens);
  return tokens.shift() === ")" ? value : Number.NaN;
}

/** Sums that do not come to the digits that are shown, as people would read them. */
const wrongOf = (sums: readonly ShownSum[]): string[] =>
  sums.flatMap(({ sum, shown, decimals, calculated }) => {
    const isOff = Math.abs(calculated - Number(shown)) > 0.500001 * 10 ** -decimals;
    return isOff ? [`${sum.trim()} = ${shown}, and not ${calculated}`] : [];
  });

describe("what a calculator makes of a clause", () => {
  it.each([
    ["144.1 s of work / 72 s a station ", 144.1 / 72],
    ["165 / (99 % yield x 96 % passing) ", 165 / (0.99 * 0.96)],
    ["(88.7 s / 95 % plan-to + 2.2 s handling) / 85.853 s ", (88.7 / 0.95 + 2.2) / 85.853],
    ["0.04167 repairs of 720 s ", 0.04167 * 720],
    ["1,200 s of loading + 25 s of running ", 1225],
  ])("%s", (clause, value) => {
    expect(calculate(clause)).toBeCloseTo(value, 9);
  });

  it("finds a sum that does not come out", () => {
    expect(wrongOf(sumsIn("fail: 0.0417 repairs of 720 s = 30 s per good unit"))).toHaveLength(1);
    expect(wrongOf(sumsIn("144.1 s of work / 72 s a station = 2.01, rounded up"))).toHaveLength(1);
    expect(wrongOf(sumsIn("144.1 s of work / 72 s a station = 2.0014, rounded up"))).toEqual([]);
  });
});

/** A line of odd numbers: everything that is shown with a sum has something of it. */
const anyLine = fc
  .record({
    demand: fc.integer({ min: 91, max: 160 }),
    times: fc.array(fc.integer({ min: 53, max: 899 }), { minLength: 8, maxLength: 8 }),
    uptime: fc.integer({ min: 871, max: 1000 }),
    planTo: fc.integer({ min: 883, max: 1000 }),
    handling: fc.integer({ min: 0, max: 47 }),
    fail: fc.integer({ min: 11, max: 97 }),
    repair: fc.integer({ min: 301, max: 911 }),
    share: fc.integer({ min: 31, max: 97 }),
    people: fc.constantFrom(1, 2),
    unit: fc.constantFrom("s", "cmin", "tmu"),
  })
  .map(({ demand, times, uptime, planTo, handling, fail, repair, share, people, unit }) => {
    const [base, seat, wire, fit, brew, glue, test, pack] = times.map((time) => time / 10);
    return [
      `unit: ${unit}`,
      `demand: ${demand} per day`,
      'calendar: {shifts: {early: {from: "06:00", to: "14:17", breaks: 3 x 7 min}, late: {from: "14:17", to: "22:00", breaks: 33 min}}}',
      `uptime: ${uptime / 10} %`,
      `plan-to: ${planTo / 10} %`,
      `handling: ${handling / 10}`,
      "yield: 98.3 %",
      "equipment: {rig: 2}",
      `benches: {B1: {tasks: [seat, wire], share: ${share} %, shifts: 1, hand-over: 1.1 s}}`,
      "tasks:",
      `  base: {time: ${base}, on-base: true}`,
      `  seat: ${seat}`,
      `  wire: {time: ${wire}, after: seat}`,
      `  fit: {time: ${fit}, after: [base, wire], people: ${people}}`,
      `  brew: {time: ${brew}, machine-time: 230 s, equipment: rig, after: fit}`,
      `  glue: {time: ${glue}, after: brew}`,
      `  test: {time: ${test}, after: glue, test: {fail: ${fail / 10} %, repair: ${repair} s, return-to: glue}}`,
      `  pack: {time: ${pack}, after: test}`,
      "options: {beside: {off-line: [B1]}}",
    ].join("\n");
  });

const COMMANDS = [
  "takt l.yaml",
  "balance l.yaml --proof",
  "off-line l.yaml",
  "staff l.yaml --demand 90..160/35",
];

describe("every sum that is shown of a line of odd numbers", () => {
  it(
    "comes out when it is typed into a calculator, or says that it is rounded",
    async () => {
      let count = 0;
      await fc.assert(
        fc.asyncProperty(anyLine, async (line) => {
          for (const command of COMMANDS) {
            const args = [...command.split(" "), ...(command.startsWith("takt") ? [] : ["--nodes", "300"])];
            const { stdout, stderr } = await runLinepoise({ args, files: { "l.yaml": line } });
            const sums = sumsIn(`${stdout} ${stderr}`);
            count += sums.length;
            expect(wrongOf(sums), `${command}\n${line}`).toEqual([]);
          }
        }),
        { seed: 11, numRuns: 8 },
      );
      expect(count).toBeGreaterThan(30);
    },
    LONGEST_TEST,
  );

  it(
    "and every difference of a comparison is what is left of the two values beside it",
    async () => {
      let count = 0;
      await fc.assert(
        fc.asyncProperty(anyLine, async (line) => {
          const args = ["compare", "l.yaml", "--format", "markdown", "--nodes", "300"];
          const { stdout } = await runLinepoise({ args, files: { "l.yaml": line } });
          for (const row of stdout.split("\n").filter((each) => each.startsWith("|"))) {
            const [, , first = "", second = ""] = row.replaceAll(/[*,]/gu, "").split("|");
            const change = /\(([+-][\d.]+)/u.exec(second)?.[1];
            if (change === undefined) continue;
            count++;
            const left = Number.parseFloat(second) - Number.parseFloat(first);
            expect(left, row).toBeCloseTo(Number(change), 7);
          }
        }),
        { seed: 12, numRuns: 8 },
      );
      expect(count).toBeGreaterThan(30);
    },
    LONGEST_TEST,
  );
});
