import { writeFileSync } from "node:fs";
import { beforeAll, describe, expect, it, test } from "vitest";
import { readLine } from "../../src/line/read-line.js";
import { definitions } from "./commands-block.js";
import { EXAMPLE_FILES, exampleOf, ROWS } from "./keys-block.js";
import { commandsShown, currentPage, PAGES, runOnce } from "./pages.js";
import { readPage, root } from "./read-page.js";
import { RUNS, SEEN, TERMS } from "./terms.js";

describe.each(PAGES)("%s", (path) => {
  beforeAll(async () => {
    if (process.env.UPDATE === "1") writeFileSync(`${root}${path}`, await currentPage(path));
  });

  it("shows what commands print, keys mean and help says now", async () => {
    expect(readPage(path)).toBe(await currentPage(path));
  });
});

/** What the blocks of a kind on a page name. */
const named = (path: string, kind: string) =>
  [...readPage(path).matchAll(new RegExp(`^<!-- ${kind}: (.*); written by the tests -->$`, "gm"))].map(
    ([, of]) => of!,
  );

test("The page of the line file has every key of a line file once", () => {
  const tops = named("shared/line-file.md", "keys").flatMap((of) => of.split(", "));
  expect([...tops].sort()).toEqual([...new Set(ROWS.map(({ key }) => key.split(".")[0]!))].sort());
});

test("Every key with a value has an example, from a line file that reads without a finding", () => {
  for (const path of EXAMPLE_FILES) {
    expect(readLine(path, readPage(path)).findings).toEqual([]);
  }
  const bare = ROWS.filter(
    ({ key, written }) => written.some(({ as }) => as !== "keys") && exampleOf(key) === null,
  );
  expect(bare.map(({ key }) => key)).toEqual(["tasks"]);
});

test("The page of commands has every command, in the order of help", () => {
  expect(named("shared/commands.md", "command")).toEqual(definitions.map((each) => each.name()));
});

test("Every command but completion and help takes --json and --out", () => {
  const takes = (flag: string) =>
    definitions.filter(({ options }) => options.some(({ long }) => long === flag)).map((each) => each.name());
  const others = definitions
    .map((each) => each.name())
    .filter((name) => name !== "completion" && name !== "help");
  expect([takes("--json"), takes("--out")]).toEqual([others, others]);
});

test("The page of examples shows whole outputs of every command that answers something of a line", () => {
  const shown = new Set(commandsShown("examples/README.md").map((command) => command.split(" ")[0]!));
  const names = definitions.map((each) => each.name());
  expect(names.filter((name) => !shown.has(name))).toEqual(["new", "schema", "completion", "help"]);
});

test("The page of terms has every group of terms", () => {
  expect(named("shared/terms.md", "terms")).toEqual(Object.keys(TERMS));
  const terms = new Set(Object.values(TERMS).flatMap((group) => group.map(({ term }) => term)));
  expect(Object.keys(SEEN).filter((name) => !terms.has(name))).toEqual([]);
});

describe("What a term is said to be printed as is printed", () => {
  const terms = Object.values(TERMS).flat();
  test.each(terms.filter(({ printed }) => printed !== undefined))("$term", async ({ printed }) => {
    const [run, words] = printed!;
    expect((await runOnce(RUNS[run])).stdout).toContain(words);
  });

  test.each(terms.filter(({ json }) => json !== undefined))("$term, in JSON", async ({ json }) => {
    const [run, path] = json!;
    const answer = JSON.parse((await runOnce(`${RUNS[run]} --json`)).stdout);
    expect(valuesAt(answer, path.split("."))).not.toEqual([]);
  });
});

/** Every value of an answer at a path of keys, those of each item where a key ends with []. */
function valuesAt(node: unknown, [key, ...rest]: readonly string[]): unknown[] {
  if (node === null || node === undefined) return [];
  if (key === undefined) return [node];
  const inner = (node as Record<string, unknown>)[key.replace("[]", "")];
  return (key.endsWith("[]") ? ((inner ?? []) as unknown[]) : [inner]).flatMap((each) =>
    valuesAt(each, rest),
  );
}
