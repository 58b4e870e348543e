import type { PartsAnswer, PartsAtPost } from "../../answer/parts/answer-parts.js";
import { thousands } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import { decimal } from "../../time/show-values.js";
import { cautionsOfPlan } from "../cautions.js";
import { type PartColumn, partColumns, quantityCell } from "../parts-cells.js";
import {
  againstWords,
  countingWords,
  kitWords,
  limitWords,
  movedWords,
  partsSummary,
  postWords,
} from "../words/parts-words.js";
import { cautionText } from "./cautions-text.js";
import { headed, paragraph } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { formatTable, orElse } from "./table.js";

/** A list for each station, bench and table, the sums, how they are counted, and what another plan has elsewhere. */
export function partsText(answer: PartsAnswer, station: string | null, look: Look): string {
  const { line, plan, posts, against } = answer;
  const shown = station === null ? posts : posts.filter(({ id }) => id === station);
  const title = `${paintFor(look).strong(visibleText(line.name))}\n${paragraph(partsSummary(answer), look)}`;
  const sums = station === null ? headed("all places together", totalsText(answer, look), look) : "";
  const parts = [
    title,
    ...shown.map((post) => headed(visibleText(postWords(post)), postText(answer, post, look), look)),
    sums,
    headed("how it is counted", paragraph(countingWords(answer).join(" "), look), look),
    station === null && against !== null
      ? headed("against the other plan", againstText(against, look), look)
      : "",
    cautionText(cautionsOfPlan(line, plan), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

function postText(answer: PartsAnswer, { parts, limits, kits }: PartsAtPost, look: Look): string {
  const columns = partColumns(answer);
  const whole = tableOf(
    columns,
    parts.map((row) => columns.map((column) => column.of(row))),
    look,
  );
  const table = orElse(whole, look.width, () => narrowTable(columns, parts, look));
  const used = limits.map(limitWords).join("; ");
  return [
    parts.length === 0 ? "" : table,
    paragraph(used, look),
    ...kits.map((kit) => kitText(answer, kit, look)),
  ].join("");
}

/** Below this many columns figures stand in a row of words, which takes fewer lines than a narrow column. */
const ROOM_FOR_FIGURES = 72;

/** Beside each part what it is for, and all that has no column of its own. */
function narrowTable(columns: readonly PartColumn[], parts: PartsAtPost["parts"], look: Look): string {
  const heads = look.width < ROOM_FOR_FIGURES ? ["part"] : ["part", "quantity", "packs"];
  const kept = columns.filter(({ head }) => heads.includes(head));
  const others = columns.filter((column) => !kept.includes(column));
  const rows = parts.map((row) => {
    const told = others.flatMap((column) => {
      const words = column.of(row);
      return words === "" ? [] : [column.head === "name" ? words : `${column.head} ${words}`];
    });
    const [part = "", ...more] = kept.map((column) => column.of(row));
    return [part, told.join("; "), ...more];
  });
  const [part, ...more] = kept;
  return tableOf([part!, { head: "name" }, ...more], rows, look);
}

function kitText({ line }: PartsAnswer, kit: PartsAtPost["kits"][number], look: Look): string {
  const named = kit.parts.some(({ part }) => part.name !== null);
  const rows = kit.parts.map(({ part, perUnit }) => [
    visibleText(part.id),
    ...(named ? [visibleText(part.name ?? "")] : []),
    `${decimal(perUnit, 3)}${part.unit === null ? "" : ` ${visibleText(part.unit)}`}`,
  ]);
  const columns = [
    { head: "part" },
    ...(named ? [{ head: "name" }] : []),
    { head: "in one kit", align: "right" as const },
  ];
  return `${paragraph(kitWords(line, kit), look)}${tableOf(columns, rows, look)}`;
}

function totalsText({ totals }: PartsAnswer, look: Look): string {
  if (totals.length === 0) return "";
  const named = totals.some(({ part }) => part.name !== null);
  const packed = totals.some(({ packs }) => packs !== null);
  const columns = [
    { head: "part" },
    ...(named ? [{ head: "name" }] : []),
    { head: "quantity", align: "right" as const },
    ...(packed ? [{ head: "packs", align: "right" as const }] : []),
  ];
  const rows = totals.map(({ part, quantity, packs }) => [
    visibleText(part.id),
    ...(named ? [visibleText(part.name ?? "")] : []),
    quantityCell(part.unit, quantity),
    ...(packed ? [packs === null ? "not stated" : thousands(packs)] : []),
  ]);
  return tableOf(columns, rows, look);
}

function againstText(against: NonNullable<PartsAnswer["against"]>, look: Look): string {
  return [againstWords(against), ...against.moved.map(movedWords)]
    .map((words) => paragraph(words, look))
    .join("");
}

/** Names give way first, and then wrap. */
function tableOf(
  columns: readonly { readonly head: string; readonly align?: "left" | "right" }[],
  rows: readonly (readonly string[])[],
  look: Look,
): string {
  const paint = paintFor(look);
  return formatTable(
    columns.map((column) => ({
      ...column,
      ...(column.head === "name" ? { wraps: true, narrowest: "containers".length } : { breaks: true }),
    })),
    rows,
    look.width,
    (text, row) => (row < 0 ? paint.faint(text) : text),
  );
}
