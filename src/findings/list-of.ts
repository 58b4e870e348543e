/** 12; 12 or 13; 12, 13 or 14. */
export const eitherOf = (words: readonly string[]): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;

/** 12; 12 and 13; 12, 13 and 14. */
export function listOf(words: readonly string[]): string {
  const last = words.at(-1) ?? "";
  return words.length < 2 ? last : `${words.slice(0, -1).join(", ")} and ${last}`;
}
