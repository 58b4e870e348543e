import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { CAUTION } from "../../../src/report/cautions.js";
import { findLongSentences, findRefusedWords, sentencesOfReport } from "../../tools/find-odd-words.js";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { readScenario } from "../../tools/scenario.js";

const root = fileURLToPath(new URL("../../../", import.meta.url));
const read = (path: string) => readFileSync(root + path, "utf8");
const filesIn = (folder: string, ending: string) =>
  readdirSync(root + folder, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(ending))
    .map((name) => `${folder}/${name}`)
    .sort();

/** Everything in a text that people stumble over; the caution is given as it is. */
const oddIn = (text: string): string[] => {
  const own = text.replace(CAUTION, "");
  return [...findRefusedWords(own), ...findLongSentences(own)];
};

/** The sentences of a document, however deep, and no words of the machine such as keys and ids. */
function sentencesIn(node: unknown): string[] {
  if (typeof node === "string") return node.includes(" ") ? [node] : [];
  return node !== null && typeof node === "object" ? Object.values(node).flatMap(sentencesIn) : [];
}

const sentencesOfOutput = (text: string): string[] =>
  text.startsWith("{")
    ? sentencesIn(JSON.parse(text))
    : text.startsWith("<?xml")
      ? wordsOfPicture(text)
      : sentencesOfReport(text);

/** Each text and each title of a picture. */
const wordsOfPicture = (svg: string): string[] =>
  [...svg.matchAll(/<(?:text|title)[^>]*>([^<]*)/gu)].map(([, words = ""]) => words);

/** Findings without the source lines below them, which are the user's words. */
const withoutSource = (text: string): string => text.replaceAll(/^ *(?:\d+)? \| .*\n?/gmu, "");

describe("the words for one thing are the same everywhere, and sentences are short", () => {
  it.each(filesIn("tests/scenarios", ".scenario").filter((path) => !path.includes("/benchmark/")))(
    "in the outputs of %s",
    (path) => {
      const outputs = readScenario(read(path)).runs.flatMap(({ stdout, stderr }) => [stdout, stderr]);
      expect(outputs.flatMap((text) => sentencesOfOutput(withoutSource(text))).flatMap(oddIn)).toEqual([]);
    },
  );

  it.each(filesIn("tests/faults", ".out"))("in the findings of %s", (path) => {
    expect(sentencesOfReport(withoutSource(read(path))).flatMap(oddIn)).toEqual([]);
  });

  it.each(["line-file", "plan-file"])("in the schema of a %s", (name) => {
    expect(sentencesIn(JSON.parse(read(`shared/${name}.schema.json`))).flatMap(oddIn)).toEqual([]);
  });

  it("in the help of every command", async () => {
    const { stdout } = await runLinepoise({ args: ["--help"], files: {} });
    const commands = [...stdout.matchAll(/^ {2}([a-z-]+) .*/gmu)].map(([, name]) => name!);
    expect(commands).toContain("balance");
    const helps = [stdout];
    for (const name of commands) helps.push((await runLinepoise({ args: ["help", name], files: {} })).stdout);
    expect(helps.flatMap(sentencesOfReport).flatMap(oddIn)).toEqual([]);
  });

  it("in the starter file", async () => {
    const { stdout } = await runLinepoise({ args: ["new"], files: {} });
    expect(stdout.split("\n").flatMap(oddIn)).toEqual([]);
  });

  it.each([
    "README.md",
    "examples/README.md",
    "shared/line-file.md",
    "shared/commands.md",
    "shared/terms.md",
    "shared/library.md",
    "shared/changes.md",
  ])("in %s", (page) => {
    expect(sentencesOfReport(read(page)).flatMap(oddIn)).toEqual([]);
  });
});

describe("a text that people stumble over", () => {
  it("is told for each refused word, and not for another sense of it", () => {
    expect(findRefusedWords("the best rule places 40 tasks")).toHaveLength(1);
    expect(findRefusedWords("a rule of the line keeps it there")).toEqual([]);
    expect(findRefusedWords("an arrow from a to b")).toHaveLength(1);
    expect(findRefusedWords("12 on the line + 1 repair, at the same time")).toHaveLength(1);
    expect(findRefusedWords("12 on the line + 1 repairer, at the same time")).toEqual([]);
    expect(findRefusedWords("efficiency 85.1 %, idle 3 s")).toHaveLength(1);
    expect(findRefusedWords("efficiency 85.1 % at the pace")).toEqual([]);
  });

  it("is told for a sentence of 31 words, and not for two of 16", () => {
    const words = (count: number) => Array.from({ length: count }, () => "word").join(" ");
    expect(findLongSentences(`${words(31)}.`)).toHaveLength(1);
    expect(findLongSentences(`${words(16)}. ${words(16)}.`)).toEqual([]);
  });

  it("is read through wrapped lines, cell by cell", () => {
    expect(sentencesOfReport("HEAD\n  a long\n  text\n\n  S1  40 s  goes\n            on\n")).toEqual([
      "HEAD",
      "a long text",
      "S1",
      "40 s",
      "goes on",
    ]);
  });
});
