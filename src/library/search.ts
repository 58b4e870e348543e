import { DEFAULT_NODES, DOUBLINGS } from "../solve/methods.js";
import type { Watch } from "../solve/watch-times.js";
import { countOption } from "./usage-error.js";

/** What ends a search before its limit: an AbortSignal is one. */
export interface StopSignal {
  readonly aborted: boolean;
}

/** How long to search. */
export interface SearchOptions {
  /** Partial plans that each search may look at; 400,000 where left out, doubled up to 8 times until a plan is found. The answer depends on this number, never on the machine. */
  readonly nodes?: number;
  /** Looked at now and then. Once it is aborted the answer is the best so far; nothing is thrown. `AbortSignal.timeout(5000)` searches for 5 s, and the answer is then not reproducible. */
  readonly signal?: StopSignal;
}

export const SEARCH_OPTIONS = ["nodes", "signal"] as const;

/** Milliseconds of work between two turns of everything else that waits. */
const BETWEEN = 20;

/** How long to search, for the solvers. */
export function limitsOf({ nodes, signal }: SearchOptions) {
  return {
    nodes: countOption("nodes", nodes, 1) ?? DEFAULT_NODES,
    doublings: nodes === undefined ? DOUBLINGS : 0,
    checkpoint: watchOf(signal),
  };
}

/** Lets events get through, and ends the search once the signal is aborted. The clock decides when to look, never what is answered. */
export function watchOf(signal: StopSignal | undefined): Watch {
  const goesOn = goesOnUntil(signal);
  return async () => ((await goesOn()) ? null : "interrupted");
}

/** The same for work that is only asked whether it goes on. */
export function goesOnUntil(signal: StopSignal | undefined): () => Promise<boolean> {
  let last = performance.now();
  return async () => {
    if (performance.now() - last >= BETWEEN) {
      await new Promise((resolve) => setTimeout(resolve));
      last = performance.now();
    }
    return signal?.aborted !== true;
  };
}
