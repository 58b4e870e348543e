import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import type { Pieces } from "./imported-tasks.js";

/** `HC-12 x 2; bolt` or `"HC; 12" x 2`: parts and how many of each, one where that is not said. */
export function readPieces(text: string): Reading<Pieces> {
  const pieces = new Map<string, string>();
  for (const part of partsIn(text)) {
    const found = QUOTED.exec(part) ?? PLAIN.exec(part)!;
    const { before, name, quotedName, behind, colon } = found.groups as Record<string, string | undefined>;
    if (before !== undefined && (behind ?? colon) !== undefined)
      return refuse(`${quoted(part)} says twice how many; write a part as in HC-12 x 2`);
    const partName = quotedName?.replaceAll('""', '"') ?? name!;
    if (pieces.has(partName))
      return refuse(`${quoted(partName)} stands twice in this cell; write it once, as in HC-12 x 2`);
    pieces.set(partName, before ?? behind ?? colon ?? "1");
  }
  return accept(pieces);
}

const PLAIN =
  /^(?:(?<before>\d+)\s*[x×]\s+)?(?<name>.+?)(?:\s+[x×]\s*(?<behind>\d+)|\s*:\s*(?<colon>\d+))?$/isu;
const QUOTED = /^"(?<quotedName>(?:[^"]|"")*)"(?:\s*[x×]\s*(?<behind>\d+))?$/iu;

/** Divided at commas, semicolons and line ends, but not within quotes that begin a part. */
const partsIn = (text: string): string[] =>
  [...text.matchAll(/\s*("(?:[^"]|"")*"[^,;\n]*|[^,;\n]+)/gu)]
    .map(([, part = ""]) => part.trim())
    .filter((part) => part !== "");
