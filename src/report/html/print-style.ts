import type { Known } from "./html.js";

/**
 * The look that all pages share: black on white with hair lines, for A4 and Letter alike, as the paper is left to the printer. Nothing is
 * told by a colour. What stands in `.keep` is not cut by the end of a page, what is a `.sheet` begins one.
 */
const TEXT = `
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 62rem; background: #fff; color: #000; font: 0.9rem/1.35 system-ui, sans-serif; }
h1 { font-size: 1.5rem; margin: 0 0 0.2rem; }
h2 { font-size: 1rem; margin: 1rem 0 0.3rem; border-bottom: 1px solid #000; }
p, ul, dl { margin: 0.3rem 0; }
ul { padding-left: 1.2rem; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; }
th, td { border-bottom: 1px solid #999; padding: 0.15rem 0.6rem 0.15rem 0; text-align: left; vertical-align: top; overflow-wrap: break-word; }
th { border-bottom: 1px solid #000; font-weight: 600; overflow-wrap: normal; }
.number { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }
.facts { display: grid; grid-template-columns: max-content 1fr; column-gap: 1rem; }
.facts dt { font-weight: 600; }
.facts dd { margin: 0; }
@media screen and (max-width: 30rem) { .facts { display: block; } .facts dd { margin: 0 0 0.3rem; } }
.small { font-size: 0.8rem; }
.caution { border: 1px solid #000; padding: 0.4rem 0.6rem; margin-top: 0.8rem; }
.caution h2 { margin-top: 0; border: 0; }
pre { margin: 0.3rem 0; font: 0.8rem/1.3 ui-monospace, monospace; }
.long { min-width: 15rem; }
svg { display: block; }
.sheet + .sheet { border-top: 3px solid #000; margin-top: 2rem; padding-top: 1rem; }
button { font: inherit; color: inherit; background: none; border: 0; padding: 0; text-align: inherit; cursor: pointer; }
td button { text-decoration: underline dotted; }
th[aria-sort="ascending"] button::after { content: " \\25B2"; }
th[aria-sort="descending"] button::after { content: " \\25BC"; }
svg [data-station] { cursor: pointer; }
.marked { outline: 2px solid #000; outline-offset: -2px; }
@media print {
  @page { margin: 12mm; }
  body { max-width: none; padding: 0; font-size: 9.5pt; }
  .sheet + .sheet { border: 0; margin: 0; padding: 0; break-before: page; }
  .wide { overflow: visible; }
  .long { min-width: 0; }
  .breaks { overflow-wrap: anywhere; }
  td button { text-decoration: none; }
  svg { max-width: 100%; height: auto; }
  pre { font-size: 7.5pt; }
  thead { display: table-header-group; }
  tr, .keep, svg { break-inside: avoid; }
  h1, h2 { break-after: avoid; }
}
`;

export const PRINT_STYLE: Known = { text: TEXT, digest: "nD7nXInTUpZcN+cFwG6HZm4H5G9QIJokGNQaikct5Oc=" };
