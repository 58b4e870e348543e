import { describe, expect, test } from "vitest";
import { lineFileKeys } from "../../../src/line/line-file.js";
import { TERMS } from "../../../src/report/terms.js";
import { readPage } from "../../readme/read-page.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

const help = (name: string) => runLinepoise({ args: ["help", name] });

describe("help for a key of the line file", () => {
  test("tells every key in the words of the schema", async () => {
    for (const { key, meaning } of lineFileKeys().filter((each) => !each.key.startsWith("options."))) {
      const { status, stdout } = await help(key);
      expect([key, status]).toEqual([key, 0]);
      expect(stdout.replaceAll(/\s+/g, " ")).toContain(meaning);
    }
  });

  test("takes the last word of a key, and names the keys below it", async () => {
    const { stdout } = await help("after");
    expect(stdout).toMatch(/^tasks\.NAME\.after\n {2}The task, or the list of tasks/);
    expect(stdout).toContain("  Keys below it: task (needed), wait, model, stations.\n");
  });

  test.each([
    ["predecessors", "tasks.NAME.after"],
    ["Cycle Time", "tasks.NAME.time (needed)"],
    ["allowance", "plan-to"],
    ["tools", "equipment"],
    ["operators", "tasks.NAME.people"],
    ["OEE", "uptime"],
  ])("leads from a word of the trade, %s, to %s", async (word, key) => {
    const { status, stdout } = await help(word);
    expect(status).toBe(0);
    expect(stdout).toContain(`${word}: the key is `);
    expect(stdout.split("\n")).toContain(key);
  });

  test("of a command comes before that of a key or a term of the same name", async () => {
    expect((await help("takt")).stdout).toMatch(
      /^Usage: linepoise takt [\s\S]*\n\ntakt\n {2}The pace of the customer/,
    );
    expect((await help("parts")).stdout).toMatch(/^Usage: linepoise parts [\s\S]*\n\ntasks\.NAME\.parts\n/);
    expect((await help("study")).stdout).toMatch(/print help for a command\n$/);
  });

  test("takes a key by some of the path to it", async () => {
    for (const path of ["test.fail", "tasks.test.fail", "tasks.NAME.test.fail"])
      expect((await help(path)).stdout).toMatch(/^tasks\.NAME\.test\.fail\n/);
    expect((await help("stations.fail")).status).toBe(2);
  });

  test("refuses what is neither, with the nearest name", async () => {
    const { status, stdout, stderr } = await help("demnad");
    expect([status, stdout, stderr]).toEqual([
      2,
      "",
      'error: no command, no key of the line file and no term is called "demnad"; nearest: demand\n',
    ]);
  });
});

describe("help for a term", () => {
  const terms = Object.values(TERMS).flat();
  const keys = new Set(lineFileKeys().map(({ key }) => key.split(".").at(-1)));

  test("tells its meaning and formula in the words of the page of terms, by each of its names", async () => {
    for (const { term, also = [], meaning, formula } of terms)
      for (const name of [term, ...also].filter((each) => !keys.has(each))) {
        const { status, stdout } = await help(name);
        expect([name, status]).toEqual([name, 0]);
        for (const text of [meaning, formula ?? ""]) expect(stdout.replaceAll(/\s+/g, " ")).toContain(text);
      }
  });

  test("is there for every core term of the README, and each that is no command or key is a term of the page", async () => {
    const table = readPage("README.md").split("## Core terms\n")[1]!.split("\n## ")[0]!;
    const core = [...table.matchAll(/^\| (?!term|---)(.*?) \|/gm)].flatMap(([, names]) => names!.split(", "));
    expect(core).toContain("station time");
    const names = terms.flatMap(({ term, also = [] }) => [term, ...also]);
    for (const name of [...core, "efficiency", "load", "pace"]) {
      const { status, stdout } = await help(name);
      expect([name, status]).toEqual([name, 0]);
      expect([name, names.includes(name), stdout.startsWith(`${name}: the key is`)]).toEqual([
        name,
        true,
        false,
      ]);
    }
  });

  test("says what the symbols of its formula are, and the nearest key", async () => {
    const { stdout } = await help("Working-Time");
    expect(stdout).toContain("W = m x C - H x v; with C line cycle, v passes of a station, H handling.\n");
    expect(stdout).toMatch(
      /\n\nThe nearest key of the line file is `calendar` \(linepoise help calendar\)\.\n$/,
    );
  });
});
