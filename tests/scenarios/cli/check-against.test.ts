import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Readable, Writable } from "node:stream";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { main } from "../../../src/cli/main.js";

const folder = mkdtempSync(join(tmpdir(), "linepoise-against-"));
const SOMEBODY = ["-c", "user.name=Kim", "-c", "user.email=kim@example.org", "-c", "commit.gpgsign=false"];
const git = (...words: string[]) =>
  execFileSync("git", [...SOMEBODY, ...words], { cwd: folder, stdio: "pipe" });
const write = (name: string, text: string) => writeFileSync(join(folder, name), text);

const lineFile = (fork: number, demand = 60) =>
  `unit: s\ndemand: ${demand} per hour\ntasks: {frame: 62, fork: {time: ${fork}, after: frame}}\n`;
const PLAN = "format: linepoise-plan/1\nstations: [{tasks: [frame]}, {tasks: [fork]}]\n";
const FLIPPED = "format: linepoise-plan/1\nstations: [{tasks: [fork]}, {tasks: [frame]}]\n";

beforeAll(() => {
  git("init", "--quiet");
  write("bike.line.yaml", lineFile(50));
  write("bike.plan.yaml", PLAN);
  git("add", ".");
  git("commit", "--quiet", "--message", "first");
  git("tag", "agreed");
  write("bike.line.yaml", "unit: s\ntasks: {frame: fast}\n");
  write("bike.plan.yaml", "stations: [\n");
  git("commit", "--quiet", "--all", "--message", "broken");
  git("tag", "broken");
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Status, the rules that fail and those known from before, and what is said aside. */
async function check(...words: string[]) {
  const ran = await run(["check", "bike.line.yaml", "bike.plan.yaml", "--json", ...words]);
  const { plans = [] } = ran.stdout === "" ? {} : JSON.parse(ran.stdout);
  const findings: { rule: string; station: string | null; fails: boolean; known: boolean | null }[] =
    plans.flatMap((plan: { findings: unknown }) => plan.findings);
  const names = (of: (each: (typeof findings)[number]) => boolean) =>
    findings.filter(of).map(({ rule, station }) => (station === null ? rule : `${rule} ${station}`));
  return {
    status: ran.status,
    fails: names((each) => each.fails),
    known: names((each) => each.known === true),
    aside: ran.stderr,
  };
}

async function run(args: string[], env: Record<string, string> = { PATH: process.env.PATH ?? "" }) {
  const texts = { stdout: "", stderr: "" };
  const stream = (name: keyof typeof texts) =>
    new Writable({
      write(chunk, _, done) {
        texts[name] += String(chunk);
        done();
      },
    });
  const status = await main({
    args,
    env,
    folder,
    stdin: Readable.from([]),
    stdout: stream("stdout"),
    stderr: stream("stderr"),
    onInterrupt: () => () => {},
    now: () => 0,
  });
  return { status, ...texts };
}

describe("A check against a revision", () => {
  it("fails only on what is new or worse than the plan and the line were then", async () => {
    write("bike.plan.yaml", PLAN);
    write("bike.line.yaml", lineFile(50));
    expect(await check()).toMatchObject({ status: 1, fails: ["slower-than-pace S1"], known: [] });
    expect(await check("--against", "agreed")).toEqual({
      status: 0,
      fails: [],
      known: ["slower-than-pace S1", "made-for"],
      aside: "",
    });
    write("bike.line.yaml", lineFile(61));
    expect(await check("--against", "agreed")).toMatchObject({
      status: 1,
      fails: ["slower-than-pace S2"],
      known: ["slower-than-pace S1", "made-for"],
    });
  });

  it("fails where an old overload got worse", async () => {
    write("bike.plan.yaml", PLAN);
    write("bike.line.yaml", lineFile(50, 61));
    expect(await check("--against", "agreed~0")).toMatchObject({
      status: 1,
      fails: ["slower-than-pace S1"],
      known: ["made-for"],
    });
  });

  it("takes everything for new where the plan was not there or was no plan", async () => {
    write("bike.line.yaml", lineFile(50));
    write("bike.plan.yaml", PLAN);
    write("new.plan.yaml", PLAN);
    const fresh = await run([
      "check",
      "bike.line.yaml",
      "new.plan.yaml",
      "--against",
      "agreed",
      "--format",
      "github",
    ]);
    expect(fresh.status).toBe(1);
    expect(fresh.stderr).toBe('at "agreed" "new.plan.yaml" is not there: all that is found counts as new\n');
    expect(await check("--against", "broken")).toMatchObject({
      status: 1,
      fails: ["slower-than-pace S1"],
      aside: [
        'at "broken" the line file has errors or no pace: plans of then are checked against the line of now\n',
        'at "broken" "bike.plan.yaml" is no plan: all that is found counts as new\n',
      ].join(""),
    });
  });

  it("says what is known from before in words and annotations", async () => {
    write("bike.line.yaml", lineFile(50));
    write("bike.plan.yaml", PLAN);
    const words = ["check", "bike.line.yaml", "bike.plan.yaml", "--against", "agreed"];
    const text = await run(words);
    expect(text.stdout.split("\n")[0]).toBe(
      "bike.plan.yaml: no worse than before: 1 error, 1 note; 2 stations, 2 people, cycle of the plan 62 s at S1",
    );
    expect(text.stdout).toContain("instead of 60 (as before) [slower-than-pace]");
    const github = await run([...words, "--format", "github"]);
    expect(github.stdout.split("\n")[0]).toMatch(/^::notice file=bike\.plan\.yaml,line=2,.*\(as before\)$/u);
    const junit = await run([...words, "--format", "junit"]);
    expect(junit.stdout).toContain('tests="3" failures="0" errors="0"');
  });

  it("is refused for an unknown revision, for one that looks like an option, and without git", async () => {
    const asked = ["check", "bike.line.yaml", "bike.plan.yaml"];
    const refused = { status: 2, stdout: "" };
    expect(await run([...asked, "--against", "agred"])).toEqual({
      ...refused,
      stderr: 'error: "agred" is neither a file nor a revision of this git repository\n',
    });
    expect(await run([...asked, "--against=--output=x"])).toEqual({
      ...refused,
      stderr: 'error: "--output=x" is neither a file nor a revision of this git repository\n',
    });
    expect(await run([...asked, "--against", "agreed"], { PATH: "/nowhere" })).toEqual({
      ...refused,
      stderr: "error: a revision needs git, and git cannot be started here\n",
    });
    expect(
      await run([...asked, "--against", "agreed"], { PATH: process.env.PATH ?? "", GIT_DIR: "/nowhere" }),
    ).toEqual({
      ...refused,
      stderr: 'error: "agreed" is no file, and could be a revision in a git repository only; none is here\n',
    });
  });
});

describe("A check against another plan", () => {
  it("fails only on what that plan does not have", async () => {
    write("bike.line.yaml", lineFile(50));
    write("bike.plan.yaml", FLIPPED);
    write("old.plan.yaml", PLAN);
    expect(await check("--against", "old.plan.yaml")).toMatchObject({
      status: 1,
      fails: ["precedence S1", "slower-than-pace S2"],
      known: ["made-for"],
    });
    write("old.plan.yaml", FLIPPED);
    expect(await check("--against", "old.plan.yaml")).toMatchObject({ status: 0, fails: [] });
  });

  it("is refused where that file is a plan of another line", async () => {
    write("other.plan.yaml", "format: linepoise-plan/1\nstations: [{tasks: [lace, true]}]\n");
    expect(await check("--against", "other.plan.yaml")).toMatchObject({
      status: 2,
      aside:
        'error: --against "other.plan.yaml" is no plan of the line: the plan is one of another line: of its 2 tasks none is of bike.line.yaml, which has 2 tasks\n',
    });
  });

  it("is refused where that file is no plan", async () => {
    expect(await check("--against", "bike.line.yaml")).toMatchObject({
      status: 2,
      aside:
        'error: --against "bike.line.yaml" is no plan of the line: this is a line file, not a plan: it has `tasks:` and no `format: linepoise-plan/1`\n',
    });
  });
});
