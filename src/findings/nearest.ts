import { distance } from "fastest-levenshtein";

const MOST_NAMES = 3;

/**
 * Up to three known names that the wanted one may have been meant to be, nearest first, then by code unit. Case,
 * hyphens against underscores and leading zeros count as nothing; otherwise one typing slip in three characters.
 */
export function nearestNames(wanted: string, known: Iterable<string>): string[] {
  const target = fold(wanted);
  const allowed = Math.max(1, Math.floor(target.length / 3));
  const near: { name: string; slips: number }[] = [];
  for (const name of new Set(known)) {
    const candidate = fold(name);
    if (Math.abs(candidate.length - target.length) > allowed) continue;
    const slips = distance(target, candidate);
    if (slips <= allowed && slips < Math.max(target.length, candidate.length)) near.push({ name, slips });
    else if (slips === 0) near.push({ name, slips });
  }
  near.sort((one, two) => one.slips - two.slips || (one.name < two.name ? -1 : 1));
  return near.slice(0, MOST_NAMES).map((each) => each.name);
}

/** "; nearest: a, b" to hang on a message, or nothing when no name is near. */
export function nearestWords(wanted: string, known: Iterable<string>): string {
  const near = nearestNames(wanted, known);
  return near.length === 0 ? "" : `; nearest: ${near.join(", ")}`;
}

function fold(name: string): string {
  return name
    .normalize("NFKC")
    .trim()
    .toLowerCase()
    .replaceAll("_", "-")
    .replaceAll(/0+(?=\d)/g, "");
}
