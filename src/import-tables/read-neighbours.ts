import { listOf } from "../findings/list-of.js";
import { nearestWordsAmong } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import type { Cell } from "../table/table.js";
import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";

/** What is known before a cell of predecessors or successors is read. */
export interface KnownTasks {
  /** Ids as typed by their keys. */
  readonly ids: ReadonlyMap<string, string>;
  /** Whether `3-5` stands for 3, 4 and 5. */
  readonly ranges: boolean;
  /** Words that the user says mean nothing, besides those that people use. */
  readonly nothing: readonly string[];
}

/** The tasks that a cell names, as they are typed where they are listed. */
export interface Neighbours {
  readonly ids: readonly string[];
  /** A word for nothing that is taken for the task of that id. */
  readonly word: string | null;
  /** Whether a task is named twice in the cell. */
  readonly isDoubled: boolean;
}

/**
 * Reads cells of predecessors or successors in every shape that people type: `B, F`, `B; F`, `B/F`, `B & F`, `B and F`, a line each, and `B F`
 * where both are tasks. A whole cell that is an id is that task, whatever it looks like. What a spreadsheet has made of a cell (dates,
 * numbers) is refused.
 */
export function neighboursReader({ ids, ranges, nothing }: KnownTasks): (cell: Cell) => Reading<Neighbours> {
  let nearest: ((wanted: string) => string) | null = null;
  const none = new Set([...NOTHING, ...nothing.map((word) => idKey(word).toLowerCase())]);
  const idOf = (text: string) => ids.get(idKey(text)) ?? ids.get(idKey(withoutMark(text)));
  const allKnown = (parts: readonly string[]): readonly string[] | null => {
    const known = parts.flatMap((part) => idOf(part) ?? []);
    return parts.length > 1 && known.length === parts.length ? known : null;
  };
  const unknown = (part: string): Reading<never> => {
    nearest ??= nearestWordsAmong(ids.values());
    const decimals = allKnown(part.split(/[.,]/u));
    const hint =
      decimals !== null
        ? `; a spreadsheet makes that of ${decimals.join(",")}: write ${decimals.join(", ")} as text`
        : LONG_NUMBER.test(part)
          ? "; a spreadsheet writes long numbers so: format the column as text and type the id again"
          : part === "0"
            ? "; where 0 means none, give --nothing 0"
            : nearest(part) || "; ids are in the column of tasks, and - means none";
    return refuse(`no task is called ${quoted(part)}${hint}`);
  };
  const rangeOf = (part: string): Reading<readonly string[]> | null => {
    const range = RANGE.exec(part);
    if (range === null) return null;
    const [, head = "", first = "", otherHead = "", last = ""] = range;
    if (otherHead !== "" && otherHead !== head) return null;
    const [from, to] = [Number(first), Number(last)];
    const nameOf = (number: number) =>
      head + String(number).padStart(first.startsWith("0") ? first.length : 0, "0");
    if (idOf(nameOf(from)) === undefined || idOf(nameOf(to)) === undefined || to <= from) return null;
    // More numbers than tasks leave some out, the first of them soon.
    const names = Array.from({ length: Math.min(to - from, ids.size) + 1 }, (_, at) => nameOf(from + at));
    const missing = names.find((name) => idOf(name) === undefined);
    if (missing !== undefined)
      return refuse(
        ranges
          ? `${quoted(part)} runs over ${quoted(missing)}, which is no task; write each task that is meant`
          : `${quoted(part)} may be a range; write each task that is meant, with commas between them`,
      );
    const meant = names.length > 6 ? `${names[0]}, ..., ${names.at(-1)}` : names.join(", ");
    if (!ranges)
      return refuse(
        `${quoted(part)} may be a range; write ${meant}, or give --ranges where the table means them all`,
      );
    return accept(names.map((name) => idOf(name)!));
  };
  const readPart = (part: string): Reading<readonly string[]> => {
    const one = idOf(part);
    if (one !== undefined) return accept([one]);
    const several = SPLITTERS.map((splitter) => allKnown(pieces(part, splitter))).find(
      (each) => each !== null,
    );
    if (several !== undefined) return accept(several!);
    const range = rangeOf(part);
    if (range !== null) return range;
    const split = SPLITTERS.map((splitter) => pieces(part, splitter)).find(
      (parts) => parts.length > 1 && parts.some((each) => idOf(each) !== undefined),
    );
    const lost = split?.find((each) => idOf(each) === undefined);
    return unknown(lost ?? part);
  };
  return (cell) => {
    const text = idKey(cell.text);
    const whole = idOf(text);
    const isNothing = text === "" || DASHES.test(text) || none.has(text.toLowerCase());
    if (whole !== undefined) return accept({ ids: [whole], word: isNothing ? text : null, isDoubled: false });
    if (isNothing) return accept({ ids: [], word: null, isDoubled: false });
    if (cell.kind === "date" || cell.kind === "duration" || isDate(text))
      return refuse(
        `${quoted(text)} looks like a date that a spreadsheet made out of ${origin(text)}; format the column as text and type it again`,
      );
    const found: string[] = [];
    const quotedIds = quotedParts(text);
    if (quotedIds !== null) {
      const lost = quotedIds.find((id) => ids.get(idKey(id)) === undefined);
      if (lost !== undefined) return unknown(lost);
      const named = [...new Set(quotedIds.map((id) => ids.get(idKey(id))!))];
      return accept({ ids: named, word: null, isDoubled: named.length < quotedIds.length });
    }
    // An id may hold a comma itself.
    const parts = pieces(text, /[;|\n\t]/u).flatMap((part) =>
      idOf(part) === undefined ? pieces(part, ",") : [part],
    );
    const problems = new Set<string>();
    for (const part of parts) {
      const read = readPart(part);
      if (read.ok) found.push(...read.value);
      else problems.add(read.problem);
    }
    if (problems.size > 0) return refuse([...problems].join("; "));
    const single = [...new Set(found)];
    return accept({ ids: single, word: null, isDoubled: single.length < found.length });
  };
}

