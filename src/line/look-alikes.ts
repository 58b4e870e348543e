/** Lower-case Cyrillic and Greek letters that are drawn like a Latin one; capitals are brought to them first. */
const LATIN_LOOK: Readonly<Record<string, string>> = {
  а: "a",
  в: "b",
  с: "c",
  е: "e",
  ё: "e",
  һ: "h",
  н: "h",
  і: "i",
  ї: "i",
  ј: "j",
  к: "k",
  м: "m",
  о: "o",
  р: "p",
  ѕ: "s",
  т: "t",
  у: "y",
  х: "x",
  ԁ: "d",
  ԛ: "q",
  ԝ: "w",
  α: "a",
  β: "b",
  ε: "e",
  ζ: "z",
  η: "h",
  ι: "i",
  κ: "k",
  μ: "m",
  ν: "v",
  ο: "o",
  ρ: "p",
  τ: "t",
  υ: "y",
  χ: "x",
};

/** Greek capitals that look Latin although their small letters look otherwise. */
const LATIN_LOOK_OF_CAPITALS: Readonly<Record<string, string>> = { Ν: "n", Υ: "y", Η: "h" };

/** Joiners and variation selectors change how letters are drawn together, often not at all. */
const JOINERS = /\u200c|\u200d|[\ufe00-\ufe0f]/gu;

/** What an id looks like at a glance: without case, script, width and leading zeros. Equal looks are worth a warning. */
export function lookAlike(id: string): string {
  const seen = id.normalize("NFKC").replaceAll(JOINERS, "").trim();
  const letters = [...seen].map(latinLook);
  return letters.join("").replaceAll(/(?<!\d)0+(?=\d)/g, "");
}

/** The letters of an id with Latin ones that are of another script and look Latin, each with its script. */
export function foreignLookAlikes(id: string): string[] {
  if (!/\p{Script=Latin}/u.test(id)) return [];
  const foreign = [...id.normalize("NFC")].filter((letter) => latinLook(letter) !== letter.toLowerCase());
  return [...new Set(foreign)].map(
    (letter) => `${/\p{Script=Greek}/u.test(letter) ? "Greek" : "Cyrillic"} ${letter}`,
  );
}

function latinLook(letter: string): string {
  const lower = letter.toLowerCase();
  return LATIN_LOOK_OF_CAPITALS[letter] ?? LATIN_LOOK[lower] ?? lower;
}
