import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import * as library from "../../src/library.js";
import { readPage, root } from "./read-page.js";

/** What a page's script prints in a folder with a line file, where linepoise is the built package. */
function runScript(page: string): string {
  const [, script = ""] = /^```js\n([\s\S]*?)^```$/m.exec(readPage(page)) ?? [];
  const folder = mkdtempSync(join(tmpdir(), "linepoise-"));
  try {
    mkdirSync(join(folder, "node_modules"));
    symlinkSync(root, join(folder, "node_modules/linepoise"));
    writeFileSync(join(folder, "my.line.yaml"), readPage("examples/wheels.line.yaml"));
    writeFileSync(join(folder, "script.mjs"), script);
    const { stdout, stderr } = spawnSync(process.execPath, ["script.mjs"], { cwd: folder, encoding: "utf8" });
    return `${stdout}${stderr}`;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

test("The README's script balances a line with the built library", () => {
  expect(runScript("README.md")).toMatch(/^proved format: linepoise-plan\/1\n/);
});

test("The script of the page of the library balances, checks and rebalances", () => {
  // 50 an hour is a unit each 72 s, 70 one each 51.4 s: 35 and 40 + 20 s, then one station for each task.
  expect(runScript("shared/library.md")).toMatchInlineSnapshot(`
    "proved 60 [ 'saw' ]
    wrong [ { task: 'sand', from: 'S2', to: 'S3' } ] true
    3
    "
  `);
});

test("The page of the library has every function", () => {
  const functions = Object.keys(library).filter((name) => name !== "UsageError");
  const named = [...readPage("shared/library.md").matchAll(/^\| `(\w+)\(/gm)].map(([, name]) => name!);
  expect(named.sort()).toEqual(functions.sort());
});
