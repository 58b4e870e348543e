import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findFiles } from "../../../src/cli/find-files.js";

const folder = mkdtempSync(join(tmpdir(), "linepoise-files-"));
const NAMES = [
  "a.yaml",
  "b.yaml",
  "B.yml",
  "x*y.yaml",
  ".hidden.yaml",
  "lines/a.plan.yaml",
  "lines/aa.plan.yaml",
  "lines/deep/er/a.plan.yaml",
  "lines/.git/a.plan.yaml",
  "🚲.yaml",
];

beforeAll(() => {
  for (const name of NAMES) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), "");
  }
  symlinkSync("../lines", join(folder, "lines", "round"));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe("A path with * and ?", () => {
  it.each<[string, string[]]>([
    ["*.yaml", ["a.yaml", "b.yaml", "x*y.yaml", "🚲.yaml"]],
    ["?.yaml", ["a.yaml", "b.yaml", "🚲.yaml"]],
    ["?.y*ml", ["B.yml", "a.yaml", "b.yaml", "🚲.yaml"]],
    ["lines/*.plan.yaml", ["lines/a.plan.yaml", "lines/aa.plan.yaml"]],
    ["lines/a*a.plan.yaml", ["lines/aa.plan.yaml"]],
    ["li*s/*/?r/*", ["lines/deep/er/a.plan.yaml"]],
    ["lines/**/a.plan.yaml", ["lines/a.plan.yaml", "lines/deep/er/a.plan.yaml"]],
    ["**/aa*", ["lines/aa.plan.yaml"]],
    ["lines/**", ["lines/a.plan.yaml", "lines/aa.plan.yaml", "lines/deep/er/a.plan.yaml"]],
    ["./lines//deep/**/*.yaml", ["./lines/deep/er/a.plan.yaml"]],
    [".*.yaml", [".hidden.yaml"]],
    ["lines/.git/*", ["lines/.git/a.plan.yaml"]],
    ["**/**/aa*", ["lines/aa.plan.yaml"]],
  ])("%s", async (pattern, expected) => {
    expect(await findFiles(folder, pattern)).toEqual(expected);
  });

  it("fits from the root of the file system too", async () => {
    expect(await findFiles("/nowhere", join(folder, "?.yaml"))).toEqual(
      ["a.yaml", "b.yaml", "🚲.yaml"].map((name) => join(folder, name)),
    );
  });

  it("is the file itself where there is one of that name, and any other path is left alone", async () => {
    expect(await findFiles(folder, "x*y.yaml")).toEqual(["x*y.yaml"]);
    expect(await findFiles(folder, "none.yaml")).toEqual(["none.yaml"]);
  });

  it("is refused where no file fits", async () => {
    await expect(findFiles(folder, "lines/*.txt")).rejects.toThrow('no file fits "lines/*.txt"');
    await expect(findFiles(folder, "nowhere/**")).rejects.toThrow('no file fits "nowhere/**"');
  });
});
