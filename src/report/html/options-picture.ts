import type { Comparison } from "../../answer/compare/compare-options.js";
import type { RowOfFigures } from "../../answer/compare/rows.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Ratio } from "../../time/ratio.js";
import { difference, lengthOf, numberShown, quotientShown, signOf } from "../../time/show-numbers.js";
import { type Cell, cellRows, signWords, titleOf } from "../compare-cells.js";
import { element, pictureText } from "./html.js";
import { fillings, type Picture, picture, rounded, type Stretch, widthOf } from "./picture.js";

/** In units of the picture: the length of the longest bar of a figure, the heights of a heading and of a bar with its gap, and what lies beside. */
const [LENGTH, HEAD, BAR, LANE, BESIDE] = [420, 20, 13, 17, 10];
const ZERO = numberShown("0");

/**
 * Options side by side: for each figure of which less or more is better a bar an option, as long as its value is of the largest of the
 * figure. The best of a figure is aslant and has its sign; what is not known has words in place of a bar.
 */
export function optionsPicture(comparison: Comparison, id = "options"): Picture {
  const names = comparison.options.map(({ asked }) => visibleText(asked.name));
  const left = Math.ceil(Math.max(...names.map(widthOf))) + BESIDE;
  const figures = cellRows(comparison).flatMap(({ label, cells, of }) =>
    of === null || of.best === null || !of.values.some((_, at) => isDrawn(of, at))
      ? []
      : [{ label, cells, of }],
  );
  const told = figures.flatMap(({ cells }) => cells.map((cell) => widthOf(wordsOf(cell))));
  const signs = signWords(comparison, "✓");
  let top = 0;
  const stretches = figures.map(({ label, cells, of }): Stretch => {
    const first = top + HEAD;
    top = first + cells.length * LANE + 4;
    const most = of.values.reduce(
      (one: Ratio, two) => (two !== null && difference(two, one) > 0 ? two : one),
      ZERO,
    );
    return {
      bottom: top,
      drawn: [
        pictureText(0, first - 6, `${label}; ${of.best === "least" ? "less" : "more"} is better`, {
          "font-weight": "bold",
        }),
        cells.map((cell, at) => {
          const y = first + at * LANE;
          const width = lengthIn(of, at, most);
          const isBest = of.isBest[at]!;
          return element(
            "g",
            {},
            pictureText(0, y + BAR - 3, names[at]!),
            element("rect", {
              class: "figure",
              x: left,
              y,
              width,
              height: BAR,
              fill: isBest ? `url(#${id}-aslant)` : "#fff",
              stroke: "#000",
              "stroke-width": 0.8,
            }),
            pictureText(rounded(left + width + BESIDE), y + BAR - 3, wordsOf(cell)),
          );
        }),
      ],
    };
  });
  const key =
    signs === ""
      ? []
      : signs.split("; ").map((each) => each.replace("✓ the best of its row", "aslant and ✓: the best"));
  const bottom = top + key.length * LANE + 4;
  return picture(
    {
      id,
      name: `Options of ${visibleText(titleOf(comparison))} side by side`,
      width: Math.ceil(Math.max(left + LENGTH + 2 * BESIDE + Math.max(0, ...told), ...key.map(widthOf))),
      height: bottom,
    },
    fillings(id),
    [
      ...stretches,
      { bottom, drawn: key.map((words, at) => pictureText(0, top + (at + 1) * LANE - 4, words)) },
    ],
  );
}

const wordsOf = ({ value, difference: change, isBest }: Cell): string =>
  visibleText(`${value}${isBest ? " ✓" : ""}${change === "" ? "" : ` (${change})`}`);

const isDrawn = ({ values, isUnstated }: RowOfFigures, at: number): boolean =>
  !isUnstated[at] && signOf(values[at] ?? ZERO) > 0;

/** How long a value is, in the unit of the picture; 0 where it is not known. */
const lengthIn = (row: RowOfFigures, at: number, most: Ratio): number =>
  isDrawn(row, at) ? lengthOf(quotientShown(row.values[at]!, most), LENGTH * 100) / 100 : 0;
