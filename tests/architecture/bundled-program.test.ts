import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { projectFolder } from "./cruise.js";

const program = join(projectFolder, "dist/program");
/** As deep as dist, so that the maps are the same. */
const again = ".again";
const library = join(projectFolder, "dist/library");

/** Every file of a folder with its text. */
const filesOf = (folder: string) =>
  Object.fromEntries(
    readdirSync(folder)
      .sort()
      .map((name) => [name, readFileSync(join(folder, name), "utf8")]),
  );

/** The files that are loaded with one, itself among them, without those that are imported when they are called. */
function loadedWith(file: string, found = new Set<string>()): Set<string> {
  if (found.has(file)) return found;
  found.add(file);
  const text = readFileSync(join(program, file), "utf8");
  for (const [, next] of text.matchAll(/(?:from|import)"\.\/([\w-]+\.js)"/g)) loadedWith(next!, found);
  return found;
}

/** The sources of bundled files: paths of ours from the project folder, names of packages. */
function sourcesOf(files: Iterable<string>, folder = program): Set<string> {
  const maps = [...files].map((file) => readFileSync(join(folder, `${file}.map`), "utf8"));
  const sources = maps.flatMap((text) => (JSON.parse(text) as { sources: string[] }).sources);
  return new Set(
    sources.map((path) =>
      path.replace("../../", "").replace(/^.*node_modules\/((?:@[^/]+\/)?[^/]+).*$/, "$1"),
    ),
  );
}

describe("the bundled program", () => {
  afterAll(() => rmSync(join(projectFolder, again), { recursive: true, force: true }));

  it("starts without reading lines, solving and reporting, and without the packages for them", () => {
    const sources = [...sourcesOf(loadedWith("main.js"))];
    expect(sources).toContain("src/cli/main.ts");
    expect(sources).toContain("commander");
    expect(sources.filter((path) => /^src\/(line|plan|solve|benches|answer)\//.test(path))).toEqual([]);
    const others = ["zod", "yaml", "chalk", "cli-table3"];
    expect(sources.filter((path) => others.includes(path))).toEqual([]);
  });

  it("loads a command's own work alone: takt solves nothing", () => {
    const [takt = ""] = readdirSync(program).filter((name) => /^takt-\w+\.js$/.test(name));
    const sources = [...sourcesOf(loadedWith(takt))];
    expect(sources).toContain("src/commands/takt.ts");
    expect(sources.filter((path) => /^src\/(solve\/search|answer\/compare)\//.test(path))).toEqual([]);
  });

  it("holds the licence of every package that it takes in", () => {
    const licences = readFileSync(join(program, "licences.txt"), "utf8");
    // Of some packages there are two versions.
    const all = [...licences.matchAll(/^([@\w/-]+) \d+\.\d+\.\d+$/gm)].map(([, name]) => name!);
    const named = [...new Set(all)].sort();
    expect(named).toContain("commander");
    const taken = sourcesOf(readdirSync(program).filter((name) => name.endsWith(".js")));
    expect(named).toEqual([...taken].filter((path) => !path.startsWith("src/")).sort());
  });

  it("has no text of its sources, and no benchmark", () => {
    const maps = readdirSync(program).filter((name) => name.endsWith(".map"));
    const texts = maps.map((name) => JSON.parse(readFileSync(join(program, name), "utf8")).sourcesContent);
    expect(texts.filter((text) => text !== undefined)).toEqual([]);
    const taken = sourcesOf(readdirSync(program).filter((name) => name.endsWith(".js")));
    expect([...taken].filter((path) => path.startsWith("src/benchmark/"))).toEqual([]);
  });

  it("stands beside a library without the command line, the terminal and what asks for Node", () => {
    const sources = [
      ...sourcesOf(
        readdirSync(library).filter((name) => name.endsWith(".js")),
        library,
      ),
    ];
    expect(sources).toContain("src/library/balance.ts");
    expect(sources.filter((path) => /^src\/(?:cli|commands|report\/terminal)\//.test(path))).toEqual([]);
    const others = ["chalk", "cli-table3", "commander"];
    expect(sources.filter((path) => others.includes(path))).toEqual([]);
    const text = readFileSync(join(library, "library.js"), "utf8");
    const imported = [...text.matchAll(/\bimport(?:\{[^}]*\}from|\()"([^"]*)"/g)].map(([, path]) => path!);
    expect(imported.length).toBeGreaterThan(0);
    expect(imported.filter((path) => !path.startsWith("./"))).toEqual([]);
  });

  it("is the same bytes whenever it is built", () => {
    execFileSync(process.execPath, [".esbuild.mjs", again], { cwd: projectFolder });
    expect(filesOf(join(projectFolder, again, "program"))).toEqual(filesOf(program));
    expect(filesOf(join(projectFolder, again, "library"))).toEqual(filesOf(library));
  });
});
