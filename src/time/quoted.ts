import { visibleText } from "../findings/visible-text.js";

const SHOWN = 60;

/** The text in double quotes for a message: cut to a readable length, control characters made visible. */
export function quoted(text: string): string {
  const letters = [...text.slice(0, 4 * SHOWN)];
  const cut = letters.length > SHOWN ? `${letters.slice(0, SHOWN).join("")}…` : text;
  return `"${visibleText(cut)}"`;
}
