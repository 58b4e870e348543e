import fc from "fast-check";
import { expect, it } from "vitest";
import { fingerprintOf } from "../../../src/plan/fingerprint.js";
import { lineOf } from "../../tools/line-of.js";

const PARTS = [
  "line: Cargo bike # its name",
  "unit: s",
  "handling: 4 s",
  "plan-to: 95 %",
  "max-places: 2",
  "chains: [[frame, fork]]",
  "policy: {max-load: 95 %}",
  "tasks:\n  frame: 30\n  fork: {time: 25, people: 2}\n  # by hand\n  wheels: {after: fork, time: 0:48}",
];
const print = fingerprintOf(lineOf(`${PARTS.join("\n")}\n`));

it("The fingerprint of a file stays with line ends, order of keys, comments and blanks", () => {
  const texts = fc.record({
    parts: fc.shuffledSubarray(PARTS, { minLength: PARTS.length }),
    lineEnd: fc.constantFrom("\n", "\r\n"),
    between: fc.constantFrom("\n", "\n\n", "\n# a comment\n"),
  });
  fc.assert(
    fc.property(texts, ({ parts, lineEnd, between }) => {
      const text = `${parts.join(between)}\n`.replaceAll("\n", lineEnd);
      expect(fingerprintOf(lineOf(text))).toBe(print);
    }),
    { seed: 7 },
  );
});

it("The fingerprint of a file changes with what a plan is made from, and not with pace and policy", () => {
  const withPart = (old: string, now: string) =>
    fingerprintOf(lineOf(`${PARTS.join("\n").replace(old, now)}\n`));
  expect(withPart("frame: 30", "frame: 31")).not.toBe(print);
  expect(withPart("[frame, fork]", "[frame, wheels]")).not.toBe(print);
  expect(withPart("max-load: 95 %", "max-load: 90 %")).toBe(print);
  expect(withPart("unit: s", "unit: s\ndemand: 60 per hour")).toBe(print);
});

it("The fingerprint of a file changes with limits, what is taken of them and their units", () => {
  const of = (limit: string, use: string, own = "") =>
    fingerprintOf(
      lineOf(
        `limits: {shelf: ${limit}}\nstations: [{id: S1${own}}]\ntasks: {a: {time: 5 s, uses: {shelf: ${use}}}}\n`,
      ),
    );
  const prints = [
    of("{per: station, most: 1.2 m}", "0.3 m"),
    of("{per: person, most: 1.2 m}", "0.3 m"),
    of("{per: station, most: 1.3 m}", "0.3 m"),
    of("{per: station, most: 1.2 m}", "0.4 m"),
    of("{per: station, most: 1.2 ft}", "0.3 ft"),
    of("{per: station, most: 1.2 m}", "0.3 m", ", limits: {shelf: {per: station, most: 2 m}}"),
  ];
  expect(new Set(prints).size).toBe(prints.length);
  expect(of("{per: station, most: 1 1/5 m}", "3/10 m")).toBe(prints[0]);
});

it("The fingerprint of a file changes with units and crews at a place, and not where 1 is written out", () => {
  const of = (ofLine: string, own = "") =>
    fingerprintOf(lineOf(`${ofLine}stations: [{id: S1${own}}]\ntasks: {a: 5 s}\n`));
  const prints = [
    of(""),
    of("holds: 2\n"),
    of("max-crew: 2\n"),
    of("", ", holds: 2"),
    of("", ", max-crew: 2"),
    of("", ", holds: 1"),
  ];
  expect(new Set(prints).size).toBe(prints.length);
  expect(of("holds: 1\nmax-crew: 1\n")).toBe(prints[0]);
});
