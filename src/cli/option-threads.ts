import { Worker } from "node:worker_threads";
import type { AskedOption, OptionAnswer, Watch } from "../answer/compare/option-answer.js";
import type { Context } from "../commands/context.js";
import type { Run } from "../simulate/watched-line.js";
import type { FromThread, ToThread } from "./option-thread.js";

type Beside = NonNullable<Context["beside"]>;

/** Starts a thread that works out options and runs simulations; `stop` is 1 once it shall end with the best so far. */
export type StartThread = (stop: Int32Array) => Worker;

/** A thread of its own, in the file beside this one; its traces name the lines of the sources where those of this thread do. */
export const startThread: StartThread = (stop) =>
  new Worker(new URL("./option-thread.js", import.meta.url), {
    workerData: stop,
    // Left out, those of this thread hold; given, options of the engine would be refused.
    ...(process.sourceMapsEnabled ? { execArgv: ["--enable-source-maps"] } : {}),
  });

/**
 * Works out options on this thread and on `count - 1` others at the same time, which are started when they are first needed. An
 * answer is the same whichever thread gives it, since each works out a whole option by itself.
 */
export function optionThreads(count: number, start: StartThread, interrupt: AbortSignal): Beside {
  const stop = new Int32Array(new SharedArrayBuffer(4));
  interrupt.addEventListener("abort", () => Atomics.store(stop, 0, 1));
  const idle: Worker[] = [];
  let [started, isBusyHere] = [0, false];
  const solveHere = async (asked: AskedOption, watch: Watch): Promise<OptionAnswer> => {
    isBusyHere = true;
    try {
      const { answerOption } = await import("../answer/compare/answer-option.js");
      return await answerOption(asked, watch);
    } finally {
      isBusyHere = false;
    }
  };
  const takeThread = (): Worker => {
    const waiting = idle.pop();
    if (waiting !== undefined) return waiting;
    started++;
    return start(stop);
  };
  const askThread = async (message: ToThread, watch: Watch): Promise<Answer> => {
    const thread = takeThread();
    try {
      return await answerOf(thread, message, watch);
    } finally {
      thread.unref();
      idle.push(thread);
    }
  };
  return {
    atATime: count,
    async solve(asked, watch) {
      if (!isBusyHere || (idle.length === 0 && started === count - 1)) return solveHere(asked, watch);
      return askThread({ kind: "option", asked }, watch) as Promise<OptionAnswer>;
    },
    async runs(asked, from, to) {
      return askThread({ kind: "runs", asked, from, to }, async () => null) as Promise<readonly Run[]>;
    },
  };
}

type Answer = Extract<FromThread, { kind: "answer" }>["answer"];

/** One piece of work on another thread; the process waits for it. */
function answerOf(thread: Worker, work: ToThread, watch: Watch): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const settle = (act: () => void) => {
      thread.off("message", hear).off("error", fail);
      act();
    };
    const fail = (error: Error) => settle(() => reject(error));
    const hear = (message: FromThread) => {
      if (message.kind === "progress") void watch(message.progress);
      else if (message.kind === "answer") settle(() => resolve(message.answer));
      else settle(() => reject(new Error(message.problem)));
    };
    thread.on("message", hear).on("error", fail);
    thread.ref();
    thread.postMessage(work);
  });
}
