import { describe, expect, it } from "vitest";
import { elementsNamed, readMarkup } from "../../tools/read-markup.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

const LINE = [
  "line: Rig",
  "unit: s",
  "demand: 30 per hour",
  "tasks:",
  "  hook: {time: 20, equipment: rig, skill: rig}",
  "  run: {time: 10, machine-time: 40, equipment: rig, after: hook}",
  "  label: 15",
  "  unhook: {time: 15, equipment: rig, after: run}",
  "  pack: {time: 90, after: unhook}",
  "",
].join("\n");
const PLAN = [
  "format: linepoise-plan/1",
  "line: l.yaml",
  "stations:",
  "  - {id: S/1, tasks: [hook, run, label, unhook]}",
  "  - {id: 's:1', tasks: [pack]}",
  "",
].join("\n");
const files = { "l.yaml": LINE, "p.yaml": PLAN };
const run = (...args: string[]) => runLinepoise({ args, files });

describe("A sheet on a page", () => {
  it("draws bars as long as the times that they stand for: 100 s are the whole, 120 s the line cycle", async () => {
    const { stdout } = await run("sheets", "l.yaml", "p.yaml", "--station", "S/1");
    const page = readMarkup(stdout);
    // The axis is the last line of the picture that is level; patterns of fillings have rectangles without a place.
    const axis = elementsNamed(page, "line").find(
      ({ attributes: { y1, y2 } }) => y1 === y2 && Number(y1) > 20,
    )!;
    const rects = elementsNamed(page, "rect")
      .filter(({ attributes }) => attributes.x !== undefined)
      .map(({ attributes }) => [Number(attributes.x) - Number(axis.attributes.x1), Number(attributes.width)]);
    const chart = JSON.parse((await run("show", "l.yaml", "p.yaml", "--station", "S/1", "--json")).stdout);
    const length = Math.max(chart.dwellSeconds, chart.intervalSeconds);
    const scaled = (from: number, to: number) => [(from / length) * 650, ((to - from) / length) * 650];
    const hands = chart.tasks.map((each: { startSeconds: number; handsDoneSeconds: number }) =>
      scaled(each.startSeconds, each.handsDoneSeconds),
    );
    const onRig = chart.tasks.filter(({ task }: { task: string }) => task !== "label");
    const ofRig = onRig.map((each: { startSeconds: number; handsDoneSeconds: number }) =>
      scaled(each.startSeconds, each.handsDoneSeconds),
    );
    const { handsDoneSeconds, endSeconds } = chart.tasks[1];
    const expected = [...hands, ...ofRig, scaled(handsDoneSeconds, endSeconds)];
    expect(rects).toHaveLength(expected.length);
    for (const [at, [start, width]] of rects.entries()) {
      expect(Math.abs(start! - expected[at][0])).toBeLessThan(0.011);
      expect(Math.abs(width! - expected[at][1])).toBeLessThan(0.011);
    }
  });

  it("begins a printed page, repeats heads of tables and cuts no row; the paper is left to the printer", async () => {
    const { stdout } = await run("sheets", "l.yaml", "p.yaml");
    expect(stdout).toContain("break-before: page");
    expect(stdout).toContain("thead { display: table-header-group; }");
    expect(stdout).toMatch(/@page \{ margin: \d+mm; \}/u);
    expect(stdout).not.toMatch(/size: *(?:A4|letter)/iu);
  });

  it("breaks no word of a narrow column, which is as wide as its longest word", async () => {
    const { stdout } = await run("sheets", "l.yaml", "p.yaml");
    expect(stdout).toMatch(/\btd \{[^}]*overflow-wrap: break-word/u);
    // On paper a cell may, where its table would be wider than the page.
    expect(stdout.split("@media")[0]).not.toMatch(/overflow-wrap: anywhere|word-break|hyphens/u);
  });

  it("needs no colour: black, white and a grey of hair lines are all there is", async () => {
    const { stdout } = await run("sheets", "l.yaml", "p.yaml");
    expect([...new Set(stdout.match(/(?<!&)#[0-9a-f]{3,6}\b/gu))].sort()).toEqual(["#000", "#999", "#fff"]);
  });

  it("names the fingerprint of the line file, whatever pace is asked for", async () => {
    const balanced = await runLinepoise({
      args: ["balance", "l.yaml", "--write", "q.yaml"],
      files: { "l.yaml": LINE.replace("unit: s", "unit: s\nhandling: 2 s\nplan-to: 95 %") },
    });
    for (const pace of [[], ["--cycle", "200"], ["--demand", "20 per hour"]]) {
      const { stdout } = await runLinepoise({
        args: ["sheets", "l.yaml", "q.yaml", "--format", "markdown", ...pace],
        files: balanced.files,
      });
      const [, given = ""] = /fingerprint: "?([0-9a-f]{16})/u.exec(balanced.files["q.yaml"]!)!;
      expect(stdout).toContain(`Plan q.yaml, fingerprint ${given}\n`);
    }
  });

  it("bears a date only where one is given", async () => {
    const without = (await run("sheets", "l.yaml", "p.yaml", "--station", "S/1")).stdout;
    const dated = (await run("sheets", "l.yaml", "p.yaml", "--station", "S/1", "--date", "7 January")).stdout;
    expect(dated.replace(". 7 January", "")).toBe(without);
  });
});

describe("Sheets in a folder", () => {
  it("are a file for each station, each with a name of its own that every file system takes", async () => {
    const ran = await runLinepoise({
      args: ["sheets", "l.yaml", "p.yaml", "--out", "floor/"],
      files: { ...files, "floor/keep.txt": "" },
    });
    expect([ran.status, ran.stdout, ran.stderr]).toEqual([0, "", "3 files in floor/\n"]);
    const written = Object.keys(ran.files).filter((name) => name.startsWith("floor/"));
    expect(written).toEqual(["floor/S-1.html", "floor/keep.txt", "floor/s-1-2.html", "floor/training.html"]);
    for (const name of written.filter((each) => each.endsWith(".html"))) readMarkup(ran.files[name]!);
    const one = (await run("sheets", "l.yaml", "p.yaml", "--station", "S/1")).stdout;
    expect(ran.files["floor/S-1.html"]).toBe(one);
  });

  it("are written all or none", async () => {
    const ran = await runLinepoise({
      args: ["sheets", "l.yaml", "p.yaml", "--out", "floor/", "--format", "markdown"],
      files: { ...files, "floor/training.md": "mine" },
    });
    expect([ran.status, ran.stderr]).toEqual([2, 'error: "floor/training.md" exists; --force replaces it\n']);
    expect(Object.keys(ran.files)).toEqual(["floor/training.md", "l.yaml", "p.yaml"]);
  });

  it("are no JSON", async () => {
    const { status, stderr } = await run("sheets", "l.yaml", "p.yaml", "--out", "floor/", "--json");
    expect([status, stderr]).toEqual([
      2,
      'error: --out "floor/" is a folder, for sheets to print; give a file for JSON\n',
    ]);
  });
});

it("A training matrix of a line that names no people says of nobody that he could stand in", async () => {
  const files = {
    "l.yaml": "unit: s\ntasks: {a: {time: 10, skill: weld}}\n",
    "p.yaml": "format: linepoise-plan/1\nstations: [{id: S1, tasks: [a]}]\n",
  };
  const args = ["sheets", "l.yaml", "p.yaml", "--cycle", "60", "--training", "--format", "markdown"];
  const { stdout } = await runLinepoise({ args, files });
  expect(stdout).toContain("| place | needs | people |\n");
  expect(stdout).toContain("| S1 | weld | 1 |\n");
  expect(stdout).toContain("so who works there and who could stand in is not known.");
  expect(stdout).not.toContain("nobody");
});
