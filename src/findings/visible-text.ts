/**
 * What would act on a terminal, hide, or reorder what is read: controls, bidirectional marks, characters without
 * width, lone surrogates. The joiners U+200C and U+200D stay, since emoji and several scripts are written with them.
 */
const UNSEEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: finding them is the purpose
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff]|\p{Surrogate}/gu;

/** Text from a file made safe and plain to print: ESC becomes ␛, a line feed ␊, a bidirectional override \u{202e}. */
export function visibleText(text: string): string {
  return text.replace(UNSEEN, picture);
}

/** The characters of a text that cannot be seen when printed, each made visible, in order of appearance. */
export function unseenCharacters(text: string): string[] {
  return [...text.matchAll(UNSEEN)].map(([character]) => picture(character));
}

/** Unicode has a picture for each of the 33 ASCII controls; everything else is shown by its number. */
function picture(character: string): string {
  const code = character.charCodeAt(0);
  if (code < 0x20) return String.fromCharCode(0x2400 + code);
  if (code === 0x7f) return "␡";
  return `\\u{${code.toString(16).padStart(4, "0")}}`;
}
