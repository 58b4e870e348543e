import type { ChartBar, StationChart } from "../../answer/show/station-chart.js";
import { visibleText } from "../../findings/visible-text.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { difference, lengthOf, quotientShown } from "../../time/show-numbers.js";
import { letterOf, rowWords } from "../words/chart-words.js";
import { element, type Html, pictureText } from "./html.js";
import { fillings, type Picture, picture, rounded, widthOf } from "./picture.js";

/** In units of the picture: the length of all bars, the heights of rows and bars, and what lies beside them. */
const [BARS, ROW, BAR, BESIDE] = [650, 22, 14, 10];
/** The height of a line of the key. */
const KEY = 16;
/** Where the first row begins. */
const TOP = 20;
/** A bar this wide has room for the letter of its task. */
const ROOM_FOR_LETTER = 10;

/**
 * One unit at one place over time, in black and white: hand work is white with the letter of its task, a machine that runs by itself is
 * hatched, and a line lies where a unit keeps equipment or stands.
 *
 * @param id of the picture on its page
 * @param isAlone what a sheet says beside it stands in the picture: which unit it is, and the tasks by their letters
 */
export function chartPicture(chart: StationChart, id: string, isAlone = false): Picture {
  const { line, rows, length, interval, station } = chart;
  const bottom = TOP + rows.length * ROW;
  const key = isAlone ? keyOf(chart) : [];
  const names = rows.map(({ of }) => rowWords(line, of));
  const left = Math.ceil(Math.max(...names.map(widthOf))) + BESIDE;
  const drawn = rows.map(({ bars }, at) => {
    const y = TOP + at * ROW;
    const shown = bars.filter(({ from, to }) => difference(to, from) > 0);
    return element(
      "g",
      {},
      pictureText(0, y + BAR - 3, names[at]!),
      shown.map((bar) => barOf(bar, { left, y, id })),
    );
  });
  return picture(
    {
      id,
      name: `One unit at ${visibleText(station.id)} over time`,
      width: Math.ceil(Math.max(left + BARS + BESIDE, ...key.map(widthOf))),
      height: bottom + 18 + key.length * KEY,
    },
    fillings(id),
    [
      {
        bottom,
        drawn: [
          difference(length, interval) > 0
            ? nextUnit(left, across(quotientShown(interval, length)), bottom)
            : null,
          element("line", { x1: left, y1: bottom, x2: left + BARS, y2: bottom, stroke: "#000" }),
          pictureText(left, bottom + 13, "0"),
          pictureText(left + BARS, bottom + 13, showTimesIn(line.unit)(length), { "text-anchor": "end" }),
          drawn,
          key.map((words, at) => pictureText(0, bottom + 18 + (at + 1) * KEY - 3, words)),
        ],
      },
    ],
  );
}

/** What is drawn, and the tasks by their letters. */
function keyOf({ line, station, model, tasks }: StationChart): string[] {
  const unit = model === null ? "One unit" : `A unit of ${visibleText(line.models[model]!.id)}`;
  return [
    `${unit} at ${visibleText(station.id)}; strokes aslant: a machine runs by itself.`,
    ...tasks.map(({ task }, at) => {
      const { id: known, name } = line.tasks[task]!;
      return `${letterOf(at)}  ${visibleText(name === null ? known : `${known}, ${name}`)}`;
    }),
  ];
}

/** A share of the whole as a length of the picture, to the nearest hundredth. */
const across = (share: ChartBar["from"]): number => lengthOf(share, BARS * 100) / 100;

function barOf(
  { at, by, from, to }: ChartBar,
  { left, y, id }: { readonly left: number; readonly y: number; readonly id: string },
): Html {
  const [start, end] = [across(from), across(to)];
  const x = rounded(left + start);
  const width = rounded(end - start);
  if (by === "unit")
    return element("line", {
      x1: x,
      y1: y + BAR / 2,
      x2: rounded(left + end),
      y2: y + BAR / 2,
      stroke: "#000",
      "stroke-width": 3,
    });
  const fill = by === "machine" ? `url(#${id}-aslant)` : "#fff";
  const rect = element("rect", { x, y, width, height: BAR, fill, stroke: "#000" });
  if (by === "machine" || width < ROOM_FOR_LETTER) return rect;
  const middle = rounded(x + width / 2);
  return element("g", {}, rect, pictureText(middle, y + BAR - 3, letterOf(at!), { "text-anchor": "middle" }));
}

/** Where the next unit comes while this one still stands. */
const nextUnit = (left: number, start: number, bottom: number): Html =>
  element(
    "g",
    {},
    element("line", {
      x1: rounded(left + start),
      y1: TOP - 4,
      x2: rounded(left + start),
      y2: bottom,
      stroke: "#000",
      "stroke-dasharray": "3 3",
    }),
    pictureText(rounded(left + start), TOP - 8, "next unit", {
      "text-anchor": start > BARS / 2 ? "end" : "start",
    }),
  );
