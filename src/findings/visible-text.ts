/**
 * What would act on a terminal, hide, or reorder what is read: controls, bidirectional marks, characters without
 * width, lone surrogates. The joiners U+200C and U+200D stay, since emoji and several scripts are written with them.
 */
const BESIDE_CONTROLS =
  /[\u007f-\u009f\u00ad\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff]|\p{Surrogate}/gu;
const UNSEEN = new RegExp(`[\\u0000-\\u001f]|${BESIDE_CONTROLS.source}`, "gu");

/** Text from a file made safe and plain to print: ESC becomes ␛, a line feed ␊, a bidirectional override \u{202e}. */
export function visibleText(text: string): string {
  return text.replace(UNSEEN, picture);
}

/** The same for text of several lines and columns: line ends and tabs stay. */
export const visibleLines = (text: string): string =>
  text.replace(UNSEEN, (sign) => (/[\t\n\r]/u.test(sign) ? sign : picture(sign)));

/**
 * JSON, in which such characters may stand as they are, with each escaped: it is safe to print and means the same. Of the controls below
 * a space there are only those between its lines.
 */
export const escapedInJson = (json: string): string =>
  json.replace(BESIDE_CONTROLS, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`);

/**
 * Characters that some script needs and most fonts draw as nothing: fillers, joiners of graphemes, tags, marks of annotations. Selectors
 * of variants are none of them.
 */
const BLANK =
  /[\u034f\u115f\u1160\u17b4\u17b5\u180e\u3164\uffa0\ufff9-\ufffb\u{1bca0}-\u{1bca3}\u{1d173}-\u{1d17a}\u{e0000}-\u{e00ff}]/gu;

/** Those of a text, each by its number, in order of appearance; a flag of emoji needs its tags. */
export const blankCharacters = (text: string): string[] =>
  [...text.replace(FLAG, "").matchAll(BLANK)].map(
    ([sign]) => `U+${sign.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}`,
  );

/** The same text without them. */
export const withoutBlanks = (text: string): string => text.replace(BLANK, "");

const FLAG = /\u{1f3f4}[\u{e0020}-\u{e007e}]+\u{e007f}/gu;

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
