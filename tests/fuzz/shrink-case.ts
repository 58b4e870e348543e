import type { Case, Outcome } from "./case.js";

/** Runs that shrinking may take; a smaller input is a help, not a must. */
const MOST_TRIES = 400;

/** What is alike in failures of one cause: the message without its figures and names. */
export const kindOf = (failure: string): string =>
  failure
    .split("\n", 1)[0]!
    .replace(/"(?:[^"\\]|\\.)*"/gu, '""')
    .replace(/[\d.]+/gu, "0")
    .slice(0, 80);

/** The smallest input found that fails in the same way: fewer options, lines, entries and simpler values. */
export async function shrinkCase(
  given: Case,
  failure: string,
  judge: (given: Case) => Promise<Outcome>,
): Promise<Case> {
  const kind = kindOf(failure);
  let best = given;
  let left = MOST_TRIES;
  const takes = async (candidate: Case): Promise<boolean> => {
    if (left-- <= 0) return false;
    const outcome = await judge(candidate);
    if (outcome.failure === null || kindOf(outcome.failure) !== kind) return false;
    best = candidate;
    return true;
  };
  for (let before = -1; before !== sizeOf(best) && left > 0; ) {
    before = sizeOf(best);
    for (let at = best.args.length - 1; at > 0; at--)
      (await takes({ ...best, args: best.args.toSpliced(at, 1) })) ||
        (await takes({ ...best, args: best.args.toSpliced(at, 2) }));
    for (const name of Object.keys(best.files)) {
      const text = best.files[name]!;
      if (typeof text === "string")
        for (const pieces of PIECES)
          await dropPieces(
            name,
            pieces,
            () => String(best.files[name]),
            takes,
            () => best,
          );
    }
  }
  return best;
}

const sizeOf = ({ args, files }: Case): number =>
  args.join(" ").length + Object.values(files).reduce((sum, each) => sum + each.length, 0);

type Divide = (text: string) => string[];

/** Lines, then entries between commas and braces, which are kept with the comma before them. */
const PIECES: readonly Divide[] = [
  (text) => text.split(/(?<=\n)/u),
  (text) => text.split(/(?=, )|(?<=[{[](?=[^{[]))|(?=[}\]])/u),
];

/** Leaves out halves, quarters and so on down to single pieces. */
async function dropPieces(
  name: string,
  divide: Divide,
  text: () => string,
  takes: (candidate: Case) => Promise<boolean>,
  best: () => Case,
): Promise<void> {
  for (let size = divide(text()).length >> 1; size >= 1; size >>= 1) {
    for (let at = 0; at < divide(text()).length; ) {
      const shorter = divide(text()).toSpliced(at, size).join("");
      const isTaken = await takes({ ...best(), files: { ...best().files, [name]: shorter } });
      if (!isTaken) at += size;
    }
  }
}
