import { EXIT_STATUS } from "../commands/exit-status.js";
import type { Io } from "./io.js";

export interface Interrupt {
  /** Aborted by the first Ctrl-C. */
  readonly signal: AbortSignal;
  /** Stops listening. */
  release(): void;
}

const NOTE = "\nInterrupted: ending with the best so far. Ctrl-C again ends at once.\n";

/** The first Ctrl-C asks for an orderly end, the second ends the process at once. */
export function watchInterrupt(io: Io, note: (text: string) => void): Interrupt {
  const controller = new AbortController();
  const release = io.onInterrupt(() => {
    if (controller.signal.aborted) return io.endNow(EXIT_STATUS.interrupted);
    controller.abort();
    note(NOTE);
  });
  return { signal: controller.signal, release };
}
