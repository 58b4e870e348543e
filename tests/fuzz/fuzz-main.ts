import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { Worker } from "node:worker_threads";
import { type Case, MODES, type Mode } from "./case.js";
import type { Counts, FromThread } from "./fuzz-thread.js";
import { makeCase, modeOf } from "./make-case.js";
import { readCorpus } from "./read-corpus.js";
import { kindOf } from "./shrink-case.js";

// Generated and broken inputs for every command, for as long as asked: what a failure is stands in judge-case.ts.

const USAGE = `usage: npm run fuzz -- [--seconds S | --count N] [--seed FIRST] [--only ${MODES.join("|")}] [--longest S] [--keep]`;
/**
 * Seconds that an input of up to a megabyte may take, of the clock and of the processor alike: on a machine that does other
 * work the clock runs ahead, and while code is still compiled on other cores the processor does.
 */
const LONGEST = "2";
/** Megabytes of objects that an input may leave or need, and of the whole process with buffers. */
const [MOST_HEAP, MOST_MEMORY] = [512, 1_200];
/** Milliseconds between two looks at what the thread is doing. */
const LOOK = 100;
/** Shrinking runs the input many times over. */
const SHRINKING = 60;

interface Failure {
  readonly number: number;
  readonly mode: Mode;
  readonly failure: string;
  readonly smallest: Case | null;
}

const root = process.cwd();
const options = readOptions();
const corpus = readCorpus(root);
const failures: Failure[] = [];
const counts: Counts = {};
const start = performance.now();
let next = options.seed;
let isInterrupted = false;
process.on("SIGINT", () => {
  isInterrupted = true;
});
const end = options.seed + options.count;

process.stderr.write(`seed ${options.seed}${options.only === null ? "" : `, only ${options.only}`}\n`);
while (next < end && !isOver()) next = await runThread(next);
tellAll();
process.exitCode = failures.length === 0 ? 0 : 1;

function isOver(): boolean {
  return isInterrupted || performance.now() - start > options.seconds * 1000;
}

/** Runs inputs on a thread of its own until the end or until it must be ended; gives the number to go on with. */
function runThread(from: number): Promise<number> {
  const at = new Int32Array(new SharedArrayBuffer(8));
  const worker = new Worker(new URL("./fuzz-thread.js", import.meta.url), {
    workerData: { root, only: options.only, from, count: end - from, at },
    resourceLimits: { maxOldGenerationSizeMb: MOST_HEAP },
  });
  let reached = from;
  let seen = { number: 0, runs: 0, cpu: 0, clock: 0 };
  return new Promise((resolve) => {
    let isEnded = false;
    const finish = (to: number) => {
      if (isEnded) return;
      isEnded = true;
      clearInterval(timer);
      void worker.terminate().then(() => resolve(to));
    };
    const giveUp = (failure: string, counted = Atomics.load(at, 0)) => {
      const number = Math.abs(counted);
      const mode = options.only ?? modeOf(number);
      const isTold = mode === "solver" || mode === "large";
      fail({ number, mode, failure, smallest: isTold ? null : makeCase(mode, number, corpus) });
      finish(number + 1);
    };
    const timer = setInterval(() => {
      const { user, system } = process.cpuUsage();
      const [number, cpu, clock] = [Atomics.load(at, 0), (user + system) / 1e6, performance.now() / 1000];
      // Shrinking is one piece of work of many runs.
      const runs = number < 0 ? 0 : Atomics.load(at, 1);
      if (number !== seen.number || runs !== seen.runs) seen = { number, runs, cpu, clock };
      const taken = Math.min(cpu - seen.cpu, clock - seen.clock);
      const most =
        number < 0 ? SHRINKING : options.only === "solver" ? 10 * options.longest : options.longest;
      const isOverdue = number !== 0 && taken > most;
      if (isOverdue && (number < 0 || taken > 5 * most || !simulates(number)))
        return giveUp(`hang: over ${most} s`, number);
      if (process.memoryUsage.rss() > MOST_MEMORY * 2 ** 20) return giveUp(`memory: over ${MOST_MEMORY} MB`);
      if (isInterrupted || (isOver() && number > reached)) finish(Math.abs(number));
    }, LOOK);
    worker.on("message", (message: FromThread) => {
      if (message.kind === "failed") return fail(message);
      reached = message.next;
      addCounts(message.counts);
      if (reached >= end) finish(reached);
    });
    worker.on("error", (error) =>
      giveUp(`thread: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`),
    );
  });
}

/** Simulated hours take the time they take: the line is run until it has settled, and Ctrl-C ends it. */
function simulates(number: number): boolean {
  const mode = options.only ?? modeOf(number);
  if (mode === "solver") return false;
  const { args } = makeCase(mode, number, corpus);
  return args[0] === "simulate" || args.includes("--simulate");
}

