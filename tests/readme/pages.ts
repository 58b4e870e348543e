import { readdirSync } from "node:fs";
import { runLinepoise } from "../tools/run-linepoise.js";
import { commandTable, methodTable } from "./commands-block.js";
import { excerpt } from "./excerpt.js";
import { keyTable } from "./keys-block.js";
import { readPage, root } from "./read-page.js";
import { termList } from "./terms-block.js";

/** The pages that users read, from the root of the project; what stands between markers and in console blocks is written by the tests. */
export const PAGES = [
  "README.md",
  "examples/README.md",
  "shared/README.md",
  "shared/line-file.md",
  "shared/commands.md",
  "shared/terms.md",
  "shared/library.md",
  "shared/changes.md",
] as const;

const CONSOLE = /^```console\n\$ npx linepoise (?<command>.*)\n[\s\S]*?^```$/gm;
const WRITTEN = /^<!-- (?<kind>[a-z]+): (?<of>.*); written by the tests -->\n[\s\S]*?^<!-- end -->$/gm;

/** What stands between a marker of this kind and its end, from what the marker names. */
const BLOCKS: Readonly<Record<string, (of: string) => string | Promise<string>>> = {
  keys: keyTable,
  command: commandTable,
  methods: methodTable,
  terms: termList,
  lines: excerpt,
  answer: shortened,
  json: jsonKeys,
};

/** The page as it must read: every block with what it names as that is now. */
export async function currentPage(path: string): Promise<string> {
  let text = readPage(path);
  for (const { 0: block, groups } of text.matchAll(CONSOLE)) {
    const { stdout, stderr } = await runOnce(groups!.command!);
    // CSV ends its lines as RFC 4180 has them; a page ends all of its own alike.
    const shown = `${stdout}${stderr}`.replaceAll("\r\n", "\n");
    text = text.replace(block, () => console(groups!.command!, shown));
  }
  for (const { 0: block, groups } of text.matchAll(WRITTEN)) {
    const { kind, of } = groups as { kind: string; of: string };
    const make = BLOCKS[kind];
    if (make === undefined) throw new Error(`${path}: no block is called ${kind}`);
    const inside = await make(of);
    text = text.replace(block, () => `${block.split("\n", 1)[0]}\n\n${inside}\n\n<!-- end -->`);
  }
  return text;
}

/** The commands of the console blocks of a page, in order. */
export function commandsShown(path: string): string[] {
  return [...readPage(path).matchAll(CONSOLE)].map(({ groups }) => groups!.command!);
}

const console = (command: string, output: string) =>
  `\`\`\`console\n$ npx linepoise ${command}\n${output}\`\`\``;

const runs = new Map<string, Promise<{ readonly stdout: string; readonly stderr: string }>>();

/** What a command prints in a folder with the examples; each is run once. */
export function runOnce(command: string): Promise<{ readonly stdout: string; readonly stderr: string }> {
  const run = runs.get(command) ?? runLinepoise({ args: wordsOf(command), files: exampleFiles() });
  runs.set(command, run);
  return run;
}

/** The words of a command, those in quotes as one. */
const wordsOf = (command: string): string[] =>
  [...command.matchAll(/"([^"]*)"|(\S+)/gu)].map(([, quoted, plain]) => quoted ?? plain!);

/** Files that the commands of pages may read, by the paths used there. */
function exampleFiles(): Record<string, string> {
  const names = readdirSync(`${root}examples`).filter((name) => /\.(?:yaml|csv)$/u.test(name));
  return Object.fromEntries(names.map((name) => [`examples/${name}`, readPage(`examples/${name}`)]));
}

/** `COMMAND, only HEADING, HEADING`: what the command prints before its first heading, and below these; "..." for the rest. */
async function shortened(of: string): Promise<string> {
  const [, command = "", headings = ""] = /^(.*), only (.*)$/u.exec(of) ?? [];
  const { stdout } = await runOnce(command);
  const [first = "", ...parts] = stdout.split(/\n\n(?=[A-Z])/u);
  const wanted = headings.split(", ");
  const missing = wanted.filter((each) => !parts.some((part) => part.split("\n")[0] === each));
  if (missing.length > 0) throw new Error(`${command} prints nothing below ${missing.join(", ")}`);
  const shown = parts.map((part) => (wanted.includes(part.split("\n")[0]!) ? part.trimEnd() : "..."));
  const once = shown.filter((each, at) => each !== "..." || shown[at - 1] !== "...");
  return console(command, `${[first, ...once].join("\n\n")}\n`);
}

/** `COMMAND`, or `COMMAND, KEY`: the keys of the JSON that it prints, or of what stands at a key of that, in their order. */
async function jsonKeys(of: string): Promise<string> {
  const [command = "", key] = of.split(", ");
  const answer = JSON.parse((await runOnce(`${command} --json`)).stdout);
  const inside = key === undefined ? answer : answer[key];
  const keys = Object.keys(Array.isArray(inside) ? inside[0] : inside);
  return `Keys, in this order: ${keys.map((each) => `\`${each}\``).join(", ")}.`;
}
