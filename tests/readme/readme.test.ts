import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { lineFileKeys } from "../../src/line/line-file.js";
import { CAUTION } from "../../src/report/cautions.js";
import { readPage, root } from "./read-page.js";

const readme = () => readPage("README.md");
const lines = (path: string) => readPage(path).split("\n");

describe("the README", () => {
  it("has at most 300 lines, in the order in which people ask", () => {
    expect(lines("README.md").length).toBeLessThanOrEqual(300);
    expect(lines("README.md").filter((line) => /^#+ [A-Z]|^# l/.test(line))).toEqual([
      "# linepoise",
      "## Two commands",
      "## A line file in, an answer out",
      "## Your own line in five commands",
      "## The shop floor",
      "## Plans in CI",
      "## Core terms",
      "## Exit status and JSON",
      "## Links",
      "## Caution",
    ]);
  });

  it("has the caution of every output before the first command and at its end", () => {
    const quotes = [...readme().matchAll(/^> .*\n(?:> .*\n)*/gm)];
    expect(quotes.map(([quote]) => quote.replace(/^> /gm, "").trim().replaceAll("\n", " "))).toEqual([
      CAUTION,
      CAUTION,
    ]);
    expect(quotes[0]!.index).toBeLessThan(readme().indexOf("## Two commands"));
    expect(quotes[1]!.index).toBeGreaterThan(readme().indexOf("## Caution"));
  });

  it("names two commands for a fresh clone, and CI runs those", () => {
    for (const command of ["npm ci && npm run demo", "npm ci && npm test"]) {
      expect(lines("README.md")).toContain(command);
      expect(lines(".ci/run")).toContain(command);
    }
  });

  it("leads to a line of one's own in five commands of the built program that work in this order, and further ones", () => {
    const blocks = readme()
      .split("## Your own line in five commands")[1]!
      .split("\n## ")[0]!
      .split("```sh\n");
    const [steps = [], further = []] = blocks.slice(1).map((block) => block.split("\n```")[0]!.split("\n"));
    expect(steps).toHaveLength(5);
    const folder = mkdtempSync(join(tmpdir(), "linepoise-"));
    try {
      for (const line of [...steps, ...further]) {
        const words = line
          .split(" #")[0]!
          .match(/"[^"]*"|\S+/g)!
          .map((word) => word.replaceAll('"', ""));
        const program = [`${root}bin/linepoise.js`, ...words.slice(1)];
        const { status, stderr } = spawnSync(process.execPath, program, { cwd: folder, encoding: "utf8" });
        // The starter has no options to compare yet: that is said, and what to write.
        const expected = words[1] === "compare" ? 2 : 0;
        expect({ line, status, stderr: status === expected ? "" : stderr }).toEqual({
          line,
          status: expected,
          stderr: "",
        });
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it("names keys of the line file in its table of the shop floor", () => {
    const known = new Set(lineFileKeys().map(({ key }) => key.split(".").at(-1)));
    const table = readme().split("## The shop floor")[1]!.split("\n## ")[0]!;
    const cells = [...table.matchAll(/^\| (`.*?) \|/gm)].map(([, cell]) => cell!);
    const keys = cells.flatMap((cell) => [...cell.matchAll(/`([a-z-]+)[`:]/g)].map(([, key]) => key!));
    expect(keys.length).toBeGreaterThan(cells.length);
    expect(keys.filter((key) => !known.has(key))).toEqual([]);
  });
});
