import { parentPort, workerData } from "node:worker_threads";
import { answerOption } from "../answer/compare/answer-option.js";
import type { AskedOption, OptionAnswer, Progress, Watch } from "../answer/compare/option-answer.js";
import { type AskedRuns, replicationsOf } from "../simulate/run-again-and-again.js";
import type { Run } from "../simulate/watched-line.js";

/** An option to work out, or replications of a simulation from one to before another. */
export type ToThread =
  | { readonly kind: "option"; readonly asked: AskedOption }
  | { readonly kind: "runs"; readonly asked: AskedRuns; readonly from: number; readonly to: number };

export type FromThread =
  | { readonly kind: "progress"; readonly progress: Progress }
  | { readonly kind: "answer"; readonly answer: OptionAnswer | readonly Run[] }
  | { readonly kind: "failed"; readonly problem: string };

/** Milliseconds between two words on how far the search is. */
const BETWEEN = 200;

const port = parentPort!;
const stop = workerData as Int32Array;
const tell = (message: FromThread) => port.postMessage(message);

let next = performance.now() + BETWEEN;
const watch: Watch = async (progress) => {
  if (performance.now() >= next) {
    next = performance.now() + BETWEEN;
    tell({ kind: "progress", progress });
  }
  return Atomics.load(stop, 0) === 1 ? "interrupted" : null;
};

port.on("message", (message: ToThread) => {
  const work = message.kind === "option" ? answerOption(message.asked, watch) : runThem(message);
  work.then(
    (answer) => tell({ kind: "answer", answer }),
    (error: unknown) =>
      tell({
        kind: "failed",
        problem: error instanceof Error ? (error.stack ?? error.message) : String(error),
      }),
  );
});

async function runThem({ asked, from, to }: Extract<ToThread, { kind: "runs" }>): Promise<Run[]> {
  const runs: Run[] = [];
  for (const run of replicationsOf(asked, from, to)) {
    if (run !== null) runs.push(run);
    if (Atomics.load(stop, 0) === 1) break;
  }
  return runs;
}
