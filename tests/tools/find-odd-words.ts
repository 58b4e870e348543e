/** What may stand where a refused word is looked for: another sense of it. */
const OTHER_SENSES =
  /\b(?:rules? of (?:the|a) (?:line|floor|shop floor)|rules? of \S+ own|every rule holds|rules exclude each other|a rule blocks every task|their own rules|shop-floor rules?|(?:break|breaks|keep|keeps) (?:a|its|every|all|these|the) rules?|precedences? (?:or|and) rules?|precedence, rules|rules held back|import rules)\b/giu;

/** Keys, options and commands as they are typed. */
const CODE = /`[^`]*`|"[^"\s]*"/gu;

/** A word that the user wrote, which a finding quotes. */
const TYPED = /no key "[^"]*"/gu;

/** The place and the name of a finding. */
const ADDRESS = /^\S+:\d+:\d+: | \[[a-z-]+\]$/gu;

/** Words that text never uses in these senses, and what it says instead. */
const REFUSED: readonly (readonly [RegExp, string])[] = [
  [/\brules?\b/iu, "method, or rule of the line"],
  [/\b(?:constraints?|clauses?)\b/iu, "rule"],
  [/\b(?:faults?|slips?)\b/iu, "finding, error, warning or note"],
  [/\barrows?\b/iu, "precedence"],
  [/\b(?:a|an|the|no|each|every|two|these) joins?\b/iu, "precedence"],
  [/\boperators?\b/iu, "people"],
  [/\bslowest cycle\b|\bcycle of plan\b/iu, "cycle of the plan"],
  [/\befficiency (?:of )?\d[\d.,]* %(?! (?:at|over))/iu, "efficiency at the pace, or at the slowest station"],
  [/\bvisits?\b/iu, "times performed"],
  [/^columns\b|\b(?:by|method|methods|rule) columns\b/imu, "column method"],
  [/\bsmoothness\b(?! index)/iu, "smoothness index"],
  [/\bdrift room\b/iu, "drift allowance"],
  [/\bone stock\b/iu, "one buffer stock"],
  [/\+ \d+ repairs?\b/iu, "repairer"],
  [/\bwork charts?\b/iu, "load chart"],
  [/\bstandard stock in process\b/iu, "standard work-in-process"],
  [/\bpullers?\b/iu, "material handler"],
  [/\b(?:restart|running) clock\b/iu, "snapback or continuous"],
  [/\bhands? (?:on|over) \S+ to S\d/iu, "passes"],
];

/** The most words of a sentence. */
const MOST_WORDS = 30;

/** The refused words of a text, each with what to say instead. */
export function findRefusedWords(text: string): string[] {
  const plain = [CODE, TYPED, OTHER_SENSES, ADDRESS].reduce(
    (rest, other) => rest.replaceAll(other, ""),
    text,
  );
  return REFUSED.flatMap(([pattern, instead]) => {
    const found = pattern.exec(plain);
    return found === null
      ? []
      : [`"${found[0]}" (${instead}): ${plain.slice(Math.max(0, found.index - 40), found.index + 40)}`];
  });
}

/** The sentences of a text that nobody reads at once. What stands in brackets and items of a list count as one word each. */
export function findLongSentences(text: string): string[] {
  return text
    .replaceAll(/\s+/gu, " ")
    .split(/(?<=[.!?:;])["')]?\s/u)
    .filter((sentence) => countWords(sentence) > MOST_WORDS);
}

function countWords(sentence: string): number {
  const short = sentence.replaceAll(/\s*\([^()]*\)/gu, "").replaceAll(/(?:[^\s,]+, ){4,}/gu, "list ");
  return short.split(/\s+/u).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
}

/**
 * The text of a report with its wrapped lines joined again: what goes on in the last column of the lines below belongs together. Cells
 * of tables stand apart.
 */
export function sentencesOfReport(report: string): string[] {
  const cells: string[] = [];
  let [column, open] = [0, false];
  for (const line of report.split("\n")) {
    const parts = [...line.matchAll(/\S+(?: \S+)*/gu)];
    if (parts.length === 0) {
      open = false;
      continue;
    }
    if (open && parts.length === 1 && parts[0]!.index === column) {
      cells.push(`${cells.pop()} ${parts[0]![0]}`);
      continue;
    }
    cells.push(...parts.map(([text]) => text));
    column = parts.at(-1)!.index;
    open = column > 0;
  }
  return cells;
}
