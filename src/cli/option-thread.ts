import { parentPort, workerData } from "node:worker_threads";
import { answerOption } from "../answer/compare/answer-option.js";
import type { AskedOption, OptionAnswer, Progress, Watch } from "../answer/compare/option-answer.js";

/** An option to work out. */
export interface ToThread {
  readonly asked: AskedOption;
}

export type FromThread =
  | { readonly kind: "progress"; readonly progress: Progress }
  | { readonly kind: "answer"; readonly answer: OptionAnswer }
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

port.on("message", ({ asked }: ToThread) => {
  answerOption(asked, watch).then(
    (answer) => tell({ kind: "answer", answer }),
    (error: unknown) =>
      tell({
        kind: "failed",
        problem: error instanceof Error ? (error.stack ?? error.message) : String(error),
      }),
  );
});
