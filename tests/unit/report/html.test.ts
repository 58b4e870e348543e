import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { unseenCharacters } from "../../../src/findings/visible-text.js";
import { element, pageText, tablePart } from "../../../src/report/html/html.js";
import { PAGE_SCRIPT } from "../../../src/report/html/page-script.js";
import { PRINT_STYLE } from "../../../src/report/html/print-style.js";
import { elementsNamed, readMarkup } from "../../tools/read-markup.js";

const pageOf = (...content: Parameters<typeof element>[2][]) =>
  pageText({ title: "t", style: PRINT_STYLE }, ...content);

describe("A page", () => {
  it("shows every text as it is typed, inside elements and attributes", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (typed) => {
        fc.pre(unseenCharacters(typed).length === 0);
        const page = readMarkup(pageOf(element("p", { title: typed }, typed)));
        const [paragraph] = elementsNamed(page, "p");
        expect([paragraph!.text, paragraph!.attributes.title]).toEqual([typed, typed]);
      }),
      { numRuns: 300, seed: 17 },
    );
  });

  it.each([
    `<b>&"'`,
    "<script>alert(1)</script>",
    "&amp;",
    "]]>",
    "東京ライト",
    "e\u0301",
    "👩‍🔧",
    "⚡\ufe0f",
  ])("keeps the name %s", (name) => {
    const page = readMarkup(pageOf(tablePart({ columns: [{ head: name, align: "left" }], rows: [[name]] })));
    expect([elementsNamed(page, "th")[0]!.text, elementsNamed(page, "td")[0]!.text]).toEqual([name, name]);
    expect(elementsNamed(page, "script")).toEqual([]);
  });

  it("shows controls as signs, which a page may not hold", () => {
    expect(element("p", {}, "x\ty\u001b[2J\r\nz").markup).toBe("<p>x␉y␛[2J␍␊z</p>\n");
  });

  it("leaves out what is null, and writes what has no value without one", () => {
    expect(element("td", { class: null, hidden: true, colspan: 2 }, null, ["a", 1]).markup).toBe(
      '<td hidden colspan="2">a1</td>',
    );
  });

  it.each(Object.entries({ PRINT_STYLE, PAGE_SCRIPT }))("knows %s by its digest", (_, { text, digest }) => {
    expect(digest).toBe(createHash("sha256").update(text).digest("base64"));
    expect(text).not.toMatch(/<\/|<!--/u);
  });

  it("needs no file, no network and no script", () => {
    expect(pageOf("x")).not.toMatch(/<script|<link|https?:|@import|url\(/u);
  });
});
