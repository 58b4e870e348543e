import type { PartsAnswer, PartsAtPost } from "../../answer/parts/answer-parts.js";
import { thousands } from "../../findings/count-of.js";
import { decimal } from "../../time/show-values.js";
import { CAUTION, cautionsOfPlan, cautionWords } from "../cautions.js";
import { partColumns, quantityCell } from "../parts-cells.js";
import {
  againstWords,
  countingWords,
  kitWords,
  limitWords,
  movedWords,
  partsSummary,
  postWords,
} from "../words/parts-words.js";
import { markdownTable, plainMarkdown } from "./markdown.js";

/** The same as on the terminal, a table for each station, bench and table. */
export function partsMarkdown(answer: PartsAnswer, station: string | null): string {
  const { line, plan, posts, against } = answer;
  const shown = station === null ? posts : posts.filter(({ id }) => id === station);
  const parts = [
    `## ${plainMarkdown(line.name)}: parts\n`,
    `${plainMarkdown(partsSummary(answer))}\n`,
    ...shown.flatMap((post) => [`### ${plainMarkdown(postWords(post))}\n`, ...partsOfPost(answer, post)]),
    ...(station === null && answer.totals.length > 0
      ? ["### All places together\n", totalsTable(answer)]
      : []),
    ...bulleted("### How it is counted\n", countingWords(answer)),
    ...(station === null && against !== null
      ? bulleted("### Against the other plan\n", [againstWords(against), ...against.moved.map(movedWords)])
      : []),
    ...bulleted("### Caution\n", [...cautionsOfPlan(line, plan).map(cautionWords), CAUTION]),
  ];
  return parts.join("\n");
}

const bulleted = (heading: string, words: readonly string[]): string[] =>
  words.length === 0 ? [] : [heading, words.map((each) => `- ${plainMarkdown(each)}\n`).join("")];

function partsOfPost(answer: PartsAnswer, { parts, limits, kits }: PartsAtPost): string[] {
  const columns = partColumns(answer);
  const rows = parts.map((row) => columns.map((column) => plainMarkdown(column.of(row))));
  return [
    ...(parts.length === 0
      ? []
      : [
          markdownTable(
            columns.map(({ head }) => head),
            rows,
            columns.map(({ align }) => align),
          ),
        ]),
    ...(limits.length === 0 ? [] : [`${plainMarkdown(limits.map(limitWords).join("; "))}\n`]),
    ...kits.flatMap((kit) => [
      `${plainMarkdown(kitWords(answer.line, kit))}\n`,
      markdownTable(
        ["part", "name", "in one kit"],
        kit.parts.map(({ part, perUnit }) =>
          [part.id, part.name ?? "", `${decimal(perUnit, 3)} ${part.unit ?? ""}`.trim()].map(plainMarkdown),
        ),
        ["left", "left", "right"],
      ),
    ]),
  ];
}

function totalsTable({ totals }: PartsAnswer): string {
  return markdownTable(
    ["part", "name", "quantity", "packs"],
    totals.map(({ part, quantity, packs }) =>
      [
        part.id,
        part.name ?? "",
        quantityCell(part.unit, quantity),
        packs === null ? "not stated" : thousands(packs),
      ].map(plainMarkdown),
    ),
    ["left", "left", "right", "right"],
  );
}
