import type { LineFileKey } from "../../line/line-file.js";
import { wrapText } from "./wrap-text.js";

const INDENT = "  ";

/** Keys of the line file with what each means and the keys below it; after the word of the trade that was asked for, if it was one. */
export function keyText(
  shown: readonly LineFileKey[],
  all: readonly LineFileKey[],
  trade: { readonly word: string; readonly advice: readonly string[] } | null,
  width: number,
): string {
  const paragraph = (text: string) => wrapText(text, width - INDENT.length).map((line) => `${INDENT}${line}`);
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
