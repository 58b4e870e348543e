import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { Readable, Writable } from "node:stream";
import { text } from "node:stream/consumers";
import { fileURLToPath } from "node:url";
import type { Io } from "../../src/cli/io.js";
import { main } from "../../src/cli/main.js";
import type { Register } from "../../src/commands/context.js";

export interface Run {
  /** The words after `linepoise`. */
  readonly args: readonly string[];
  /** Files of the folder that the command starts in, by relative path. */
  readonly files?: Readonly<Record<string, string | Uint8Array>>;
  /** Symbolic links of that folder, and where each leads. */
  readonly links?: Readonly<Record<string, string>>;
  readonly env?: Readonly<Record<string, string>>;
  /** Standard input; empty unless given. */
  readonly stdin?: string | Uint8Array | Readable;
  /** Columns of the terminal behind standard output and error; unless given a pipe, with COLUMNS of 100 unless `env` says another. */
  readonly terminal?: number;
  /** Milliseconds; a clock that stands still unless given, so that no progress line depends on how fast the machine is. */
  readonly now?: () => number;
  /** Commands in place of the program's own. */
  readonly commands?: readonly Register[];
  /** Told how to press Ctrl-C. */
  readonly onStart?: (pressInterrupt: () => void) => void;
}

export interface Ran {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
  /** Every file of the folder afterwards, by relative path in order of names. */
  readonly files: Readonly<Record<string, string>>;
}

/** Runs the program inside the test, in a folder of its own that is gone afterwards. */
export async function runLinepoise(run: Run): Promise<Ran> {
  const folder = await mkdtemp(join(tmpdir(), "linepoise-"));
  try {
    for (const [name, content] of Object.entries(run.files ?? {})) {
      await mkdir(dirname(join(folder, name)), { recursive: true });
      await writeFile(join(folder, name), content);
    }
    for (const [name, target] of Object.entries(run.links ?? {})) await symlink(target, join(folder, name));
    const [stdout, stderr] = [collect(run.terminal), collect(run.terminal)];
    const io = openIo(run, folder, stdout.stream, stderr.stream);
    const { commands } = run;
    const status = await main(io, ...(commands ? [async () => commands] : []));
    return { status, stdout: stdout.text(), stderr: stderr.text(), files: await readFolder(folder) };
  } finally {
    await rm(folder, { recursive: true });
  }
}

function openIo(run: Run, folder: string, stdout: Io["stdout"], stderr: Io["stderr"]): Io {
  const listeners = new Set<() => void>();
  run.onStart?.(() => {
    for (const listener of listeners) listener();
  });
  const { stdin = "" } = run;
  return {
    args: run.args,
    env: run.terminal === undefined ? { COLUMNS: "100", ...run.env } : (run.env ?? {}),
    folder,
    stdin: stdin instanceof Readable ? stdin : Readable.from([Buffer.from(stdin)]),
    stdout,
    stderr,
    onInterrupt(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    now: run.now ?? (() => 0),
  };
}

function collect(columns: number | undefined): { stream: Io["stdout"]; text: () => string } {
  const chunks: Buffer[] = [];
  const stream = new Writable({
    write(chunk, _, done) {
      chunks.push(Buffer.from(chunk));
      done();
    },
  });
  const terminal = columns === undefined ? {} : { isTTY: true, columns };
  return { stream: Object.assign(stream, terminal), text: () => Buffer.concat(chunks).toString("utf8") };
}

async function readFolder(folder: string): Promise<Record<string, string>> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const paths = entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
  const texts = paths
    .sort()
    .map(async (path) => [path.slice(folder.length + 1), await readFile(path, "utf8")]);
  return Object.fromEntries(await Promise.all(texts));
}

const projectFolder = fileURLToPath(new URL("../..", import.meta.url));

/** What a shell command line makes of the built program, which it starts as `$LINEPOISE`; bash with pipefail. */
export async function runInShell(
  commandLine: string,
  env: Readonly<Record<string, string>> = {},
): Promise<Pick<Ran, "status" | "stdout" | "stderr">> {
  const child = spawn("bash", ["-o", "pipefail", "-c", commandLine], {
    cwd: projectFolder,
    env: { PATH: process.env.PATH, LINEPOISE: `${process.execPath} bin/linepoise.js`, ...env },
    stdio: ["ignore", "pipe", "pipe"],
  });
  const [stdout, stderr, [status]] = await Promise.all([
    text(child.stdout),
    text(child.stderr),
    once(child, "exit"),
  ]);
  return { status: status as number, stdout, stderr };
}
