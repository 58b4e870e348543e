import type { Term } from "../terms.js";
import { wrapText } from "./wrap-text.js";

const INDENT = "  ";

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
  const paragraph = (text: string) => wrapText(text, width - INDENT.length).map((line) => `${INDENT}${line}`);
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
