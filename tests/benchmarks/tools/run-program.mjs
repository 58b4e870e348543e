import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const pathOf = (name) => fileURLToPath(new URL(name, import.meta.url));
const PROGRAM = pathOf("../../../bin/linepoise.js");
const PRELOAD = new URL("report-usage.mjs", import.meta.url).href;
const FOLDER = pathOf("../../..");

/** A run that ended with another status than 0; `reason` is what it said aside. */
export class FailedRun extends Error {
  constructor(words, { status, stderr, error }) {
    const reason = String(error ?? stderr).trim();
    super(`status ${status} of node ${words.join(" ")}: ${reason}`);
    this.status = status;
    this.reason = reason.replace(/^error: /, "");
  }
}

/** Milliseconds of a whole run of the program in the project's folder, start included. Throws FailedRun. */
export function timeProgram(words) {
  const begin = performance.now();
  run([PROGRAM, ...words], ["ignore", "pipe", "pipe"]);
  return performance.now() - begin;
}

/** What a run of the program wrote and used: its most memory in MB of 10^6 bytes, processor time and wall time in milliseconds. */
export function weighProgram(words) {
  const begin = performance.now();
  const { output } = run(["--import", PRELOAD, PROGRAM, ...words], ["ignore", "pipe", "pipe", "pipe"]);
  const { maxRSS, userCPUTime, systemCPUTime } = JSON.parse(output[3]);
  return {
    megabytes: (maxRSS * 1024) / 1e6,
    processorMs: (userCPUTime + systemCPUTime) / 1000,
    ms: performance.now() - begin,
    stdout: output[1],
  };
}

/** The last line that a script of the project's dist/ writes. Throws FailedRun. */
export function lastLineOf(script, words) {
  const { stdout } = run([pathOf(`../../../dist/${script}`), ...words], ["ignore", "pipe", "pipe"]);
  return stdout.trimEnd().split("\n").at(-1);
}

function run(words, stdio) {
  const result = spawnSync(process.execPath, words, {
    cwd: FOLDER,
    stdio,
    encoding: "utf8",
    maxBuffer: 2 ** 28,
  });
  if (result.status === 0) return result;
  throw new FailedRun(words, result);
}
