import { readSections, type Section, writeSections } from "./scenario-text.js";

/** One command of a scenario with what it must do; status and texts are compared whole. */
export interface ScenarioRun {
  readonly command: string;
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Files, and commands that are run on them one after the other, each on fresh copies. */
export interface Scenario {
  readonly title: string;
  readonly files: Readonly<Record<string, string>>;
  readonly runs: readonly ScenarioRun[];
}

/**
 * Reads a scenario: its title, then `--- file NAME` with the text of a file, then for each command `--- run COMMAND`
 * with `--- status NUMBER`, `--- stdout` and `--- stderr`; an empty output has no section.
 */
export function readScenario(text: string): Scenario {
  const { title, sections } = readSections(text);
  const start = sections.findIndex(({ kind }) => kind === "run");
  if (start < 0) throw new Error(`the scenario "${title}" runs nothing`);
  const files = sections.slice(0, start);
  const runs: Section[][] = [];
  for (const section of sections.slice(start)) {
    if (section.kind === "run") runs.push([section]);
    else runs.at(-1)!.push(section);
  }
  return {
    title,
    files: Object.fromEntries(files.map(({ argument, body }) => [argument, body])),
    runs: runs.map(readRun),
  };
}

function readRun(sections: readonly Section[]): ScenarioRun {
  const part = (kind: string) => sections.find((section) => section.kind === kind);
  const status = part("status")?.argument;
  return {
    command: sections[0]!.argument,
    status: status === undefined ? null : Number(status),
    stdout: part("stdout")?.body ?? "",
    stderr: part("stderr")?.body ?? "",
  };
}

/** The text of a scenario, as `readScenario` reads it. */
export function writeScenario({ title, files, runs }: Scenario): string {
  const section = (kind: string, argument: string, body: string): Section => ({ kind, argument, body });
  const output = (kind: string, body: string) => (body === "" ? [] : [section(kind, "", body)]);
  return writeSections({
    title,
    sections: [
      ...Object.entries(files).map(([name, body]) => section("file", name, body)),
      ...runs.flatMap(({ command, status, stdout, stderr }) => [
        section("run", command, ""),
        section("status", String(status), ""),
        ...output("stdout", stdout),
        ...output("stderr", stderr),
      ]),
    ],
  });
}

/** A command line taken apart: `NAME=value` in front, the words after `linepoise`, and the file after `<`. */
export interface CommandLine {
  readonly env: Readonly<Record<string, string>>;
  readonly args: readonly string[];
  readonly stdinFrom: string | null;
}

/** Splits at spaces; a word in double or single quotes keeps its spaces and may be empty. */
export function readCommandLine(command: string): CommandLine {
  const words = [...command.matchAll(/"([^"]*)"|'([^']*)'|(\S+)/g)].map(
    ([, double, single, bare]) => double ?? single ?? bare!,
  );
  const start = words.indexOf("linepoise");
  if (start < 0) throw new Error(`not a linepoise command: ${command}`);
  const redirect = words.indexOf("<");
  return {
    env: Object.fromEntries(words.slice(0, start).map((word) => word.split("=", 2) as [string, string])),
    args: words.slice(start + 1, redirect < 0 ? undefined : redirect),
    stdinFrom: redirect < 0 ? null : words[redirect + 1]!,
  };
}
