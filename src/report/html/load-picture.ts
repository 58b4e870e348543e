import type { KindOfLoad, LoadBar, LoadChart, LoadRow } from "../../answer/charts/load-chart.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Ratio } from "../../time/ratio.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { lengthOf, numberShown, quotientShown } from "../../time/show-numbers.js";
import { percent } from "../../time/show-values.js";
import { benchesLeftOutWords, rowWords } from "../words/chart-words.js";
import { element, type Html, pictureText } from "./html.js";
import { boldWidthOf, fillings, type Picture, picture, rounded, widthOf } from "./picture.js";

/** In units of the picture: the length of the longest bars, the height of bars, of lanes with their gap, and of those of models. */
const [LENGTH, BAR, LANE, THIN] = [640, 16, 19, 9];
/** Below bars of tasks that vary: the room, and what each further mark takes that would lie over another. */
const [BELOW, LEVEL] = [3, 4];
/** Room above the first row for the names of the two lines, between rows, and between what stands side by side. */
const [TOP, GAP, BESIDE] = [36, 7, 12];

/** Which filling tells what; no colour does. */
const FILLINGS: Readonly<Record<KindOfLoad, string | null>> = {
  hands: null,
  walking: "dots",
  machine: "aslant",
};

const KINDS: Readonly<Record<KindOfLoad, string>> = {
  hands: "hands",
  walking: "walking",
  machine: "machine by itself",
};

/**
 * The loads of all stations, one below another as the work flows: tasks end to end against the pace, which is the broken line, and the
 * limit of each station, which is the thick one. Hands are white, walking is dotted, machines are aslant; where models differ each has a
 * thin bar below.
 */
export function loadPicture(chart: LoadChart, id = "loads"): Picture {
  const { line, rows, longest } = chart;
  const show = showTimesIn(line.unit);
  const names = rows.map(({ id: station, people }) => nameOf(station, people));
  const lanes = rows.flatMap((row) => lanesOf(chart, row).map(({ name }) => name));
  const figures = rows.map(({ time, load }) => `${show(time)}, ${percent(load)} of the limit`);
  const nameRoom = Math.ceil(Math.max(0, ...names.map(boldWidthOf))) + BESIDE;
  const left = nameRoom + (lanes.every((name) => name === "") ? 0 : Math.ceil(widest(lanes)) + BESIDE);
  const right = left + LENGTH;
  const at = (share: Ratio) => rounded(left + lengthOf(quotientShown(share, longest), LENGTH * 100) / 100);
  const pace = at(numberShown("1"));
  const heads = [
    pictureText(pace, 12, "pace: all of the working time", { "text-anchor": "end" }),
    pictureText(pace, 26, "thick: limit of the station", { "text-anchor": "end" }),
  ];
  let y = TOP;
  const drawn = rows.map((row, number) => {
    const top = y;
    const parts = lanesOf(chart, row).map((lane) => {
      const marks = inLevels(lane.late.map(({ from, to }) => ({ from: at(from), to: at(to) })));
      const own = element(
        "g",
        {},
        lane.name === ""
          ? null
          : pictureText(left - BESIDE, y + lane.height - 3, lane.name, { "text-anchor": "end" }),
        lane.bars.map((bar) => barOf(chart, row, bar, { y, height: lane.height, id, at })),
        lane.nineInTen === null ? null : whisker(at(lane.bars.at(-1)!.to), at(lane.nineInTen), y),
        marks.map(({ from, to, level }) => mark(from, to, y + lane.height, level)),
      );
      y += lane.height + (LANE - BAR) + roomBelow(marks);
      return own;
    });
    const bottom = y - (LANE - BAR);
    y += GAP;
    const limit = at(row.limitShare);
    const shown = element(
      "g",
      { "data-station": visibleText(row.id) },
      pictureText(0, top + BAR - 4, names[number]!, { "font-weight": "bold" }),
      parts,
      pictureText(right + BESIDE, top + BAR - 4, figures[number]!),
      element("line", {
        x1: limit,
        y1: top - 2,
        x2: limit,
        y2: bottom + 2,
        stroke: "#000",
        "stroke-width": 2.5,
      }),
    );
    return { bottom: bottom + 2, drawn: number === 0 ? [heads, shown] : shown };
  });
  const key = keyOf(rows, left, y + 4, id);
  const benches = benchesLeftOutWords(chart);
  const end = y + (benches === null ? 24 : 24 + LANE);
  const below = benches === null ? null : pictureText(left, y + 13 + LANE, benches);
  const widths = [right + BESIDE + widest(figures), left + key.width, left + widthOf(benches ?? "")];
  return picture(
    {
      id,
      name: `Loads of the stations of ${visibleText(line.name)}`,
      width: Math.ceil(Math.max(...widths) + 2),
      height: end,
    },
    fillings(id),
    [...drawn, { bottom: end, drawn: [key.drawn, below] }],
    [
      element("line", { x1: pace, y1: 30, x2: pace, y2: y, stroke: "#000", "stroke-dasharray": "4 3" }),
      element("line", { x1: left, y1: TOP - 4, x2: left, y2: y, stroke: "#000" }),
    ],
  );
}

interface Lane {
  readonly name: string;
  readonly height: number;
  readonly bars: readonly (LoadBar | { readonly to: Ratio })[];
  readonly nineInTen: Ratio | null;
  readonly late: LoadRow["lanes"][number]["late"];
}

