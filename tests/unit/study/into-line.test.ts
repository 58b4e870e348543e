import { describe, expect, test } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

const LINE = `# The line
line: Bench
unit: s   # of bare numbers
demand: 100 per shift
calendar: {shifts: {early: {length: 8 h, breaks: 30 min}}}
tasks:
  fit: 41           # first by hand
  press: {time: 36, after: fit, caution: Guard closed}   # flow
  bolt:
    time: 0.5 min   # as a map
    after: press
    quantity: 2
  check: {time: 0:20, every: 10, after: bolt}
  pack: 30
`;

const READINGS =
  "element,task,every,1,2,3\nfit,,,40,42,44\npick,press,,10,10,10\nturn,press,,20,26,23\nbolt,,,30,33,36\ncheck,,10,18,18,21\n";

async function study(files: Record<string, string>, ...args: string[]) {
  return runLinepoise({ args: ["study", "r.csv", "--unit", "s", "--into", "line.yaml", ...args], files });
}

describe("times written into a line file", () => {
  test("keep every comment and key, the unit of each time and the way in which a task is written", async () => {
    const { status, files, stderr } = await study({ "line.yaml": LINE, "r.csv": READINGS });
    expect(status, stderr).toBe(0);
    expect(files["line.yaml"]).toBe(`# The line
line: Bench
unit: s   # of bare numbers
demand: 100 per shift
calendar: {shifts: {early: {length: 8 h, breaks: 30 min}}}
tasks:
  fit: {time: 42, spread: 2, readings: 3 in r.csv (mean; rating 100 %; no allowance)}           # first by hand
  press: {time: 33, spread: 3, readings: 3 of pick and 3 of turn in r.csv (mean; rating 100 %; no allowance), after: fit, caution: Guard closed}   # flow
  bolt:
    time: 0.55 min   # as a map
    spread: 0.05 min
    readings: 3 in r.csv (mean; rating 100 %; no allowance)
    after: press
    quantity: 2
  check: {time: 19 s, spread: 1.732 s, readings: 3 in r.csv (mean; rating 100 %; no allowance), every: 10, after: bolt}
  pack: 30
`);
    expect(stderr).toContain(
      "warning: bolt is done 2 times a unit in the line: the readings are taken as those of one piece",
    );
    expect(stderr).toContain("note: 1 task of the line keeps its time");
  });

  test("are the times of the study when the line is read again, and written again nothing changes", async () => {
    const args = ["--rating", "110 %", "--allowance", "rest 12 %", "--allowance-of", "shift"];
    const first = await study({ "line.yaml": LINE, "r.csv": READINGS }, ...args, "--json");
    const { elements } = JSON.parse(first.stdout) as {
      elements: { element: string; standardSeconds: number }[];
    };
    const { line } = readLine("line.yaml", first.files["line.yaml"]!);
    const seconds = (id: string) => line!.tasks.find((task) => task.id === id)!.times[0]! / 1e6;
    const standard = (name: string) => elements.find(({ element }) => element === name)!.standardSeconds;
    expect(seconds("fit")).toBeCloseTo(standard("fit"), 2);
    expect(seconds("press")).toBeCloseTo(standard("pick") + standard("turn"), 2);
    expect(seconds("bolt")).toBeCloseTo(2 * standard("bolt"), 2);
    const again = await study({ ...first.files, "r.csv": READINGS }, ...args);
    expect(again.files["line.yaml"]).toBe(first.files["line.yaml"]);
  });

  test("keep the line ends of the file, and replace an old spread", async () => {
    const crlf =
      "unit: s\r\ntasks:\r\n  fit: {time: 40, spread: 9}\r\n  press:\r\n    time: 30\r\n    spread: 4\r\n";
    const { files } = await study({ "line.yaml": crlf, "r.csv": "element,1\nfit,50\npress,60\n" });
    expect(files["line.yaml"]).toBe(
      "unit: s\r\ntasks:\r\n  fit: {time: 50, readings: 1 in r.csv (mean; rating 100 %; no allowance)}\r\n  press:\r\n    time: 60\r\n    readings: 1 in r.csv (mean; rating 100 %; no allowance)\r\n",
    );
  });

  test("are shown and not written by a dry run", async () => {
    const { stdout, files } = await study(
      { "line.yaml": LINE, "r.csv": "element,1\npack,31.5\n" },
      "--dry-run",
    );
    expect(files["line.yaml"]).toBe(LINE);
    expect(stdout).toContain(
      "  line 14\n  -   pack: 30\n  +   pack: {time: 31.5, readings: 1 in r.csv (mean; rating 100 %; no allowance)}\n",
    );
  });

  test("warn where the calendar takes breaks off and the times carry an allowance", async () => {
    const { stderr } = await study(
      { "line.yaml": LINE, "r.csv": READINGS },
      ...["--allowance", "personal 5 %", "--allowance-of", "job", "--dry-run"],
    );
    expect(stderr).toContain(
      "the times carry an allowance of 5 %, and the calendar takes breaks off: make sure that no rest is counted twice",
    );
  });

  test("work of every tenth unit takes its count along", async () => {
    const line = "unit: s\ntasks:\n  fit: 40\n  wipe: 5\n";
    const { files } = await study({
      "line.yaml": line,
      "r.csv": "element,every,1,2\nfit,,40,42\nwipe,10,60,60\n",
    });
    expect(files["line.yaml"]).toContain("  wipe: {time: 60, spread: 0, every: 10, readings: 2 in r.csv");
  });
});

