import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

const read = (path: string) => readFileSync(new URL(`../../../${path}`, import.meta.url), "utf8");

/** 120 s of work at 72 s a unit: two stations of 60 s; 3,600 s / 60 s = 60 units an hour. */
const LINE = [
  "unit: s",
  "demand: 400 per day",
  "calendar: {shifts: {day: {length: 8 h}}}",
  "tasks:",
  "  frame: {name: Mount the frame, time: 60}",
  "  fork: {time: 60, after: frame}",
  "",
].join("\n");

const balance = async (more: readonly string[], terminal?: number) => {
  const run = { args: ["balance", "l.yaml", ...more], files: { "l.yaml": LINE }, env: { NO_COLOR: "1" } };
  return (await runLinepoise(terminal === undefined ? run : { ...run, terminal })).stdout;
};

it("a balance says in its second line how many stations and people, what is possible and wanted, and the slowest station", async () => {
  expect((await balance([])).split("\n")[1]?.trim()).toBe(
    "2 stations, 2 people, 480 good units a shift possible, 400 wanted; slowest S1 (60 s).",
  );
});

it("a balance keeps sums, proofs and methods for --proof, and says so", async () => {
  const [short, whole] = [await balance([]), await balance(["--proof"])];
  for (const heading of ["PACE", "PROOF", "WHAT EACH METHOD GOT"]) {
    expect(short).not.toContain(`\n${heading}\n`);
    expect(whole).toContain(`\n${heading}\n`);
  }
  expect(short.replace(/\s+/gu, " ")).toContain("Proved: no plan has fewer stations.");
  expect(short).toContain("--proof shows");
});

it("a balance without a plan begins with why, and shows its pace", async () => {
  const { stdout } = await runLinepoise({
    args: ["balance", "l.yaml", "--cycle", "50"],
    files: { "l.yaml": LINE },
  });
  expect(stdout.indexOf("\nRESULT\n")).toBeGreaterThan(0);
  expect(stdout.indexOf("\nRESULT\n")).toBeLessThan(stdout.indexOf("\nPACE\n"));
});

it("a table of stations has the names of tasks where there is room", async () => {
  expect(await balance([], 160)).toContain("frame (Mount the frame)");
  expect(await balance([], 100)).not.toContain("Mount the frame");
});

it("options that are compared are a ranked list, the one with the fewest people first", async () => {
  const files = { "l.yaml": read("examples/cargo-bike.line.yaml") };
  const { stdout } = await runLinepoise({ args: ["compare", "l.yaml"], files });
  expect(stdout).toMatch(
    /\nVERDICT\n {2}1\. {2}battery-off-line: .*\n(?: {6}.*\n)* {2}2\. {2}wheels-off-line: /u,
  );
});
