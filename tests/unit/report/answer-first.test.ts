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

it("a balance of the demo is read without scrolling: 40 lines of a terminal 100 columns wide, the answer and its figures first", async () => {
  const run = { args: ["balance", "l.yaml"], files: { "l.yaml": read("examples/cargo-bike.line.yaml") } };
  const lines = (await runLinepoise({ ...run, env: { NO_COLOR: "1" }, terminal: 100 })).stdout.split("\n");
  expect(lines.length - 1).toBeLessThan(40);
  expect(lines.every((line) => line.length <= 100)).toBe(true);
  expect(lines[1]).toMatch(/^ {2}12 stations, 13 people, .* wanted; slowest S\d+ \(133 s\)\.$/u);
  expect(lines[2]).toMatch(/^ {2}Line cycle .*; efficiency .* at the pace, .* at the slowest station\.$/u);
  expect(lines[3]).toMatch(/^ {2}Idle .* per unit, .* per shift\. People: 12 on the line \+ 1 repairer\.$/u);
});

it("a balance keeps what its stations need, their limits and the details of a bench for --proof", async () => {
  const run = { args: ["balance", "l.yaml"], files: { "l.yaml": read("examples/cargo-bike.line.yaml") } };
  const { stdout } = await runLinepoise({ ...run, args: [...run.args, "--proof"] });
  const headings = ["RESULT", "HANDS, WALKING AND MACHINE TIME", "WHAT THE STATIONS NEED"];
  for (const heading of headings) expect(stdout).toContain(`\n${heading}\n`);
  for (const fact of ["roller bench", "Limits: ", "One more buffer stock"]) expect(stdout).toContain(fact);
});

it("a balance by the hour says how many good units an hour are possible, with two decimals", async () => {
  // 3,600 s / 405 s = 8.888... units; 8 are wanted.
  const text = "unit: s\ndemand: 8 per hour\ntasks: {weld: 405}\n";
  const { stdout } = await runLinepoise({ args: ["balance", "l.yaml"], files: { "l.yaml": text } });
  expect(stdout.split("\n")[1]).toBe(
    "  1 station, 1 person, 8.89 good units an hour possible, 8 wanted; slowest S1 (405 s).",
  );
});

it("a balance names the place that a wait in stations leaves empty, in the text of a plan that stands as well", async () => {
  const text =
    "unit: s\ndemand: 50 per hour\ntasks: {a: 60, b: {time: 60, after: [{task: a, stations: 2}]}}\n";
  const plan = "format: linepoise-plan/1\nstations: [{id: S1, tasks: [a]}, {id: S4, tasks: [b]}]\n";
  const files = { "l.yaml": text, "p.yaml": plan };
  const balanced = (await runLinepoise({ args: ["balance", "l.yaml"], files })).stdout;
  expect(balanced).toContain("  S2 stays empty: b stands at least 2 stations after a.\n");
  const shown = (await runLinepoise({ args: ["show", "l.yaml", "p.yaml"], files })).stdout;
  expect(shown).toContain("  S2 and S3 stay empty: b stands at least 2 stations after a.\n");
});

it("--proof says of what is summed along a chain which tasks it is the time of", async () => {
  // 30 s / 10 x 1.25 = 3.75 s of audits; after them comes pack, and the three take 50 x 1.025 + 3.75 + 45 = 100 s.
  const text = [
    "unit: s",
    "tasks:",
    "  load: {time: 40, on-base: true}",
    "  brake: {time: 50, after: load}",
    "  audit: {time: 30, every: 10, after: brake, test: {fail: 20 %, repair: 100 s, return-to: brake}}",
    "  pack: {time: 45, after: audit}",
    "",
  ].join("\n");
  const run = { args: ["balance", "l.yaml", "--cycle", "100", "--proof"], files: { "l.yaml": text } };
  const { stdout } = await runLinepoise(run);
  expect(stdout.replace(/\s+/gu, " ")).toContain(
    "After it comes audit (3.75 s) and at least 45 s after that",
  );
  expect(stdout).toContain("\n  At least 45 s after audit (3.75 s): pack (45 s).\n");
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

it("--proof names the tasks of each station below where the table has no room for names", async () => {
  const row = /\nTASKS BY NAME\n {2}station {2}task {3}name\n {2}S1 {7}frame {2}Mount the frame\n\n/u;
  expect(await balance(["--proof"])).toMatch(row);
  expect(await balance(["--proof"], 100)).toMatch(row);
  expect(await balance(["--proof"], 160)).not.toContain("TASKS BY NAME");
  expect(await balance([])).not.toContain("Mount the frame");
});

it("a load over its limit is said in a word, and its bar has no colour", async () => {
  const text = "unit: s\ndemand: 36 per hour\nplan-to: 90 %\ntasks: {long: 95, short: 20}\n";
  const run = { args: ["balance", "l.yaml"], files: { "l.yaml": text }, env: {} };
  // 95 s of 100 s, of which 90 s are planned: 105.6 %.
  const row = async (terminal: number) =>
    (await runLinepoise({ ...run, terminal })).stdout.split("\n").find((each) => each.includes("  long"));
  expect(await row(100)).toMatch(/ {2}95 s {2}■+▶ 105\.6 % over {2}/u);
  expect(await row(50)).toContain("  over 105.6 %  ");
});

it("options that are compared are a ranked list, the one with the fewest people first", async () => {
  const files = { "l.yaml": read("examples/cargo-bike.line.yaml") };
  const { stdout } = await runLinepoise({ args: ["compare", "l.yaml"], files });
  expect(stdout).toMatch(
    /\nVERDICT\n {2}1\. {2}battery-off-line: .*\n(?: {6}.*\n)* {2}2\. {2}wheels-off-line: /u,
  );
});
