// Whether the built program gives the same bytes everywhere: all commands of the pages, and more, from two copies of the project, in three
// time zones and languages, on one core and on all, with other rights and settings, on this Node and on each whose path is given.
// Ends with status 1 where a byte differs, and says where.
//
//     node tests/tools/same-bytes.mjs [--only WORDS] [NODE...]
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";

const project = fileURLToPath(new URL("../..", import.meta.url));
const runner = fileURLToPath(new URL("run-commands.mjs", import.meta.url));

/** What the pages do not show: files, workbooks, pages, pictures, JSON, and what is said of faults. */
const MORE = [
  "balance examples/cargo-bike.line.yaml --nodes 20000 --write plan.yaml --out balance.json --json --explain",
  "report examples/cargo-bike.line.yaml examples/cargo-bike.plan.yaml --simulate --out report.html",
  "report examples/cargo-bike.line.yaml examples/cargo-bike.plan.yaml --out report.xlsx",
  "sheets examples/packing.line.yaml examples/packing.plan.yaml --out sheets/",
  "chart examples/cargo-bike.line.yaml examples/cargo-bike.plan.yaml --of loads --out loads.svg",
  "check examples/cargo-bike.line.yaml examples/*.plan.yaml --json",
  "import report.xlsx --json",
  "takt examples/two-models.line.yaml --json",
  "takt nowhere.yaml",
  "takt examples",
  "balance examples/faulty.line.yaml --json",
  "parts examples/packing.line.yaml examples/packing.plan.yaml --format csv --delimiter semicolon --decimals comma",
  "schema",
  "help balance",
];

/** What a machine may have set. */
const SETTINGS = [
  { name: "UTC, C", env: { TZ: "UTC", LC_ALL: "C", HOME: tmpdir() }, umask: "022", cores: "all" },
  {
    name: "Kathmandu, Turkish, one core, another folder",
    env: { TZ: "Asia/Kathmandu", LC_ALL: "tr_TR.UTF-8", LANG: "tr_TR.UTF-8", NO_COLOR: "1" },
    umask: "077",
    cores: "one",
  },
  {
    name: "St. John's, German, an older order of names",
    env: { TZ: "America/St_Johns", LC_ALL: "de_DE.UTF-8", LANGUAGE: "de", FORCE_COLOR: "0", TERM: "dumb" },
    umask: "002",
    cores: "all",
  },
];

const { values, positionals } = parseArgs({ options: { only: { type: "string" } }, allowPositionals: true });
const lines = linesOf(values.only);
const place = mkdtempSync(join(tmpdir(), "same-bytes-"));
try {
  const folders = [join(place, "a"), join(place, "ein Ordner, größer (2)", "klon"), join(place, "c")];
  for (const [at, folder] of folders.entries()) copyProgram(folder, at === 2);
  const nodes = [process.execPath, ...positionals];
  const runs = nodes.flatMap((node) =>
    SETTINGS.map((setting, at) => ({ node, setting, folder: folders[at] })),
  );
  const [first, ...others] = runs.map((run) => ({ ...run, ...outputsOf(run) }));
  const differences = others.flatMap((other) => differencesOf(first, other));
  for (const difference of differences) process.stdout.write(`${difference}\n`);
  process.stdout.write(
    `${lines.length} commands on ${runs.length} machines: ${differences.length === 0 ? "the same bytes" : `${differences.length} differences`}\n`,
  );
  process.exitCode = differences.length === 0 ? 0 : 1;
} finally {
  rmSync(place, { recursive: true });
}

function linesOf(only) {
  const pages = ["README.md", "examples/README.md"].map((page) => readFileSync(join(project, page), "utf8"));
  const shown = pages.flatMap((page) =>
    [...page.matchAll(/^\$ npx linepoise (.*)$/gmu)].map(([, line]) => line),
  );
  const known = [...new Set([...shown, ...MORE])];
  return only === undefined
    ? known
    : known.filter((line) => only.split(",").some((words) => line.includes(words)));
}

/** The built program and the examples, whose files come into the folder in turn or in the reverse order. */
function copyProgram(folder, isReversed) {
  mkdirSync(join(folder, "examples"), { recursive: true });
  for (const part of ["bin", "dist/program", "package.json"])
    cpSync(join(project, part), join(folder, part), { recursive: true });
  const names = readdirSync(join(project, "examples")).sort();
  for (const name of isReversed ? names.reverse() : names)
    cpSync(join(project, "examples", name), join(folder, "examples", name));
}

/** What the commands give on a machine, in a new folder of the copy. */
function outputsOf({ node, setting: { env, umask, cores }, folder }) {
  const work = join(folder, "work");
  rmSync(work, { recursive: true, force: true });
  mkdirSync(join(work, "sheets"), { recursive: true });
  cpSync(join(folder, "examples"), join(work, "examples"), { recursive: true });
  const pinned = cores === "one" && process.platform === "linux" && availableParallelism() > 1;
  const command = `umask ${umask}; exec ${pinned ? "taskset -c 0 " : ""}"$0" "$@"`;
  const options = {
    cwd: work,
    env: { PATH: process.env.PATH, NODE_OPTIONS: process.env.NODE_OPTIONS, ...env },
  };
  const words = ["-c", command, node, runner, folder, JSON.stringify(lines)];
  return JSON.parse(execFileSync("sh", words, { ...options, encoding: "utf8", maxBuffer: 2 ** 28 }));
}

/** Each command and each file that is another on the other machine, with the first line that differs. */
function differencesOf(one, other) {
  const where = `${other.setting.name}${other.node === one.node ? "" : `, ${other.node}`}`;
  const told = [];
  one.given.forEach((given, at) => {
    for (const key of ["status", "stdout", "stderr"]) {
      const [there, here] = [String(given[key]).split("\n"), String(other.given[at][key]).split("\n")];
      const line = there.findIndex((text, index) => text !== here[index]);
      if (line < 0 && there.length === here.length) continue;
      told.push(`${where}: ${given.line}: ${key}, line ${line + 1}\n  - ${there[line]}\n  + ${here[line]}`);
    }
  });
  const paths = new Set([...one.files, ...other.files].map(({ path }) => path));
  const hashOf = ({ files }, path) => files.find((file) => file.path === path)?.hash;
  for (const path of paths)
    if (hashOf(one, path) !== hashOf(other, path)) told.push(`${where}: the file ${path}`);
  return told;
}
