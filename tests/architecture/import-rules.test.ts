import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { readSections } from "../tools/scenario-text.js";
import { cruise, projectFolder, type Violation } from "./cruise.js";

const config = createRequire(import.meta.url)("../../.dependency-cruiser.cjs") as {
  forbidden: { name: string }[];
};
const plantedFolder = join(projectFolder, "tests/architecture/planted");
const planted = readdirSync(plantedFolder).map((file) => ({
  rule: file.replace(/\.txt$/, ""),
  sections: readSections(readFileSync(join(plantedFolder, file), "utf8")).sections,
}));

let copy: string;
let found: readonly Violation[];

/** A copy of the project's settings with nothing but the planted files in it. */
beforeAll(() => {
  copy = mkdtempSync(join(tmpdir(), "planted-"));
  for (const file of [".dependency-cruiser.cjs", "tsconfig.json", "package.json"]) {
    cpSync(join(projectFolder, file), join(copy, file));
  }
  symlinkSync(join(projectFolder, "node_modules"), join(copy, "node_modules"));
  for (const { argument, body } of planted
    .flatMap(({ sections }) => sections)
    .filter(({ kind }) => kind === "file")) {
    mkdirSync(dirname(join(copy, argument)), { recursive: true });
    writeFileSync(join(copy, argument), body);
  }
  found = cruise(copy, "src", "bin").violations;
}, 60_000);

afterAll(() => rmSync(copy, { recursive: true, force: true }));

it("finds no import in the product that breaks a rule", () => {
  const { violations, modules } = cruise(projectFolder, "src", "bin");
  expect(violations).toEqual([]);
  expect(modules).toBeGreaterThan(20);
}, 60_000);

it("has a planted violation for every rule", () => {
  expect(planted.map(({ rule }) => rule).sort()).toEqual(config.forbidden.map(({ name }) => name).sort());
});

it.each(planted)("reports the planted violation of $rule", ({ rule, sections }) => {
  const [from, to] = sections.find(({ kind }) => kind === "reported")!.argument.split(" -> ");
  expect(found).toContainEqual({ rule, from, to: expect.stringContaining(to!) });
  for (const { argument } of sections.filter(({ kind }) => kind === "allowed")) {
    const [user, used] = argument.split(" -> ");
    expect(found.filter((each) => each.from === user && each.to.includes(used!))).toEqual([]);
  }
});