/** Lanes have names where a station has several. */
function lanesOf({ line }: LoadChart, { lanes, models }: LoadRow): Lane[] {
  const isAlone = lanes.length === 1 && models.length === 0;
  return [
    ...lanes.map(({ of, bars, nineInTen, late }) => ({
      name: isAlone ? "" : of.kind === "machines" ? "machines" : rowWords(line, of),
      height: BAR,
      bars,
      nineInTen,
      late,
    })),
    ...models.map(({ model, share }) => ({
      name: visibleText(line.models[model]!.id),
      height: THIN,
      bars: [{ to: share }],
      nineInTen: null,
      late: [],
    })),
  ];
}

interface Where {
  readonly y: number;
  readonly height: number;
  readonly id: string;
  readonly at: (share: Ratio) => number;
}

/** A task with its id where that has room, else its turn; who points at it is told all of it. */
function barOf(
  { line }: LoadChart,
  { id: station, tasks }: LoadRow,
  bar: Lane["bars"][number],
  { y, height, id, at }: Where,
): Html {
  const x = at("from" in bar ? bar.from : numberShown("0"));
  const width = rounded(at(bar.to) - x);
  const filling = "kind" in bar ? FILLINGS[bar.kind] : null;
  const fill = filling === null ? ("kind" in bar ? "#fff" : "#ccc") : `url(#${id}-${filling})`;
  const shape = { x, y, width, height, fill, stroke: "#000", "stroke-width": 0.8 };
  if (!("kind" in bar)) return element("rect", shape);
  const { id: task, name, variation } = line.tasks[bar.task]!;
  const known = visibleText(task);
  const varies =
    variation === null ? "" : `; its time varies by ${percent(variation.cv)} (standard deviation)`;
  const told = `${station}: ${known}${name === null ? "" : `, ${visibleText(name)}`} (${KINDS[bar.kind]}${varies})`;
  const turn = String(tasks.indexOf(bar.task) + 1);
  const shown = bar.kind === "hands" ? ([known, turn].find((each) => widthOf(each) + 4 <= width) ?? "") : "";
  const words =
    shown === ""
      ? null
      : pictureText(rounded(x + width / 2), y + BAR - 4, shown, { "text-anchor": "middle" });
  return element("g", {}, element("title", {}, told), element("rect", shape), words);
}

/** From the mean, which is the end of the bars, to what nine units in ten take no longer than. */
const whisker = (from: number, to: number, y: number): Html =>
  element("path", {
    class: "whisker",
    d: `M${from} ${y + BAR / 2}H${to}M${to} ${y + 3}V${y + BAR - 3}`,
    fill: "none",
    stroke: "#000",
    "stroke-width": 1.5,
  });

interface Mark {
  readonly from: number;
  readonly to: number;
  /** From 0, the nearest to its bar. */
  readonly level: number;
}

/** Marks in order of work, each on the first level on which it lies over no other. */
function inLevels(marks: readonly Omit<Mark, "level">[]): Mark[] {
  const ends: number[] = [];
  return marks.map(({ from, to }) => {
    const free = ends.findIndex((end) => end + LEVEL < from);
    const level = free < 0 ? ends.length : free;
    ends[level] = to;
    return { from, to, level };
  });
}

const roomBelow = (marks: readonly Mark[]): number =>
  marks.length === 0 ? 0 : BELOW + LEVEL * Math.max(...marks.map(({ level }) => level));

/** From the foot of the bar of a task, at its end, to what nine units in ten of it take no longer than. */
const mark = (from: number, to: number, foot: number, level: number): Html => {
  const y = foot + BELOW + LEVEL * level;
  return element("path", {
    class: "mark",
    d: `M${from} ${foot}V${y}H${to}M${to} ${y - 2}V${y + 2}`,
    fill: "none",
    stroke: "#000",
  });
};

/** What the fillings that occur mean, the whisker and the marks. */
function keyOf(rows: readonly LoadRow[], left: number, y: number, id: string) {
  const seen = new Set(
    rows.flatMap(({ lanes }) => lanes.flatMap(({ bars }) => bars.map(({ kind }) => kind))),
  );
  const kinds = (Object.keys(KINDS) as KindOfLoad[]).filter((kind) => seen.has(kind));
  const entries: { words: string; fill: string | null; isMark?: boolean }[] = [
    ...kinds.map((kind) => {
      const filling = FILLINGS[kind];
      return { words: KINDS[kind], fill: filling === null ? "#fff" : `url(#${id}-${filling})` };
    }),
    ...(rows.some(({ models }) => models.length > 0)
      ? [{ words: "busiest person on a unit of the model", fill: "#ccc" }]
      : []),
    ...(rows.some(({ lanes }) => lanes.some(({ nineInTen }) => nineInTen !== null))
      ? [{ words: "nine units in ten take no longer", fill: null }]
      : []),
    ...(rows.some(({ lanes }) => lanes.some(({ late }) => late.length > 0))
      ? [{ words: "the same of a task alone", fill: null, isMark: true }]
      : []),
  ];
  let x = left;
  const drawn = entries.map(({ words, fill, isMark = false }) => {
    const box =
      fill === null
        ? isMark
          ? mark(x, x + 18, y + 2, 0)
          : whisker(x, x + 18, y - 2)
        : element("rect", { x, y, width: 18, height: 11, fill, stroke: "#000", "stroke-width": 0.8 });
    const text = pictureText(x + 23, y + 9, words);
    x += 23 + widthOf(words) + 2 * BESIDE;
    return element("g", {}, box, text);
  });
  return { drawn, width: x - left };
}

const nameOf = (station: string, people: number): string =>
  people === 1 ? visibleText(station) : `${visibleText(station)} (${people} people)`;

const widest = (texts: readonly string[]): number => Math.max(0, ...texts.map(widthOf));