const NOTHING = ["none", "nil", "n/a", "na", "n.a.", "no", "nothing", "null", "/", "."];
const DASHES = /^[-\u2010-\u2015\u2212_]+$/u;
const LONG_NUMBER = /^\d(?:[.,]\d+)?E[+-]?\d+$/iu;
const RANGE = /^(.*?)(\d+)\s*(?:[-\u2010-\u2015\u2212]|\.{2,}|…|\s+to\s+)\s*(\D*?)(\d+)$/iu;
const SPLITTERS = [/[/&+]|\s+and\s+/iu, /\s+/u, /[/&+\s]|\s+and\s+/iu];

const pieces = (text: string, splitter: RegExp | string): string[] =>
  text
    .split(splitter)
    .map((part) => part.trim())
    .filter((part) => part !== "");

/** A spreadsheet shows the apostrophe of `'007` to nobody, but some write it into files: it says that the rest is text. */
export const withoutMark = (text: string): string => text.trim().replace(/^'(?=.)/su, "");

/** The words of `"a; b"; "c ""d"""`, where all are in quotes; null for every other text. */
export function quotedParts(text: string): string[] | null {
  const parts: string[] = [];
  QUOTED.lastIndex = 0;
  for (let at = 0; at < text.length; at = QUOTED.lastIndex) {
    const found = QUOTED.exec(text);
    if (found === null) return null;
    parts.push(found[1]!.replaceAll('""', '"'));
  }
  return parts.length === 0 ? null : parts;
}

const QUOTED = /\s*"((?:[^"]|"")*)"\s*(?:[;,|\n\t]|$)/uy;

const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const MONTH = `(${MONTHS.join("|")})[a-z]*\\.?`;
const DATES = [
  new RegExp(`^(\\d{1,2})[-. /]*${MONTH}(?:[-. /]*\\d{2,4})?$`, "iu"),
  new RegExp(`^${MONTH}[-. /]*(\\d{1,4})$`, "iu"),
  /^\d{4}[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ][\d:]+)?$/u,
  /^(\d{1,2})[-/.](\d{1,2})[-/.]\d{4}$/u,
];

/** Whether a text looks like a date: ids do so as well, and are looked for first. */
export const isDate = (text: string): boolean => DATES.some((date) => date.test(text));

/** What was typed before a spreadsheet made a date of it, as far as the date shows that. */
function origin(text: string): string {
  const found = DATES.map((date) => date.exec(text)).find((each) => each !== null);
  if (found === undefined) return "two numbers";
  const [one, two] = found!.slice(1, 3).map((part) => {
    const month = MONTHS.indexOf(part.slice(0, 3).toLowerCase());
    return month < 0 ? Number(part) : month + 1;
  });
  return listOf([`${one}-${two}`, `${two}-${one}`]).replace(" and ", " or ");
}
