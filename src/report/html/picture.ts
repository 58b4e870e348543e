import stringWidth from "string-width";
import { type Content, element, type Html } from "./html.js";

/** A picture of its own size, in units of which a line of text is 14 high. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly svg: Html;
  /** The same in pieces, none higher than a printed page: without a gap below each other they are the picture. */
  readonly pieces: readonly Html[];
}

/** A part of a picture over its whole width that no end of a page should cut. */
export interface Stretch {
  readonly bottom: number;
  readonly drawn: Content;
  /** What reaches into the next stretch. */
  readonly beyond?: Content;
}

/** A page of Letter paper has this height below a heading, in units of a picture that is as wide as the page or wider. */
const HIGHEST = 840;

/** So wide is a letter of 11 units at most in the fonts that pages are shown in, which are no wider than DejaVu Sans. */
const WIDTHS = new Map(
  Object.entries({ "ijlI'|.,:;/ ": 4.2, "mMW%@": 11.1, "w+<=>^~#&DGHOQNU": 9.3 }).flatMap(
    ([letters, width]) => [...letters].map((letter): [string, number] => [letter, width]),
  ),
);
const [OTHER_LETTER, OTHER_SCRIPT] = [7.6, 9.5];

/** So wide is a text at most; letters that are wide in many scripts count twice. */
export function widthOf(text: string): number {
  const plain = [...text].filter((letter) => letter >= " " && letter <= "~");
  const rest = stringWidth(text) - plain.length;
  return plain.reduce(
    (sum, letter) => sum + (WIDTHS.get(letter) ?? OTHER_LETTER),
    Math.max(0, rest) * OTHER_SCRIPT,
  );
}

/** The same in bold letters. */
export const boldWidthOf = (text: string): number => widthOf(text) * 1.15;

/** To the nearest hundredth of a unit: the same digits everywhere. */
export const rounded = (length: number): number => Math.round(length * 100) / 100;

/**
 * A picture with its name for people who cannot see it; `id` is its own on a page.
 *
 * @param stretches from the top; the last reaches to the height of the picture
 * @param across drawn in every piece: what goes through all stretches
 */
export function picture(
  { id, name, width, height }: { id: string; name: string; width: number; height: number },
  defs: Content,
  stretches: readonly Stretch[],
  across: Content = null,
): Picture {
  const all = stretches.map(({ drawn, beyond = null }) => [drawn, beyond]);
  const frame = { id, name, width, top: 0, bottom: height };
  const groups = groupsOf(stretches, height);
  const pieces = groups.map(({ first, end, top, bottom }, at) => {
    const number = at === 0 ? "" : `-${at + 1}`;
    const named = groups.length === 1 ? name : `${name}, part ${at + 1} of ${groups.length}`;
    return svgOf(
      { id: `${id}${number}`, name: named, width, top, bottom },
      at === 0 ? defs : null,
      across,
      stretches[first - 1]?.beyond ?? null,
      all.slice(first, end),
    );
  });
  return { width, height, svg: svgOf(frame, defs, across, all), pieces };
}

/** Stretches that fit on a page together, with the heights that they reach from and to. */
function groupsOf(stretches: readonly Stretch[], height: number) {
  const groups: { first: number; end: number; top: number; bottom: number }[] = [];
  for (const [at, stretch] of stretches.entries()) {
    const bottom = at === stretches.length - 1 ? height : stretch.bottom;
    const last = groups.at(-1);
    if (last !== undefined && bottom - last.top <= HIGHEST) Object.assign(last, { end: at + 1, bottom });
    else groups.push({ first: at, end: at + 1, top: last?.bottom ?? 0, bottom });
  }
  return groups;
}

function svgOf(
  { id, name, width, top, bottom }: { id: string; name: string; width: number; top: number; bottom: number },
  ...content: readonly Content[]
): Html {
  return element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      width,
      height: bottom - top,
      viewBox: `0 ${top} ${width} ${bottom - top}`,
      role: "img",
      "aria-labelledby": `${id}-name`,
      "font-family": "system-ui, sans-serif",
      "font-size": 11,
    },
    element("title", { id: `${id}-name` }, name),
    content,
  );
}

/** The picture as a file of its own. */
export const svgFile = ({ svg }: Picture): string => `<?xml version="1.0" encoding="UTF-8"?>
${svg.markup}
`;

/** Fillings that black-and-white print and every eye can tell apart: strokes aslant, and dots. */
export const fillings = (id: string): Html =>
  element(
    "defs",
    {},
    element(
      "pattern",
      {
        id: `${id}-aslant`,
        width: 5,
        height: 5,
        patternUnits: "userSpaceOnUse",
        patternTransform: "rotate(45)",
      },
      element("rect", { width: 5, height: 5, fill: "#fff" }),
      element("line", { x1: 0, y1: 0, x2: 0, y2: 5, stroke: "#000", "stroke-width": 1.5 }),
    ),
    element(
      "pattern",
      { id: `${id}-dots`, width: 4, height: 4, patternUnits: "userSpaceOnUse" },
      element("rect", { width: 4, height: 4, fill: "#fff" }),
      element("circle", { cx: 2, cy: 2, r: 0.8, fill: "#000" }),
    ),
  );
