import type { LineFileKey } from "../../line/line-file.js";
import type { Term } from "../terms.js";
import { wrapText } from "./wrap-text.js";

const INDENT = "  ";

/** Keys of the line file with what each means and the keys below it; after the word of the trade that was asked for, if it was one. */
export function keyText(
  shown: readonly LineFileKey[],
  all: readonly LineFileKey[],
  trade: { readonly word: string; readonly advice: readonly string[] } | null,
  width: number,
): string {
  const paragraph = (text: string) => indented(text, width);
  const told = shown.map((each) => {
    const below = all.filter(({ key }) => isBelow(key, each.key));
    const inner = below.map(
      ({ key, required }) => `${innerName(key, each.key)}${required ? " (needed)" : ""}`,
    );
    return [
      `${each.key}${each.required ? " (needed)" : ""}`,
      ...paragraph(each.meaning),
      ...(inner.length === 0 ? [] : paragraph(`Keys below it: ${inner.join(", ")}.`)),
    ].join("\n");
  });
  const names = [...new Set(shown.map(({ key }) => key.split(".").at(-1)!))];
  const lead =
    trade === null
      ? []
      : wrapText(
          `${trade.word}: the key is ${names.join(" or ")}${trade.advice.map((each) => `; ${each}`).join("")}.`,
          width,
        );
  const note = shown.some(({ key }) => key.includes("NAME")) ? ["NAME stands for a name of your own."] : [];
  return `${[...(lead.length === 0 ? [] : [lead.join("\n")]), ...told, ...note].join("\n\n")}\n`;
}

/** Whether a key stands right below another, or below a name of one's own there. */
const isBelow = (key: string, above: string): boolean =>
  key.startsWith(`${above}.`) && /^(?:NAME\.)?[^.]+$/u.test(key.slice(above.length + 1));

const innerName = (key: string, above: string): string => key.slice(above.length + 1).replace(/^NAME\./u, "");

/**
 * Terms with what each means, its formula and the symbols in that; then the keys of the line file that the word may stand for, with what else is to be known.
 * `all` are the terms that symbols are looked up in.
 */
export function termText(
  shown: readonly Term[],
  all: readonly Term[],
  { keys, advice }: { readonly keys: readonly string[]; readonly advice: readonly string[] },
  width: number,
): string {
  const paragraph = (text: string) => indented(text, width);
  const told = shown.map((each) => {
    const { term, meaning, formula, unit, source } = each;
    const rows = [
      formula &&
        `Formula: ${each.symbol && !formula.includes("=") ? `${each.symbol} = ` : ""}${formula}${symbolsIn(each, all)}.`,
      unit && `Unit: ${unit}.`,
      source && `Source: ${source}.`,
    ];
    return [term, ...[meaning, ...rows].flatMap((text) => (text ? paragraph(text) : []))].join("\n");
  });
  const names = keys.map((key) => `\`${key}\``).join(" or ");
  const near = [`The nearest key of the line file is ${names} (linepoise help ${keys[0]})`, ...advice].join(
    "; ",
  );
  const lead = keys.length === 0 ? [] : [wrapText(`${near}.`, width).join("\n")];
  return `${[...told, ...lead].join("\n\n")}\n`;
}

/** "; with C line cycle, H handling": the symbols of other terms in a formula. */
function symbolsIn({ term, formula = "" }: Term, all: readonly Term[]): string {
  const words = new Set(formula.match(/\p{L}+/gu));
  const used = all.filter(
    (each) => each.term !== term && each.symbol !== undefined && words.has(each.symbol),
  );
  return used.length === 0 ? "" : `; with ${used.map((each) => `${each.symbol} ${each.term}`).join(", ")}`;
}

const indented = (text: string, width: number): string[] =>
  wrapText(text, width - INDENT.length).map((line) => `${INDENT}${line}`);
