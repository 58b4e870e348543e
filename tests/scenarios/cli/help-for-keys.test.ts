import { describe, expect, test } from "vitest";
import { lineFileKeys } from "../../../src/line/line-file.js";
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

  test("of a command comes before that of a key", async () => {
    expect((await help("takt")).stdout).toMatch(/^Usage: linepoise takt /);
  });

  test("refuses what is neither, with the nearest name", async () => {
    const { status, stdout, stderr } = await help("demnad");
    expect([status, stdout, stderr]).toEqual([
      2,
      "",
      'error: no command and no key of the line file is called "demnad"; nearest: demand\n',
    ]);
  });
});