function addCounts(more: Counts): void {
  for (const [command, each] of Object.entries(more)) {
    counts[command] ??= { runs: 0, read: 0, sound: 0, structured: 0, structuredRead: 0, seconds: 0 };
    const own = counts[command];
    own.runs += each.runs;
    own.read += each.read;
    own.sound += each.sound;
    own.structured += each.structured;
    own.structuredRead += each.structuredRead;
    own.seconds += each.seconds;
  }
}

function fail(failure: Failure): void {
  const isNew = !failures.some((each) => kindOf(each.failure) === kindOf(failure.failure));
  failures.push(failure);
  if (!isNew) return;
  const { number, mode, smallest } = failure;
  process.stdout.write(
    `\nFAILED ${number}: npm run fuzz -- --only ${mode} --seed ${number} --count 1\n${failure.failure}\n`,
  );
  if (smallest === null) return;
  process.stdout.write(
    `linepoise ${smallest.args.map((each) => (/^[\w./=-]+$/u.test(each) ? each : JSON.stringify(each))).join(" ")}\n`,
  );
  for (const [name, content] of Object.entries(smallest.files)) {
    const shown =
      typeof content === "string"
        ? content
        : `${content.length} bytes in base64: ${Buffer.from(content).toString("base64")}\n`;
    process.stdout.write(`--- ${name}\n${shown.slice(0, 3_000)}${shown.endsWith("\n") ? "" : "\n"}`);
  }
  if (options.keep) keep(number, mode, smallest);
}

function keep(number: number, mode: Mode, { args, files, beside }: Case): void {
  const folder = join(root, "tests/fuzz/corpus");
  mkdirSync(folder, { recursive: true });
  const content = Object.entries(files).map(([name, each]) => [
    name,
    typeof each === "string" ? each : { base64: Buffer.from(each).toString("base64") },
  ]);
  writeFileSync(
    join(folder, `${mode}-${number}.json`),
    `${JSON.stringify({ args, files: Object.fromEntries(content), beside }, null, 2)}\n`,
  );
}

function tellAll(): void {
  const seconds = (performance.now() - start) / 1000;
  const { user, system } = process.cpuUsage();
  const sum = (key: keyof Counts[string]) => Object.values(counts).reduce((all, each) => all + each[key], 0);
  const share = (part: number, whole: number) =>
    whole === 0 ? "-" : `${((100 * part) / whole).toFixed(1)} %`;
  const rows = Object.entries(counts).sort(([one], [two]) => (one < two ? -1 : 1));
  const lines = [
    `${sum("runs")} inputs from ${options.seed} to ${next - 1} in ${seconds.toFixed(0)} s (${((user + system) / 1e6).toFixed(0)} s of processor time), ${(sum("runs") / seconds).toFixed(0)} a second`,
    `read: ${share(sum("read"), sum("runs"))} of all, ${share(sum("structuredRead"), sum("structured"))} of those made from the keys of the reader; status 0: ${share(sum("sound"), sum("runs"))}`,
    ...rows.map(
      ([command, each]) =>
        `  ${command.slice(0, 20).padEnd(10)} ${String(each.runs).padStart(8)}   read ${share(each.read, each.runs).padStart(7)}   ${((1000 * each.seconds) / each.runs).toFixed(1)} ms each`,
    ),
    `failures: ${failures.length}, of ${new Set(failures.map(({ failure }) => kindOf(failure))).size} kinds`,
    ...(failures.length === 0 ? [] : [`  inputs ${failures.map(({ number }) => number).join(", ")}`]),
  ];
  process.stdout.write(`\n${lines.join("\n")}\n`);
}

function readOptions() {
  const { values } = parseArgs({
    options: {
      seconds: { type: "string" },
      count: { type: "string" },
      seed: { type: "string", default: "1" },
      only: { type: "string" },
      longest: { type: "string", default: LONGEST },
      keep: { type: "boolean", default: false },
    },
  });
  const whole = (name: string, text: string) => {
    if (/^[1-9]\d{0,8}$/u.test(text)) return Number(text);
    process.stderr.write(`--${name} ${text}: a whole number from 1 to 999999999 is expected\n${USAGE}\n`);
    process.exit(2);
  };
  const only = MODES.find((mode) => mode === values.only) ?? null;
  if (values.only !== undefined && only === null) {
    process.stderr.write(`--only ${values.only}: one of ${MODES.join(", ")} is expected\n${USAGE}\n`);
    process.exit(2);
  }
  return {
    // Where a count is given it alone says when to stop, so that the same inputs are run on any machine.
    seconds: values.count === undefined ? whole("seconds", values.seconds ?? "60") : Number.POSITIVE_INFINITY,
    count: values.count === undefined ? 1_000_000_000 : whole("count", values.count),
    seed: whole("seed", values.seed),
    only,
    longest: whole("longest", values.longest),
    keep: values.keep,
  };
}
