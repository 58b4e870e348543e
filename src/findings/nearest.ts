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

/** The same for many questions about the same names. */
export function nearestWordsAmong(known: Iterable<string>): (wanted: string) => string {
  const nearest = nearestAmong(known);
  return (wanted) => {
    const near = nearest(wanted);
    return near.length === 0 ? "" : `; nearest: ${near.join(", ")}`;
  };
}

function nearestAmong(known: Iterable<string>): (wanted: string) => string[] {
  const candidates = [...new Set(known)].map((name) => ({ name, folded: fold(name) }));
  return (wanted) => {
    const target = fold(wanted);
    const near = candidates.flatMap(({ name, folded }) => {
      const slips = countSlips(target, folded);
      return slips === null ? [] : [{ name, slips }];
    });
    near.sort((one, two) => one.slips - two.slips || (one.name < two.name ? -1 : 1));
    return near.slice(0, MOST_NAMES).map((each) => each.name);
  };
}

/** How far apart two names are, or null where nobody would take one for the other. */
function countSlips(target: string, candidate: string): number | null {
  const allowed = Math.max(1, Math.floor(target.length / 3));
  if (Math.abs(candidate.length - target.length) <= allowed) {
    const slips = distance(target, candidate);
    if (slips === 0 || (slips <= allowed && slips < Math.max(target.length, candidate.length))) return slips;
  }
  return target.length >= LEAST_PART && candidate.includes(target) ? allowed + 1 : null;
}

function fold(name: string): string {
  return name
    .normalize("NFKC")
    .trim()
    .toLowerCase()
    .replaceAll("_", "-")
    .replaceAll(/(?<!\d)0+(?=\d)/g, "");
}
