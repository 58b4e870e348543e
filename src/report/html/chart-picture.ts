import type { ChartBar, StationChart } from "../../answer/show/station-chart.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { difference, lengthOf, quotientShown } from "../../time/show-numbers.js";
import { letterOf, rowWords } from "../words/chart-words.js";
import { element, type Html, pictureText } from "./html.js";

/** In units of the picture: the room for names of rows, for bars, and the heights of rows and bars. */
const [NAMES, BARS, ROW, BAR] = [150, 650, 22, 14];
/** Where the first row begins. */
const TOP = 20;
/** A bar this wide has room for the letter of its task. */
const ROOM_FOR_LETTER = 10;
/** So many letters of a name have room beside the bars. */
const LONGEST_NAME = 24;

/**
 * One unit at one place over time, in black and white: hand work is white with the letter of its task, a machine that runs by itself is
 * hatched, and a line lies where a unit keeps equipment or stands.
 *
 * @param id of the picture on its page
 */
export function chartPicture({ line, rows, length, interval, station }: StationChart, id: string): Html {
  const bottom = TOP + rows.length * ROW;
  const drawn = rows.map(({ of, bars }, at) => {
    const y = TOP + at * ROW;
    const name = rowWords(line, of);
    const shown = name.length > LONGEST_NAME ? `${name.slice(0, LONGEST_NAME - 1)}…` : name;
    const shapes = bars.filter(({ from, to }) => difference(to, from) > 0).map((bar) => barOf(bar, y, id));
    return element("g", {}, pictureText(0, y + BAR - 3, shown), shapes);
  });
  return element(
    "svg",
    { viewBox: `0 0 ${NAMES + BARS + 10} ${bottom + 18}`, role: "img", "aria-labelledby": `${id}-name` },
    element("title", { id: `${id}-name` }, `One unit at ${station.id} over time`),
    element(
      "defs",
      {},
      element(
        "pattern",
        {
          id: `${id}-runs`,
          width: 5,
          height: 5,
          patternUnits: "userSpaceOnUse",
          patternTransform: "rotate(45)",
        },
        element("line", { x1: 0, y1: 0, x2: 0, y2: 5, stroke: "#000", "stroke-width": 1.5 }),
      ),
    ),
    difference(length, interval) > 0 ? nextUnit(across(quotientShown(interval, length)), bottom) : null,
    element("line", { x1: NAMES, y1: bottom, x2: NAMES + BARS, y2: bottom, stroke: "#000" }),
    pictureText(NAMES, bottom + 13, "0"),
    pictureText(NAMES + BARS, bottom + 13, showTimesIn(line.unit)(length), { "text-anchor": "end" }),
    drawn,
  );
}

/** A share of the whole as a length of the picture, to the nearest hundredth. */
const across = (share: ChartBar["from"]): number => lengthOf(share, BARS * 100) / 100;

function barOf({ at, by, from, to }: ChartBar, y: number, id: string): Html {
  const [start, end] = [across(from), across(to)];
  const x = Math.round((NAMES + start) * 100) / 100;
  const width = Math.round((end - start) * 100) / 100;
  if (by === "unit")
    return element("line", {
      x1: x,
      y1: y + BAR / 2,
      x2: NAMES + end,
      y2: y + BAR / 2,
      stroke: "#000",
      "stroke-width": 3,
    });
  const fill = by === "machine" ? `url(#${id}-runs)` : "#fff";
  const rect = element("rect", { x, y, width, height: BAR, fill, stroke: "#000" });
  if (by === "machine" || width < ROOM_FOR_LETTER) return rect;
  const middle = Math.round((x + width / 2) * 100) / 100;
  return element("g", {}, rect, pictureText(middle, y + BAR - 3, letterOf(at!), { "text-anchor": "middle" }));
}

/** Where the next unit comes while this one still stands. */
const nextUnit = (start: number, bottom: number): Html =>
  element(
    "g",
    {},
    element("line", {
      x1: NAMES + start,
      y1: TOP - 4,
      x2: NAMES + start,
      y2: bottom,
      stroke: "#000",
      "stroke-dasharray": "3 3",
    }),
    pictureText(NAMES + start, TOP - 8, "next unit", { "text-anchor": start > BARS / 2 ? "end" : "start" }),
  );
