import type { OutputStream } from "./io.js";
import { systemReason } from "./system-reason.js";

/** A reader that has gone away is no fault: `linepoise ... | head -1` ends quietly. */
const READER_GONE = new Set(["EPIPE", "ERR_STREAM_DESTROYED", "ERR_STREAM_WRITE_AFTER_END"]);

/** Writes to one stream of the process, and knows whether everything arrived. */
export class Outlet {
  readonly #stream: OutputStream;
  readonly #pending = new Set<Promise<void>>();
  #closed = false;
  #failure: string | null = null;

  constructor(stream: OutputStream) {
    this.#stream = stream;
    stream.on("error", (error) => this.#noteError(error));
  }

  /** Hands the text over; nothing more is written after a fault. */
  write(text: string): void {
    if (this.#closed || text === "") return;
    const handed = new Promise<void>((resolve) => {
      this.#stream.write(text, (error) => {
        if (error) this.#noteError(error);
        resolve();
      });
    });
    this.#pending.add(handed);
    handed.then(() => this.#pending.delete(handed));
  }

  /** Waits until everything has arrived; says why it could not, or null where it did or the reader went away. */
  async settle(): Promise<string | null> {
    while (this.#pending.size > 0) await Promise.all(this.#pending);
    return this.#failure;
  }

  #noteError(error: Error): void {
    this.#closed = true;
    if (!READER_GONE.has((error as NodeJS.ErrnoException).code ?? "")) this.#failure ??= systemReason(error);
  }
}
