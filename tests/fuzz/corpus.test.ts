import { readdirSync, readFileSync } from "node:fs";
import { Command } from "commander";
import { describe, expect, it } from "vitest";
import { loadCommands } from "../../src/cli/program.js";
import { anyLine } from "./any-line.js";
import type { Case } from "./case.js";
import { Draw } from "./draw.js";
import { judgeCase } from "./judge-case.js";
import { argsOf, importArgs, LINE, orderArgs, PLAN, QUESTIONS, studyArgs } from "./make-args.js";
import { makeCase, modeOf } from "./make-case.js";
import { readCorpus } from "./read-corpus.js";
import { shrinkCase } from "./shrink-case.js";
import type { Tree } from "./tree.js";

const ROOT = new URL("../..", import.meta.url).pathname;
const FOLDER = new URL("corpus/", import.meta.url);

interface Kept {
  readonly args: readonly string[];
  readonly files: Readonly<Record<string, string | { readonly base64: string }>>;
  readonly beside?: number;
}

function readKept(name: string): Case {
  const { args, files, beside } = JSON.parse(readFileSync(new URL(name, FOLDER), "utf8")) as Kept;
  const content = Object.entries(files).map(([file, each]) => [
    file,
    typeof each === "string" ? each : Buffer.from(each.base64, "base64"),
  ]);
  const kept = { args, files: Object.fromEntries(content) as Case["files"] };
  return beside === undefined ? kept : { ...kept, beside };
}

describe("what fell out of generated inputs stays mended", () => {
  it.each(readdirSync(FOLDER).sort())("%s", async (name) => {
    expect((await judgeCase(readKept(name))).failure).toBe(null);
  });
});

/** The keys of a schema by their paths, with * for names of one's own. */
function keysOf(schema: Record<string, unknown>, path: string, found: Set<string>): void {
  for (const [key, value] of Object.entries(
    (schema.properties ?? {}) as Record<string, Record<string, unknown>>,
  )) {
    found.add(`${path}${key}`);
    keysOf(value, `${path}${key}.`, found);
  }
  for (const key of ["items", "additionalProperties"]) {
    const inside = schema[key];
    if (typeof inside === "object" && inside !== null)
      keysOf(inside as Record<string, unknown>, key === "items" ? path : `${path}*.`, found);
  }
  for (const either of (schema.anyOf ?? []) as Record<string, unknown>[]) keysOf(either, path, found);
}

/** The same of a tree, by the last key alone: a name of one's own may stand anywhere before it. */
function wordsIn(tree: Tree, found: Set<string>): void {
  if (typeof tree === "string") return;
  if (Array.isArray(tree)) {
    for (const each of tree) wordsIn(each, found);
    return;
  }
  for (const [key, value] of tree) {
    found.add(key);
    wordsIn(value, found);
  }
}

describe("large inputs by their numbers", () => {
  it.each([1, 2, 3])("%i", async (number) => {
    const made = makeCase("large", number, { lines: [], plans: [], tables: [], cases: [] });
    expect((await judgeCase(made)).failure).toBe(null);
  });
});

describe("generated inputs", () => {
  it("have every key of the line file", () => {
    const schema = JSON.parse(readFileSync(`${ROOT}shared/line-file.schema.json`, "utf8"));
    const paths = new Set<string>();
    keysOf(schema, "", paths);
    const drawn = new Set<string>();
    for (let number = 1; number <= 1_000; number++) wordsIn(anyLine(new Draw(number)).tree, drawn);
    const missing = [...paths].filter((path) => !drawn.has(path.split(".").at(-1)!));
    expect(paths.size).toBeGreaterThan(100);
    expect(missing).toEqual([]);
  });

  it("have every option of every command", async () => {
    const words = new Set<string>();
    for (let number = 1; number <= 1_000; number++) {
      const draw = new Draw(number);
      const line = anyLine(draw, 3, { learning: true, options: true, tables: true });
      const called = { line, posts: ["S1"], path: LINE, plan: PLAN };
      const all = [
        ...QUESTIONS.map((question) => argsOf(question, draw, called)),
        importArgs(draw, "table.xlsx", ["id", "time"], "Tasks"),
        orderArgs(draw, "table.xlsx", called, "Tasks"),
        studyArgs(draw, "table.xlsx", line.tasks, "Tasks", null),
      ];
      for (const [command, ...rest] of all)
        for (const word of rest) words.add(`${command} ${word.split("=", 1)[0]}`);
    }
    const program = new Command();
    for (const register of await loadCommands([])) register(program, () => {});
    const known = program.commands.flatMap((command) =>
      command.options.map(({ long }) => `${command.name()} ${long}`),
    );
    expect(known.length).toBeGreaterThan(200);
    expect(known.filter((option) => !words.has(option))).toEqual([]);
  });

  it("are the same for the same number", () => {
    const corpus = readCorpus(ROOT);
    for (let number = 1; number <= 200; number++) {
      const mode = modeOf(number);
      if (mode === "solver") continue;
      expect(makeCase(mode, number, corpus)).toEqual(makeCase(mode, number, corpus));
    }
  });

  it("are told from sound ones where output is wrong, and made smaller", async () => {
    const long = {
      args: ["takt", "line.yaml", "--json"],
      files: { "line.yaml": "a: 1\nb: 2\nc: bad\nd: 4\n" },
    };
    const judge = async ({ files }: Case) => ({
      status: 0,
      failure: String(files["line.yaml"]).includes("bad") ? "thrown: here" : null,
    });
    expect(await shrinkCase(long, "thrown: here", judge)).toEqual({
      args: ["takt"],
      files: { "line.yaml": "c: bad\n" },
    });
  });
});
