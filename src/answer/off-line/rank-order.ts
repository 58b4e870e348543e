import { nearestWords } from "../../findings/nearest.js";
import { quoted } from "../../time/quoted.js";
import { accept, type Reading, refuse } from "../../time/reading.js";

/** What off-line answers are ranked by. */
export const RANKS = ["people", "stations", "stock"] as const;
export type Rank = (typeof RANKS)[number];

/** What counts for one answer; less is better. */
export interface RankedFigures {
  /** Of a day, so that benches with other hours than the line compare. */
  readonly people: number;
  readonly stations: number;
  readonly stock: number;
  readonly stockPoints: number;
}

/** An order such as `stations, people`; what it leaves out follows in the usual order. */
export function readRanks(text: string): Reading<readonly Rank[]> {
  const words = text.split(",").map((word) => word.trim());
  const expected = `a list of ${RANKS.join(", ")} is expected, such as ${[...RANKS].reverse().join(",")}`;
  for (const [at, word] of words.entries()) {
    if (!RANKS.some((rank) => rank === word))
      return refuse(`${quoted(word)} is nothing to rank by; ${expected}${nearestWords(word, RANKS)}`);
    if (words.indexOf(word) !== at) return refuse(`${word} stands twice; ${expected}`);
  }
  const first = RANKS.filter((rank) => words.includes(rank)).sort(
    (one, two) => words.indexOf(one) - words.indexOf(two),
  );
  return accept([...first, ...RANKS.filter((rank) => !words.includes(rank))]);
}

/** Negative where the first is better, 0 where the two are equal in everything that counts. */
export function compareRanked(ranks: readonly Rank[], one: RankedFigures, two: RankedFigures): number {
  for (const rank of ranks) {
    const difference = one[rank] - two[rank] || (rank === "stock" ? one.stockPoints - two.stockPoints : 0);
    if (difference !== 0) return difference;
  }
  return 0;
}
