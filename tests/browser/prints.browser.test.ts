import type { Browser } from "playwright-core";
import { extractText, getDocumentProxy } from "unpdf";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { DEMO, LARGE, reportOf, SMALL, write } from "./demo-pages.js";
import { brokenWords } from "./look-at-page.js";
import { openBrowser } from "./open-browser.js";

/** Paper with the width and height inside margins of 12 mm, in CSS pixels of 1/96 inch, rounded down. */
const PAPERS = [
  { format: "A4", width: 703, height: 1031 },
  { format: "Letter", width: 725, height: 965 },
] as const;

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

const packed = (text: string): string => text.replaceAll(/\s+/gu, "");

/** A page printed: the text of every sheet of paper without blanks, and what the browser knows of the page at that width. */
async function print(html: string, { format, width, height }: (typeof PAPERS)[number]) {
  const page = await browser.newPage({ viewport: { width, height } });
  await page.setContent(html);
  await page.emulateMedia({ media: "print" });
  const broken = await page.evaluate(brokenWords);
  const known = await page.evaluate(() => ({
    width: document.documentElement.scrollWidth,
    heights: [...document.querySelectorAll("svg")].map((each) => each.getBoundingClientRect().height),
    rows: [...document.querySelectorAll("tr, pre, li")].flatMap((row) =>
      row.localName === "pre" ? (row.textContent ?? "").split("\n") : [row.textContent ?? ""],
    ),
    words: [...document.querySelectorAll("svg text")].map((each) => each.textContent ?? ""),
    // What a sheet is of, and of which plan.
    titles: [...document.querySelectorAll(".sheet > h1")].map(
      (each) => `${each.textContent}${each.nextElementSibling?.textContent}`,
    ),
  }));
  const pdf = await page.pdf({ format, preferCSSPageSize: false });
  await page.close();
  const { text } = await extractText(await getDocumentProxy(new Uint8Array(pdf)), { mergePages: false });
  return { ...known, broken, papers: text.map(packed) };
}

/** Rows that no paper holds whole. */
const cutRows = (rows: readonly string[], papers: readonly string[]): string[] =>
  rows.map(packed).filter((row) => !papers.some((paper) => paper.includes(row)));

/** How much paper a report may take, with 200 tasks of the large line whose times vary; a sheet of a station takes one. */
const PAGES = (
  [
    [DEMO, 7],
    [SMALL, 2],
    [LARGE, 20],
  ] as const
).flatMap(([subject, most]) => [
  { what: "report", subject, most, make: () => reportOf(subject) },
  { what: "sheets", subject, most: null, make: () => write(subject, "sheets") },
]);

describe.each(PAGES)("The $what of $subject.name", ({ subject, make, most, what }) => {
  it.each(PAPERS)("prints on $format without a cut row, picture or margin", async (paper) => {
    const { width, broken, heights, rows, words, titles, papers } = await print(await make(), paper);
    expect(width).toBeLessThanOrEqual(paper.width);
    expect(broken).toEqual([]);
    for (const height of heights) expect(height).toBeLessThanOrEqual(paper.height - 60);
    expect(rows.length).toBeGreaterThan(subject === LARGE ? 100 : 4);
    expect(cutRows(rows, papers)).toEqual([]);
    expect(cutRows(words, papers)).toEqual([]);
    // No paper is empty, and each sheet begins one.
    for (const text of papers) expect(text).not.toBe("");
    expect(titles.length > 0).toBe(what === "sheets");
    expect(titles.map((title) => papers.filter((text) => text.startsWith(packed(title))).length)).toEqual(
      titles.map(() => 1),
    );
    expect(papers.length).toBeLessThanOrEqual(most ?? titles.length);
  });
});
