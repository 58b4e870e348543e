/** What is fuzzed: kinds of input, each with the commands that read it. */
export const MODES = ["line", "plan", "readings", "table", "workbook", "large", "solver"] as const;

export type Mode = (typeof MODES)[number];

/** One input: a command line with the files that it finds. */
export interface Case {
  readonly args: readonly string[];
  /** By the name that the command line calls them; text is written as UTF-8. */
  readonly files: Readonly<Record<string, string | Uint8Array>>;
  /** Which of the answers of other commands it is held against, by a number that stays when it is made smaller. */
  readonly beside?: number;
}

/** An input with how it was made: `sound` is meant to be read, `changed` was sound before, `bytes` is anything. */
export interface Made extends Case {
  readonly from: "sound" | "changed" | "bytes";
}

/** What an input came to. */
export interface Outcome {
  readonly status: number;
  /** Why it counts as a failure, in one line and with a trace where there is one; null where it is none. */
  readonly failure: string | null;
}
