import { parentPort, workerData } from "node:worker_threads";
import type { Case, Mode, Outcome } from "./case.js";
import { Draw } from "./draw.js";
import { judgeCase } from "./judge-case.js";
import { judgeFloor } from "./judge-floor.js";
import { makeCase, modeOf } from "./make-case.js";
import { onRun } from "./memory-context.js";
import { readCorpus } from "./read-corpus.js";
import { shrinkCase } from "./shrink-case.js";

/** What a thread is asked for: the numbers of its inputs, and where it tells which one it is at. */
export interface Asked {
  readonly root: string;
  readonly only: Mode | null;
  readonly from: number;
  readonly count: number;
  /** The number at work and how many commands were run in all, for whoever watches. */
  readonly at: Int32Array;
}

/** How often a command was run, and how often its input was read. */
export type Counts = Record<
  string,
  { runs: number; read: number; sound: number; structured: number; structuredRead: number; seconds: number }
>;

export type FromThread =
  | {
      readonly kind: "failed";
      readonly number: number;
      readonly mode: Mode;
      readonly failure: string;
      readonly smallest: Case | null;
    }
  | { readonly kind: "counted"; readonly next: number; readonly counts: Counts };

const { root, only, from, count, at } = workerData as Asked;
const port = parentPort!;
// An answer that is held against others takes several runs, of which each has its time.
onRun(() => Atomics.add(at, 1, 1));
const tell = (message: FromThread) => port.postMessage(message);
/** Inputs between two words on how far it is. */
const BETWEEN = only === "large" ? 1 : 50;

const corpus = readCorpus(root);
let counts: Counts = {};

for (let number = from; number < from + count; number++) {
  Atomics.store(at, 0, number);
  const mode = only ?? modeOf(number);
  await run(mode, number);
  if ((number + 1 - from) % BETWEEN === 0 || number + 1 === from + count) {
    tell({ kind: "counted", next: number + 1, counts });
    counts = {};
  }
}

async function run(mode: Mode, number: number): Promise<void> {
  const start = processorSeconds();
  if (mode === "solver") {
    const { command, failure } = await judgeFloor(number);
    note(command, { status: 0, failure }, true, start);
    if (failure !== null) tell({ kind: "failed", number, mode, failure, smallest: null });
    return;
  }
  // Another draw than that of the input, which so stays the same.
  const made = { ...makeCase(mode, number, corpus), beside: new Draw(~number >>> 0).below(1_000) };
  const outcome = await judgeCase(made);
  note(made.args[0] ?? "", outcome, made.from !== "bytes", start);
  if (outcome.failure === null) return;
  // To run a large one again and again takes minutes; its number says enough.
  if (mode === "large")
    return tell({ kind: "failed", number, mode, failure: outcome.failure, smallest: null });
  Atomics.store(at, 0, -number);
  const smallest = await shrinkCase(
    { args: made.args, files: made.files, beside: made.beside },
    outcome.failure,
    judgeCase,
  );
  tell({ kind: "failed", number, mode, failure: outcome.failure, smallest });
}

function processorSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}

function note(command: string, { status }: Outcome, isStructured: boolean, start: number): void {
  counts[command] ??= { runs: 0, read: 0, sound: 0, structured: 0, structuredRead: 0, seconds: 0 };
  const own = counts[command];
  const isRead = status === 0 || status === 1;
  own.runs++;
  own.seconds += processorSeconds() - start;
  if (isRead) own.read++;
  if (status === 0) own.sound++;
  if (isStructured) own.structured++;
  if (isStructured && isRead) own.structuredRead++;
}
