import type { Command } from "commander";
import { fitText } from "../report/terminal/wrap-text.js";
import { progressWords } from "../report/words/progress-words.js";
import { DEFAULT_NODES, DOUBLINGS } from "../solve/methods.js";
import type { Watch } from "../solve/watch-times.js";
import type { Context } from "./context.js";
import { positiveSeconds, positiveWholeNumber } from "./option-values.js";

/** Milliseconds between two looks of the progress line. */
const BETWEEN = 250;
/** Milliseconds in which the first of two searches mostly comes to what it can, however short the time of both. */
const SOON = 2_000;
/** Milliseconds for what is worked out of an answer, however short the search was to be. */
const LEAST_AFTERWARDS = 5_000;

/** What a command gives a search: a checkpoint, and an end to the progress line. */
export interface SearchWatch {
  readonly checkpoint: Watch;
  /** The same for what comes first of two searches: it ends when half of the time is up, of a few seconds when three quarters are. */
  readonly firstOfTwo: Watch;
  /** The same for what is worked out of the answer of a search: half as long again, and some seconds at the least. */
  readonly afterwards: Watch;
  /** Between searches: lets Ctrl-C through and shows on a terminal how far the command is; false where it was interrupted. */
  step(words: string): Promise<boolean>;
  /** Takes the progress line off the terminal. */
  close(): void;
}

/** What the command line says of when a search ends. */
export interface SearchOptions {
  readonly nodes?: number;
  readonly seconds?: number;
}

/** The same where a search is asked for beside a plan that stands. */
export interface ProofOptions extends SearchOptions {
  readonly proof?: true;
}

/** @param nodes what the limit of partial plans is for */
export const addProofOptions = (
  command: Command,
  nodes = "with --proof: partial plans that the search may look at",
): Command =>
  command
    .option("--proof", "search for a better plan, and say what is proved of the least")
    .option("--nodes <count>", nodes, positiveWholeNumber)
    .option(
      "--seconds <time>",
      "with --proof: stop the search after this time; not reproducible",
      positiveSeconds,
    );

/** How the search for a proof is limited; null where none is asked for. */
export const proofSearch = (options: ProofOptions, { checkpoint }: SearchWatch) =>
  options.proof ? { nodes: nodeLimit(options), doublings: doublingsOf(options), checkpoint } : null;

/** Partial plans that a search may look at; null where a time is the only limit. */
export const nodeLimit = ({ nodes, seconds }: SearchOptions): number | null =>
  nodes ?? (seconds === undefined ? DEFAULT_NODES : null);

/** How often that may double until a plan is found; never where the command line says when the search ends. */
export const doublingsOf = ({ nodes, seconds }: SearchOptions): number =>
  nodes === undefined && seconds === undefined ? DOUBLINGS : 0;

/**
 * Lets Ctrl-C through, ends the search when it was pressed or `seconds` are up, and shows on a terminal how far the
 * search is, a few times a second. Says that an answer within a time is not reproducible.
 */
export function watchSearch(context: Context, seconds: number | undefined): SearchWatch {
  if (seconds !== undefined)
    context.note("--seconds: the answer depends on the machine and is not reproducible\n");
  const start = context.now();
  const time = seconds === undefined ? Number.POSITIVE_INFINITY : seconds * 1000;
  let shown = "";
  let next = start + BETWEEN;
  const show = (text: string) => {
    if (text === shown) return;
    // A line that wraps could not be taken away again, and each covers the one before.
    context.note(`\r${fitText(text, context.progressWidth)}${text === "" ? "\r" : ""}`);
    shown = text;
  };
  /** The moment of the look, or null after Ctrl-C. */
  const look = async (words: (passed: number) => string): Promise<number | null> => {
    await context.breathe();
    if (context.interrupted()) return null;
    const now = context.now();
    if (context.progressWidth > 0 && now >= next) {
      next = now + BETWEEN;
      show(words(Math.floor((now - start) / 1000)));
    }
    return now;
  };
  const until =
    (end: number): Watch =>
    async (progress) => {
      const now = await look((passed) => progressWords(progress, passed));
      if (now === null) return "interrupted";
      return now >= end ? "time" : null;
    };
  return {
    checkpoint: until(start + time),
    firstOfTwo: until(start + Math.max(time / 2, Math.min((3 / 4) * time, SOON))),
    afterwards: until(start + time + Math.max(time / 2, LEAST_AFTERWARDS)),
    step: async (words) => (await look((passed) => `${words}, ${passed} s`)) !== null,
    close: () => show(""),
  };
}
