import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { readScenario } from "../tools/scenario.js";
import type { Case } from "./case.js";

/** Inputs that people wrote, to be changed byte by byte. */
export interface Corpus {
  readonly lines: readonly string[];
  readonly plans: readonly string[];
  readonly tables: readonly string[];
  /** Whole command lines with their files. */
  readonly cases: readonly Case[];
}

/** Larger ones take longer than they tell. */
const LONGEST = 12_000;

/** The examples, the faulty files and the scenarios, in the order of their names. */
export function readCorpus(root: string): Corpus {
  const read = (folder: string, end: string) =>
    readdirSync(join(root, folder))
      .filter((name) => name.endsWith(end))
      .sort()
      .map((name) => readFileSync(join(root, folder, name), "utf8"))
      .filter((text) => text.length <= LONGEST);
  const scenarios = read("tests/scenarios", ".scenario").map(readScenario);
  const cases = scenarios.flatMap(({ files, runs }) =>
    runs.flatMap(({ command }): Case[] => {
      const args = wordsOf(command);
      return args === null ? [] : [{ args: withFewNodes(args), files }];
    }),
  );
  return {
    lines: [...read("examples", ".line.yaml"), ...read("tests/faults", ".yaml")],
    plans: [...read("examples", ".plan.yaml"), ...read("tests/faults/plans", ".yaml")],
    tables: read("examples", ".csv"),
    cases,
  };
}

/** The words behind `linepoise`; null where a shell does more than call it once. */
function wordsOf(command: string): string[] | null {
  const words = [...command.matchAll(/"([^"]*)"|'([^']*)'|(\S+)/gu)].map(
    ([, one, two, three]) => one ?? two ?? three ?? "",
  );
  if (words.shift() !== "linepoise" || words.some((word) => /^(?:\||>|<|&&|-$)/u.test(word))) return null;
  return words.includes("--watch") || words.includes("--seconds") ? null : words;
}

const SEARCHING = new Set(["balance", "off-line", "compare", "rebalance", "staff", "order"]);

/** The same with a search that ends soon. */
function withFewNodes(args: readonly string[]): string[] {
  const at = args.indexOf("--nodes");
  const others = at < 0 ? [...args] : args.toSpliced(at, 2);
  return SEARCHING.has(args[0]!) ? [...others, "--nodes", "100"] : others;
}