describe("nothing is written", () => {
  test.each<[string, string, string, string]>([
    [
      "for an element that is no task",
      "tasks:\n  fit: 40\n",
      "element,1\nfitt,5\n",
      'the line has no task "fitt"; nearest: fit',
    ],
    [
      "where line and study differ in how often",
      "tasks:\n  fit: 40\n  wipe: {time: 5, every: 4}\n",
      "element,every,1\nwipe,10,5\n",
      "wipe is done on every 4 units in the line, and on every 10 in the study",
    ],
    [
      "for times by model",
      "models: {a: 50 %, b: 50 %}\ntasks:\n  fit: {time: {a: 40, b: 50}}\n",
      "element,1\nfit,5\n",
      "`time` of fit cannot be replaced",
    ],
    [
      "where other times would change",
      "tasks:\n  fit: {time: &t 40}\n  press: {time: *t}\n",
      "element,1\nfit,5\n",
      "`time` of fit cannot be replaced",
    ],
  ])("%s", async (_, line, readings, message) => {
    const text = `unit: s\n${line}`;
    const { status, stderr, files } = await study({ "line.yaml": text, "r.csv": readings });
    expect(status).toBe(2);
    expect(stderr).toContain(message);
    expect(files["line.yaml"]).toBe(text);
  });
});

describe("readings that are kept", () => {
  test("stand in place of the spread, those of several elements added up, and go when they are not kept", async () => {
    const files = { "line.yaml": LINE, "r.csv": READINGS };
    const kept = await study(files, "--keep-readings");
    expect(kept.status, kept.stderr).toBe(0);
    const text = kept.files["line.yaml"]!;
    expect(text).toContain("fit: {time: 42, measured: [40, 42, 44], readings: 3 in r.csv");
    expect(text).toContain("press: {time: 33, measured: [30, 36, 33], readings: 3 of pick and 3 of turn");
    expect(text).toContain("measured: [0.5 min, 0.55 min, 0.6 min]");
    expect(text).not.toContain("spread");
    const { line, findings } = readLine("line.yaml", text);
    expect(line, JSON.stringify(findings)).not.toBeNull();
    expect(line!.tasks.find(({ id }) => id === "fit")!.variation!.factors).toEqual([40 / 42, 1, 44 / 42]);
    const again = await study({ ...files, "line.yaml": text });
    expect(again.files["line.yaml"]).not.toContain("measured");
    expect(again.files["line.yaml"]).toContain("fit: {time: 42, spread: 2,");
  });

  test("that cannot be added up are told, and the spread is written instead", async () => {
    const readings = "element,task,1,2,3\npick,fit,10,12,\nturn,fit,20,26,23\n";
    const { status, files, stderr } = await study(
      { "line.yaml": LINE, "r.csv": readings },
      "--keep-readings",
    );
    expect(status).toBe(0);
    expect(stderr).toContain("readings of pick and turn cannot be added up one by one");
    expect(files["line.yaml"]).toContain("fit: {time: 34, spread: ");
  });

  test("are asked for with the file that takes them", async () => {
    const asked = {
      args: ["study", "r.csv", "--unit", "s", "--keep-readings"],
      files: { "r.csv": READINGS },
    };
    expect(await runLinepoise(asked)).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("--keep-readings"),
    });
  });
});
