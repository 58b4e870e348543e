import { LONGEST_TEXT, readNumber } from "./exact-number.js";
import { explainNumberSlip } from "./number-slips.js";
import { quoted } from "./quoted.js";
import { compare, multiply, ONE, type Ratio, ratio } from "./ratio.js";
import { accept, type Reading, refuse } from "./reading.js";
import { plainDecimal } from "./show-values.js";

const HUNDREDTH = ratio(1, 100);
const HALF = ratio(1, 2);
const MOST_CHANCE = ratio(999_999, 1_000_000);

/** The least and the most that a share may be, in words, with the check of each end. */
interface Limits {
  readonly words: string;
  tooSmall(share: Ratio): boolean;
  tooMuch(share: Ratio): boolean;
}

/** A share such as `94 %` or `99.5%` as an exact ratio above 0 and up to 1. Its % is needed: 0.95 has two readings. */
export const readShare = shareReader({
  words: "a share is above 0 % and at most 100 %",
  tooSmall: (share) => share.num <= 0n,
  tooMuch: (share) => compare(share, ONE) > 0,
});

/** A share above 0 and below 1: some, yet not all. */
export const readShareOfSome = shareReader({
  words: "this share is above 0 % and below 100 %",
  tooSmall: (share) => share.num <= 0n,
  tooMuch: (share) => compare(share, ONE) >= 0,
});

/** A chance that something holds: even chances or better, and never certain. */
export const readChance = shareReader({
  words: "this chance is 50 % or more and at most 99.9999 %",
  tooSmall: (share) => compare(share, HALF) < 0,
  tooMuch: (share) => compare(share, MOST_CHANCE) > 0,
});

/** A part of the whole that may be none of it: from 0 to 1. */
export const readPart = shareReader({
  words: "this share is 0 % or more and at most 100 %",
  tooSmall: (share) => share.num < 0n,
  tooMuch: (share) => compare(share, ONE) > 0,
});

/** What remains of a time at each doubling of the units; with half of it or less, the second unit might take no time at all. */
export const readLearnedShare = shareReader({
  words: "what remains at each doubling is above 50 % and at most 100 %",
  tooSmall: (share) => compare(share, HALF) <= 0,
  tooMuch: (share) => compare(share, ONE) > 0,
});

/** A share on top of the whole: 0 or more. */
export const readSurplus = shareReader({
  words: "this share is 0 % or more",
  tooSmall: (share) => share.num < 0n,
  tooMuch: () => false,
});

function shareReader(limits: Limits): (text: string) => Reading<Ratio> {
  return (text) => {
    const trimmed = text.trim();
    if (trimmed === "")
      return refuse("a share is missing (blank is never 0 %): write it with its %, such as 95 %");
    if (trimmed.length > LONGEST_TEXT) return refuse(`${quoted(trimmed)} is too long a text for a share`);
    const number = trimmed.endsWith("%") ? readNumber(trimmed.slice(0, -1)) : null;
    if (number === null) return refuse(`${quoted(trimmed)} is not a share: ${explainShareSlip(trimmed)}`);
    const share = multiply(number, HUNDREDTH);
    if (limits.tooSmall(share)) return refuse(`${quoted(trimmed)} is too small: ${limits.words}`);
    if (limits.tooMuch(share)) return refuse(`${quoted(trimmed)} is too much: ${limits.words}`);
    return accept(share);
  };
}

function explainShareSlip(text: string): string {
  const bare = readNumber(text);
  if (bare !== null) return `it needs its %; ${bothReadings(text, bare)}`;
  const words = /^(.*\d)\s*(?:per ?cent|percent|pct\.?|pc)$/iu.exec(text);
  return (
    explainNumberSlip(text) ?? (words ? `write ${words[1]} %` : "write a number with its %, such as 95 %")
  );
}

function bothReadings(text: string, bare: Ratio): string {
  const asFraction = `${plainDecimal(multiply(bare, ratio(100)), 6)} %`;
  const readings = `as a percentage it is ${text} %, as a fraction ${asFraction}`;
  const possible = compare(bare, ONE) > 0 ? `${text} %` : `${asFraction} or ${text} %`;
  return `${readings}; write ${possible}`;
}
