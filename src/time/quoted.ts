const SHOWN = 60;

/** The text in double quotes for a message: cut to a readable length, control characters made visible. */
export function quoted(text: string): string {
  const letters = [...text.slice(0, 4 * SHOWN)];
  const cut = letters.length > SHOWN ? `${letters.slice(0, SHOWN).join("")}…` : text;
  const escaped = cut.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu, (each) => {
    return `\\u{${each.codePointAt(0)!.toString(16)}}`;
  });
  return `"${escaped}"`;
}
