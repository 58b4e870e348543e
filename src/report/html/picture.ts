import stringWidth from "string-width";
import { type Content, element, type Html } from "./html.js";

/** A picture of its own size, in units of which a letter is about 7 wide and a line of text 14 high. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly svg: Html;
}

/** So wide is a text at most; letters that are wide in many scripts count twice. */
export const widthOf = (text: string): number => stringWidth(text) * 7;

/** To the nearest hundredth of a unit: the same digits everywhere. */
export const rounded = (length: number): number => Math.round(length * 100) / 100;

/** A picture with its name for people who cannot see it; `id` is its own on a page. */
export function picture(
  { id, name, width, height }: { id: string; name: string; width: number; height: number },
  ...content: readonly Content[]
): Picture {
  const svg = element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${width} ${height}`,
      // Small pictures are not blown up to the width of a page.
      style: `max-width:${width}px`,
      role: "img",
      "aria-labelledby": `${id}-name`,
      "font-family": "system-ui, sans-serif",
      "font-size": 11,
    },
    element("title", { id: `${id}-name` }, name),
    content,
  );
  return { width, height, svg };
}

/** The picture as a file of its own. */
export const svgFile = ({ svg, width, height }: Picture): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n${svg.markup.replace("<svg ", `<svg width="${width}" height="${height}" `)}\n`;

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
