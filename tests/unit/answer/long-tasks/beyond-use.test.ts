import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

async function run(text: string, ...args: string[]) {
  const { status, stdout, stderr } = await runLinepoise({
    args: [...args.slice(0, 1), "line.yaml", ...args.slice(1)],
    files: { "line.yaml": text },
  });
  return { status, stderr, stdout, words: stdout.replaceAll(/\s+/gu, " ") };
}

// 8 h / 300 = 96 s. A test that 99 % fail is done 100 times: 100 x 153 = 15,300 s, and ceil(15,300 / 96) = 160.
const FAILING = `unit: s
demand: 300 per day
calendar: {shifts: {day: {length: 8 h}}}
equipment: {press: 2}
tasks:
  load: {time: 20}
  weld: {time: 153, after: load, equipment: press, test: {fail: 99 %, repair: 60 s, return-to: weld}}
  clean: {time: 45, after: weld}
  unload: {time: 10, after: clean, equipment: press}
`;

// 7.5 h / 594 = 45.4545 s: 0.7576 min. ceil(99,999 / 0.757576) = 131,999.
const WRONG_UNIT = `unit: min
demand: 594 per day
calendar: {shifts: {day: {length: 7.5 h}}}
tasks:
  a: {time: 99999}
  b: {time: 3}
`;

describe("A task that would take more parts or places than a line can have", () => {
  it("is told so, and no balance with so many is tried", async () => {
    const { status, stderr, words } = await run(FAILING, "balance", "--nodes", "300");
    expect(status).toBe(1);
    expect(words).toContain("weld: parallel workplaces: no, it would take 160;");
    expect(words).toContain("split: no, it would take 160 parts of at most 96 s;");
    expect(words).toContain("slower pace: a line cycle of 15,300 s");
    // The time itself is no slip: failures alone have it done 100 times.
    expect(stderr).not.toContain("is the unit right?");
  });

  it.each(["balance", "off-line"])("whose time is beyond all use has an answer from %s", async (command) => {
    const { status, stderr, words } = await run(WRONG_UNIT, command);
    expect(stderr).not.toContain("error in linepoise");
    expect(status).toBe(1);
    expect(words).toMatch(/131,?999/u);
  });

  it.each([
    ["a line without rules", WRONG_UNIT],
    ["a line with rules", WRONG_UNIT.replace("tasks:", "stations: [{id: S1}, {id: S2}]\ntasks:")],
  ])("is asked about its unit on %s", async (_, text) => {
    const { stderr } = await run(text, "balance");
    expect(stderr).toContain(
      "warning: a takes 99,999 min, more than 100 times the working time (0.7576 min): is the unit right? [unit-slip]",
    );
    expect(stderr).not.toContain("b takes 3 min, more than");
  });

  it("is split where the parts are few", async () => {
    const { words } = await run(FAILING.replace("99 %", "50 %"), "balance", "--nodes", "300");
    // 2 x 153 = 306 s, in ceil(306 / 96) = 4 parts.
    expect(words).toContain("split: 4 parts of at most 96 s");
  });
});

describe("A task without time that is kept with one too long for a station", () => {
  it("is no reason for parts of its own", async () => {
    const text = "unit: s\ntogether: [[c, d]]\ntasks: {c: 90, d: {time: 0}}\n";
    const { status, stdout } = await run(text, "off-line", "--cycle", "60 s", "--json");
    expect(status).toBe(1);
    const { tooLong } = JSON.parse(stdout);
    expect(
      tooLong.map((each: { task: string; split: { parts: number } }) => [each.task, each.split.parts]),
    ).toEqual([
      ["c", 2],
      ["d", 1],
    ]);
  });
});
