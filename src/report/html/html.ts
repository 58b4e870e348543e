import { visibleText } from "../../findings/visible-text.js";
import type { PlainTable } from "../plain-table.js";

/** Markup that may stand on a page as it is: made by `element` alone, so that every text in it is escaped. */
export interface Html {
  readonly markup: string;
}

/** What stands inside an element: text is escaped, null and lists that are empty are nothing. */
export type Content = Html | string | number | null | readonly Content[];

/** Attributes by name; null is left out, true has no value. */
export type Attributes = Readonly<Record<string, string | number | true | null>>;

/** Elements without content, which have no end. */
const VOID = new Set(["br", "col", "hr", "img", "link", "meta"]);

/** Elements of SVG that seldom have content and may end themselves. */
const SELF_CLOSING = new Set(["circle", "line", "path", "polygon", "polyline", "rect", "use"]);

/** Elements that end a line of the source, so that pages can be compared by lines. */
const LINES = new Set(
  "aside dd div dl dt figure footer g h1 h2 h3 header li main nav p section svg table tbody thead tr ul".split(
    " ",
  ),
);

/** An element of HTML, or of SVG inside it, with what it contains. */
export function element(name: string, attributes: Attributes = {}, ...content: readonly Content[]): Html {
  const given = Object.entries(attributes)
    .map(([key, value]) => (value === null ? "" : value === true ? ` ${key}` : ` ${key}="${escaped(value)}"`))
    .join("");
  const inside = markupOf(content);
  if (VOID.has(name)) return { markup: `<${name}${given}>` };
  if (inside === "" && SELF_CLOSING.has(name)) return { markup: `<${name}${given}/>` };
  return { markup: `<${name}${given}>${inside}</${name}>${LINES.has(name) ? "\n" : ""}` };
}

function markupOf(content: Content): string {
  if (content === null) return "";
  if (typeof content === "string" || typeof content === "number") return escaped(content);
  return "markup" in content ? content.markup : content.map(markupOf).join("");
}

const ESCAPES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Text that is read as it is typed, inside an element and inside the quotes of an attribute; controls are made visible. */
const escaped = (text: string | number): string =>
  visibleText(String(text)).replace(/[&<>"']/gu, (sign) => ESCAPES[sign]!);

/** A table that may be moved sideways where it is too wide: its heads are repeated on every printed page, and no row is cut by the end of one. */
export function tablePart({ columns, rows, rowsOf }: PlainTable): Html {
  const isLong = columns.map((_, at) => rows.some((row) => (row[at] ?? "").length > LONG));
  const classOf = (at: number) => ({
    class: columns[at]!.align === "right" ? "number" : isLong[at] ? "long" : null,
  });
  const heads = columns.map(({ head }, at) => element("th", { scope: "col", ...classOf(at) }, head));
  const body = rows.map((row) =>
    element(
      "tr",
      { "data-station": rowsOf === "stations" ? row[0]! : null },
      row.map((cell, at) => element("td", classOf(at), breakable(cell))),
    ),
  );
  return widePart(
    "table",
    element(
      "table",
      { "data-sorts": rowsOf === undefined ? null : "" },
      element("thead", {}, element("tr", {}, heads)),
      element("tbody", {}, body),
    ),
  );
}

/** Longer words without a hyphen may be broken on paper, so that their table is no wider than it; no others are. */
const LONG_WORD = /([^\s-]{17,})/u;

const breakable = (text: string): Content =>
  text.split(LONG_WORD).map((part, at) => (at % 2 === 0 ? part : element("span", { class: "breaks" }, part)));

/** A column with longer text keeps a width in which that can be read, however narrow the screen. */
const LONG = 24;

/** What may be moved sideways where it is too wide for the screen, by the keys too. */
export const widePart = (what: string, ...content: readonly Content[]): Html =>
  element("div", { class: "wide", tabindex: 0, role: "group", "aria-label": what }, ...content);

/** A list of points. */
export const listPart = (points: readonly string[]): Html =>
  element(
    "ul",
    {},
    points.map((each) => element("li", {}, each)),
  );

/** Text in columns as a terminal shows it, line by line. */
export const columnsPart = (text: string): Html => {
  const lines = text.split("\n").map(escaped).join("\n");
  return widePart("text in columns", { markup: `<pre>${lines}</pre>` });
};

/** A text in a picture, at a point of its own unit; it can be marked and found on the page as any other. */
export const pictureText = (x: number, y: number, words: string, attributes: Attributes = {}): Html =>
  element("text", { x, y, ...attributes }, words);

/** A style or script of a page, with the base64 of its SHA-256, by which the page lets it and nothing else in. */
export interface Known {
  readonly text: string;
  readonly digest: string;
}

/** A whole page that needs nothing else: no file, no network, and its script only for what goes beyond reading. */
export function pageText(
  {
    title,
    style,
    script = null,
    language = "en",
  }: {
    readonly title: string;
    readonly style: Known;
    readonly script?: Known | null;
    readonly language?: string;
  },
  ...body: readonly Content[]
): string {
  const head = element(
    "head",
    {},
    element("meta", { charset: "utf-8" }),
    element("meta", { "http-equiv": "Content-Security-Policy", content: letting(style, script) }),
    element("meta", { name: "viewport", content: "width=device-width, initial-scale=1" }),
    element("title", {}, title),
    { markup: `<style>${style.text}</style>` },
  );
  const last = script === null ? null : { markup: `<script>${script.text}</script>\n` };
  const parts = [head, element("body", {}, ...body, last)].map(({ markup }) => `${markup}\n`).join("");
  return `<!DOCTYPE html>\n<html lang="${escaped(language)}">\n${parts}</html>\n`;
}

/** The policy (W3C Content Security Policy Level 3) under which a browser loads nothing, and applies and runs only what is known. */
function letting(style: Known, script: Known | null): string {
  const ran = script === null ? "" : `; script-src 'sha256-${script.digest}'`;
  return `default-src 'none'; style-src 'sha256-${style.digest}'${ran}; base-uri 'none'; form-action 'none'`;
}
