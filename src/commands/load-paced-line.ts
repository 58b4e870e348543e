import type { FoundPace } from "../answer/set-pace.js";
import type { Context } from "./context.js";
import type { OutputOptions } from "./emit.js";
import { findPace, setAside } from "./find-pace.js";
import { type LoadedLine, loadLine } from "./load-line.js";

/** A line that was read, at the pace that the command line or its file gives it. */
export interface PacedLine {
  readonly loaded: LoadedLine;
  readonly found: Extract<FoundPace, { ok: true }>;
}

interface PacedOptions extends OutputOptions {
  readonly cycle?: string;
  readonly demand?: string;
}

/**
 * Reads a line file and finds its pace, and says what `--cycle` sets aside of it. Where one of them has faults they are told, and the answer
 * is null (status 2).
 */
export async function loadPacedLine(
  context: Context,
  command: string,
  path: string,
  options: PacedOptions,
): Promise<PacedLine | null> {
  const loaded = await loadLine(context, command, path, options);
  if (loaded === null) return null;
  const found = findPace(loaded.line, options);
  if (!found.ok) {
    await loaded.refuse([...loaded.findings, found.fault]);
    return null;
  }
  if (options.cycle !== undefined) context.note(setAside(loaded.line));
  return { loaded, found };
}
