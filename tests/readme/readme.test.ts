import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";
import { lineFileKeys } from "../../src/line/line-file.js";
import { CAUTION } from "../../src/report/cautions.js";
import { definitions } from "./commands-block.js";
import { readPage, root } from "./read-page.js";

const readme = () => readPage("README.md");
/** What stands between a heading of the README and the next. */
const section = (heading: string) => readme().split(`## ${heading}\n`)[1]!.split("\n## ")[0]!;
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
      "## In a program",
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
    const blocks = section("Your own line in five commands").split("```sh\n");
    const [steps = [], further = []] = blocks.slice(1).map((block) => block.split("\n```")[0]!.split("\n"));
    expect(steps).toHaveLength(5);
    const readings = "element,1,2,3\nfit-fork,40.2,41.1,40.7\nlace-wheel,39.8,40.3,40.6\n";
    const tasks =
      "task,time (s),qty,after\nload-frame,38,,\npress-headset,62,,load-frame\nfit-fork,41,,press-headset\nlace-wheel,40,2,\ntrue-wheel,25,2,lace-wheel\nfit-wheels,48,,fit-fork; true-wheel\nbleed-brakes,66,,fit-wheels\nbox,55,,bleed-brakes\n";
    const built =
      "task,load-frame,lace-wheel,press-headset,true-wheel,fit-fork,fit-wheels,bleed-brakes,box".replaceAll(
        ",",
        "\n",
      );
    const files = { "my.readings.csv": readings, "my.tasks.csv": tasks, "my.orders.csv": built };
    inFolder(files, (folder) => {
      for (const [at, line] of [...steps, ...further].entries()) {
        expect(runLine(line, folder)).toEqual({ line, status: 0, stderr: "" });
        if (at === 0) fillIn(join(folder, "my.line.yaml"));
      }
    });
  });

  it("names each command that answers something of a line", () => {
    const named = new Set(
      [...readme().matchAll(/^(?:\$ npx )?linepoise ([a-z-]+)/gm)].map(([, name]) => name),
    );
    const names = definitions.map((each) => each.name());
    expect(names.filter((name) => !named.has(name))).toEqual(["schema", "completion", "help"]);
  });

  it("has CI run the packed copy only, in commands that pass, and pass again in the same folder", () => {
    const { name, version } = JSON.parse(readPage("package.json"));
    const text = section("Plans in CI");
    expect(text).toContain(`npm install --save-dev ./${name}-${version}.tgz `);
    const commands = text
      .split("\n")
      .filter((line) => /^(?:- run: |exec |git |npx )/.test(line) && line !== "- run: npm ci");
    const calls = commands.filter((line) => !line.startsWith("git "));
    expect(calls.filter((line) => !line.includes("npx --no-install linepoise check "))).toEqual([]);
    expect([calls.length, text.match(/npx .*linepoise/g)!.length]).toEqual([3, 3]);
    const files = {
      "lines/bike.line.yaml": readPage("examples/cargo-bike.line.yaml"),
      "lines/bike.plan.yaml": readPage("examples/cargo-bike.plan.yaml"),
    };
    inFolder(files, (folder) => {
      for (const line of [
        "git init --quiet --initial-branch main",
        "git add lines",
        "git -c user.name=test -c user.email=test@example.org commit --quiet --message lines",
        "git clone --quiet --bare . origin.git",
        "git remote add origin ./origin.git",
      ])
        expect(runLine(line, folder)).toEqual({ line, status: 0, stderr: "" });
      for (const line of [...commands, ...commands]) {
        const { status } = runLine(line, folder);
        expect({ line, status }).toEqual({ line, status: 0 });
      }
      expect(readFileSync(join(folder, "check.xml"), "utf8")).toContain("<testsuites");
    });
  });

  it("names keys of the line file in its table of the shop floor", () => {
    const known = new Set(lineFileKeys().map(({ key }) => key.split(".").at(-1)));
    const table = section("The shop floor");
    const cells = [...table.matchAll(/^\| (`.*?) \|/gm)].map(([, cell]) => cell!);
    const keys = cells.flatMap((cell) => [...cell.matchAll(/`([a-z-]+)[`:]/g)].map(([, key]) => key!));
    expect(keys.length).toBeGreaterThan(cells.length);
    expect(keys.filter((key) => !known.has(key))).toEqual([]);
  });
});

/** Takes the # off the demand and the calendar that an imported line file has as examples. */
function fillIn(path: string): void {
  const text = readFileSync(path, "utf8");
  const filled = text.replace(/^# (?=demand: |calendar: )/gmu, "");
  expect(filled.length).toBe(text.length - 4);
  writeFileSync(path, filled);
}

/** Does something in a new folder with these files, which is removed afterwards. */
function inFolder(files: Readonly<Record<string, string>>, act: (folder: string) => void): void {
  const folder = mkdtempSync(join(tmpdir(), "linepoise-"));
  try {
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(join(folder, dirname(path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    act(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Runs a line of the README in a folder: git, or the built program by whatever starts it there. */
function runLine(line: string, folder: string) {
  const [first = "", ...words] = line
    .replace(/^(?:- run: |exec )?(?:npx --no-install )?/, "")
    .split(" #")[0]!
    .match(/"[^"]*"|\S+/g)!
    .map((word) => word.replaceAll('"', ""));
  expect(["git", "linepoise"]).toContain(first);
  const [program, args] =
    first === "git" ? ["git", words] : [process.execPath, [`${root}bin/linepoise.js`, ...words]];
  const { status, stderr } = spawnSync(program, args, { cwd: folder, encoding: "utf8" });
  return { line, status, stderr: status === 0 ? "" : stderr };
}
