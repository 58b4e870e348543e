import { execFileSync } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { posix } from "node:path";
import { describe, expect, it, test } from "vitest";
import { PAGES } from "./pages.js";
import { readPage, root } from "./read-page.js";

const LINK = /\]\((?!https?:)([^)#\s]*)(?:#([^)\s]+))?\)/g;

/** The text of a page without code, in which brackets are no links. */
const prose = (path: string) =>
  readPage(path)
    .replace(/^```[\s\S]*?^```$/gm, "")
    .replace(/`[^`\n]*`/g, "");

/** The name by which a git host links to a heading. */
const anchor = (heading: string) =>
  heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N} _-]/gu, "")
    .replaceAll(" ", "-");

const anchorsOf = (path: string) =>
  [
    ...readPage(path)
      .replace(/^```[\s\S]*?^```$/gm, "")
      .matchAll(/^#+ (.*)$/gm),
  ].map(([, heading]) => anchor(heading!));

/** The files of the project that a page leads to, from the root, each with the heading. */
const linksOf = (path: string) =>
  [...prose(path).matchAll(LINK)].map(([, target = "", heading]) => ({
    file: target === "" ? path : posix.join(posix.dirname(path), target),
    heading,
  }));

test.each([...PAGES, "DEVELOPERS.md"])("Every link of %s leads to a file, and to a heading of it", (path) => {
  const links = linksOf(path);
  expect(links.length).toBeGreaterThan(0);
  expect(links.filter(({ file }) => !existsSync(`${root}${file}`))).toEqual([]);
  expect(
    links.filter(({ file, heading }) => heading !== undefined && !anchorsOf(file).includes(heading)),
  ).toEqual([]);
});

test("The README leads to every page", () => {
  for (const path of PAGES.slice(1)) expect(readPage("README.md")).toContain(`](${path})`);
});

describe("The package", () => {
  const listed = execFileSync("npm", ["pack", "--dry-run", "--json", "--ignore-scripts"], {
    cwd: root,
    encoding: "utf8",
    stdio: ["ignore", "pipe", "ignore"],
  });
  const [{ files }] = JSON.parse(listed) as [{ files: readonly { path: string }[] }];
  const packed = new Set(files.map(({ path }) => path));

  it("holds every page, and what it leads to but how the tool is developed", () => {
    const asked = [...PAGES, ...PAGES.flatMap((path) => linksOf(path).map(({ file }) => file))];
    expect([...new Set(asked.filter((path) => !packed.has(path)))]).toEqual(["DEVELOPERS.md"]);
  });

  it("holds beside them the program with its maps, the library, licences, the schemas and the examples, and nothing else", () => {
    const named = [
      "LICENSE",
      "bin/linepoise.js",
      "dist/library/library.js",
      "dist/library/licences.txt",
      "dist/program/licences.txt",
      "dist/program/main.js",
      "package.json",
      "shared/line-file.schema.json",
      "shared/plan-file.schema.json",
      ...readdirSync(`${root}examples`).map((name) => `examples/${name}`),
    ];
    expect(named.filter((path) => !packed.has(path))).toEqual([]);
    const others = [...packed].filter((path) => ![...named, ...PAGES].includes(path));
    // Types are written when it is packed in earnest.
    const made = /^dist\/(?:program\/[\w-]+\.js(?:\.map)?|library\/[\w-]+\.js|types\/library\.d\.ts)$/;
    expect(others.filter((path) => !made.test(path))).toEqual([]);
  });
});
