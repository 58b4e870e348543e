import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

const LINE = "line: x\nunit: s\ntasks: {a: 30, b: {time: 40, after: a}}\n";
const run = (args: string, files: Record<string, string> = {}) =>
  runLinepoise({
    args: ["balance", "line.yaml", "--cycle", "60 s", ...args.split(" ")],
    files: { "line.yaml": LINE, ...files },
  });

describe("where a balance writes to", () => {
  it("is looked at before the search: a missing folder and a file in the way leave nothing behind", async () => {
    for (const [args, message] of [
      [
        "--write nodir/p.yaml",
        'error: "nodir/p.yaml" cannot be written: its folder does not exist; make it first\n',
      ],
      [
        "--out nodir/r.txt",
        'error: "nodir/r.txt" cannot be written: its folder does not exist; make it first\n',
      ],
      ["--write new.yaml --out there.txt", 'error: "there.txt" exists; --force replaces it\n'],
      [
        "--out stations.ods",
        'error: "stations.ods" cannot be written: no file of that kind is made here; a table goes into .xlsx or .csv, a page into .html, a picture into .svg\n',
      ],
    ] as const) {
      const { status, stdout, stderr, files } = await run(args, { "there.txt": "mine" });
      expect([status, stdout, stderr]).toEqual([2, "", message]);
      expect(Object.keys(files)).toEqual(["line.yaml", "there.txt"]);
    }
  });

  it("has the form that the end of its name says", async () => {
    const { files } = await run("--out r.json");
    expect(JSON.parse(files["r.json"]!)).toMatchObject({ command: "balance", outcome: "proved" });
  });

  it("holds what its name says, or is refused with the names that fit", async () => {
    const expected = (command: string, end: string, ends: string) =>
      `error: --out x${end}: ${command} writes no ${end}; ${ends} is expected\n`;
    for (const [command, plan, end, ends] of [
      ["balance", false, ".md", ".txt, .csv, .xlsx or .json"],
      ["export", false, ".json", ".csv or .xlsx"],
      ["sheets", true, ".xlsx", ".json, .html or .md"],
      ["chart", true, ".csv", ".txt, .json or .svg"],
    ] as const) {
      const args = [command, "line.yaml", ...(plan ? ["p.yaml"] : []), "--out", `x${end}`];
      const { status, stderr, files } = await runLinepoise({ args, files: { "line.yaml": LINE } });
      expect([status, stderr, Object.keys(files)]).toEqual([2, expected(command, end, ends), ["line.yaml"]]);
    }
    const { stderr } = await run("--out new.plan.yaml");
    expect(stderr).toBe(
      "error: --out new.plan.yaml would get the report; --write takes the file of the plan\n",
    );
  });

  it("is never the line file, and never the same for plan and report, not even with --force", async () => {
    for (const [args, message] of [
      [
        "--out ./line.yaml --force",
        'error: --out and the line file are the same file, "./line.yaml"; give another one\n',
      ],
      [
        "--write line.yaml --force",
        'error: --write and the line file are the same file, "line.yaml"; give another one\n',
      ],
      [
        "--write p.yaml --out ./p.yaml",
        'error: --write and --out are the same file, "p.yaml"; give another one\n',
      ],
      ["--write - --out -", 'error: --write and --out are the same file, "-"; give another one\n'],
    ] as const) {
      const { status, stdout, stderr, files } = await run(args);
      expect([status, stdout, stderr]).toEqual([2, "", message]);
      expect(files).toEqual({ "line.yaml": LINE });
    }
  });

  it("is never the line file by another name, nor a link that leads nowhere, which a file would take the place of", async () => {
    const same = 'are the same file, "link.yaml"; give another one';
    const dead = '"dead.yaml" is a link to a file that does not exist; name that file, or take the link away';
    for (const [args, message] of [
      ["--out link.yaml --force", `error: --out and the line file ${same}\n`],
      ["--write link.yaml --force", `error: --write and the line file ${same}\n`],
      ["--write dead.yaml", `error: ${dead}\n`],
      ["--out dead.yaml --force", `error: ${dead}\n`],
      [
        "--write a.yaml --out here/a.yaml",
        'error: --write and --out are the same file, "a.yaml"; give another one\n',
      ],
    ] as const) {
      const { status, stdout, stderr, files } = await runLinepoise({
        args: ["balance", "line.yaml", "--cycle", "60 s", ...args.split(" ")],
        files: { "line.yaml": LINE },
        links: { "link.yaml": "line.yaml", "dead.yaml": "nowhere.yaml", here: "." },
      });
      expect([status, stdout, stderr]).toEqual([2, "", message]);
      expect(files).toEqual({ "line.yaml": LINE });
    }
  });

  it("is a plan of the same line without more ado, and anything else only with --force", async () => {
    const first = await run("--write p.yaml");
    const again = await run("--write p.yaml", { "p.yaml": first.files["p.yaml"]! });
    expect([again.status, again.files["p.yaml"]]).toEqual([0, first.files["p.yaml"]]);
    const foreign = await run("--write p.yaml", { "p.yaml": "notes of somebody\n" });
    expect([foreign.status, foreign.files["p.yaml"]]).toEqual([2, "notes of somebody\n"]);
    expect(foreign.stderr).toBe(
      'error: "p.yaml" exists and is no plan of "line.yaml"; --force replaces it\n',
    );
    const forced = await run("--write p.yaml --force", { "p.yaml": "notes of somebody\n" });
    expect([forced.status, forced.files["p.yaml"]]).toEqual([0, first.files["p.yaml"]]);
  });

  it("is standard output for the plan where the report goes to a file", async () => {
    const { stdout, files } = await run("--write - --out report.txt");
    expect(stdout).toMatch(/^format: linepoise-plan\/1\nline: line.yaml\n/u);
    expect(files["report.txt"]).toContain("STATIONS");
    const both = await run("--write -");
    expect([both.status, both.stdout]).toEqual([2, ""]);
  });

  it("gets no plan where there is none: an infeasible line writes nothing", async () => {
    const { status, files } = await runLinepoise({
      args: ["balance", "line.yaml", "--cycle", "35 s", "--write", "p.yaml"],
      files: { "line.yaml": LINE },
    });
    expect([status, Object.keys(files)]).toEqual([1, ["line.yaml"]]);
  });
});

describe("limits of the search", () => {
  const search = async (args: string) => JSON.parse((await run(`--json ${args}`)).stdout).search;

  it("are partial plans unless the clock is asked for, and both where both are given", async () => {
    expect(await search("--method exact")).toEqual({ nodes: 0, nodeLimit: 400_000, secondsLimit: null });
    expect(await search("--seconds 5")).toEqual({ nodes: 0, nodeLimit: null, secondsLimit: 5 });
    expect(await search("--seconds 5 --nodes 7")).toEqual({ nodes: 0, nodeLimit: 7, secondsLimit: 5 });
  });
});
