import { distance } from "fastest-levenshtein";

const MOST_NAMES = 3;
const LEAST_PART = 3;

/**
 * Up to three known names that the wanted one may have been meant to be, nearest first, then by code unit: one typing
 * slip in three characters, or a name that the wanted one is a part of. Case, hyphens against underscores and leading
 * zeros count as nothing.
 */
export function nearestNames(wanted: string, known: Iterable<string>): string[] {
  return nearestAmong(known)(wanted);
}

/** "; nearest: a, b" to hang on a message, or nothing when no name is near. */
export function nearestWords(wanted: string, known: Iterable<string>): string {
  return nearestWordsAmong(known)(wanted);
}

/** Two thousand questions about ten thousand names: more are not mended at a time, and take the square of a file. */
const MOST_PAIRS = 20_000_000;

/** The same for many questions about the same names; after so many pairs of names nothing is near any more. */
export function nearestWordsAmong(known: Iterable<string>): (wanted: string) => string {
  const names = new Set(known);
  const nearest = nearestAmong(names);
  let pairs = 0;
  return (wanted) => {
    pairs += names.size;
    const near = pairs > MOST_PAIRS ? [] : nearest(wanted);
    return near.length === 0 ? "" : `; nearest: ${near.join(", ")}`;
  };
}

function nearestAmong(known: Iterable<string>): (wanted: string) => string[] {
  // Ten thousand unknown names among ten thousand tasks: most pairs are told apart by their letters alone.
  const byLetters = new Map<number, { name: string; folded: string }[]>();
  for (const name of new Set(known)) {
    const folded = fold(name);
    const [letters, names] = [lettersOf(folded), { name, folded }];
    if (byLetters.get(letters)?.push(names) === undefined) byLetters.set(letters, [names]);
  }
  return (wanted) => {
    const target = fold(wanted);
    const [own, allowed] = [lettersOf(target), slipsAllowed(target)];
    const near: { name: string; slips: number }[] = [];
    for (const [letters, names] of byLetters) {
      if (countBits(own & ~letters) > allowed) continue;
      if ((own & ~letters) !== 0 && countBits(letters & ~own) > allowed) continue;
      for (const { name, folded } of names) {
        const slips = countSlips(target, folded);
        if (slips !== null) near.push({ name, slips });
      }
    }
    near.sort((one, two) => one.slips - two.slips || (one.name < two.name ? -1 : 1));
    return near.slice(0, MOST_NAMES).map((each) => each.name);
  };
}

/** How far apart two names are, or null where nobody would take one for the other. */
function countSlips(target: string, candidate: string): number | null {
  const allowed = slipsAllowed(target);
  if (Math.abs(candidate.length - target.length) <= allowed) {
    const slips = isSwapped(target, candidate) ? 1 : distance(target, candidate);
    if (slips === 0 || (slips <= allowed && slips < Math.max(target.length, candidate.length))) return slips;
  }
  return target.length >= LEAST_PART && candidate.includes(target) ? allowed + 1 : null;
}

/** Two letters beside each other have changed places: one slip of a hand, which counts as two letters. */
function isSwapped(one: string, other: string): boolean {
  if (one.length !== other.length || one === other) return false;
  let at = 0;
  while (one[at] === other[at]) at++;
  return one[at] === other[at + 1] && one[at + 1] === other[at] && one.slice(at + 2) === other.slice(at + 2);
}

const slipsAllowed = (target: string): number => Math.max(1, Math.floor(target.length / 3));

/** Which letters a name has, a bit for each 32nd of all: a slip brings or takes one letter, so one bit at the most. */
function lettersOf(name: string): number {
  let bits = 0;
  for (let at = 0; at < name.length; at++) bits |= 1 << (name.charCodeAt(at) & 31);
  return bits;
}

function countBits(bits: number): number {
  let left = bits - ((bits >>> 1) & 0x55555555);
  left = (left & 0x33333333) + ((left >>> 2) & 0x33333333);
  return Math.imul((left + (left >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}

function fold(name: string): string {
  return name
    .normalize("NFKC")
    .trim()
    .toLowerCase()
    .replaceAll("_", "-")
    .replaceAll(/(?<!\d)0+(?=\d)/g, "");
}
