import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { posix } from "node:path";
import { expect, test } from "vitest";
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

test("Every page is packed with the tool, and so is what it leads to but how the tool is developed", () => {
  const listed = execFileSync("npm", ["pack", "--dry-run", "--json", "--ignore-scripts"], {
    cwd: root,
    encoding: "utf8",
    stdio: ["ignore", "pipe", "ignore"],
  });
  const [{ files }] = JSON.parse(listed) as [{ files: readonly { path: string }[] }];
  const packed = new Set(files.map(({ path }) => path));
  const asked = [...PAGES, ...PAGES.flatMap((path) => linksOf(path).map(({ file }) => file))];
  expect([...new Set(asked.filter((path) => !packed.has(path)))]).toEqual(["DEVELOPERS.md"]);
});
