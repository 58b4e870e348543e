import type { StaffAnswer } from "../../answer/staff/staff-answer.js";
import type { StaffStep } from "../../answer/staff/staff-steps.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Ratio } from "../../time/ratio.js";
import { lengthOf, numberShown, quotientShown, shownDifference, signOf } from "../../time/show-numbers.js";
import { decimal } from "../../time/show-values.js";
import { element, type Html, pictureText } from "./html.js";
import { type Picture, picture, rounded, widthOf } from "./picture.js";

/** In units of the picture: the length of the axis of demand, the most height of people, what one takes at most, and room around. */
const [LENGTH, HIGHEST, EACH, TOP, BESIDE] = [640, 360, 18, 34, 10];
/** A line of text. */
const LINE = 14;

/**
 * People at a time along the demand: a thick line where they are proved least, a thick broken one where they are not; a point for each
 * demand that was asked for. The thin line of dots is what the work content alone takes.
 */
export function staffPicture(answer: StaffAnswer, id = "staff"): Picture {
  const { line, range, rows, steps } = answer;
  const most = Math.max(1, ...steps.map(({ people }) => people ?? 0));
  const each = Math.min(EACH, HIGHEST / most);
  const bottom = TOP + Math.ceil(most * each);
  const left = Math.ceil(widthOf(String(most))) + BESIDE;
  const span = shownDifference(range.to, range.from);
  const x = (units: Ratio): number => {
    const share =
      signOf(span) === 0 ? numberShown("0.5") : quotientShown(shownDifference(units, range.from), span);
    return rounded(left + lengthOf(share, LENGTH * 100) / 100);
  };
  const y = (people: Ratio): number => rounded(bottom - (lengthOf(people, 10_000) / 10_000) * each);
  const staffed = steps.filter(({ people }) => people !== null);
  const points = rows.flatMap(({ demand, people }) =>
    people === null
      ? []
      : element("circle", { cx: x(demand.units), cy: y(whole(people.atATime)), r: 3, fill: "#000" }),
  );
  const work = rows.flatMap(({ demand, byWork }) =>
    byWork === null ? [] : [`${x(demand.units)},${y(byWork.exact)}`],
  );
  const demands = spaced(
    rows.map(({ demand }) => ({ at: x(demand.units), words: decimal(demand.units, 6) })),
    ({ words }) => widthOf(words) + BESIDE,
  );
  const key = keyOf(staffed, work.length > 1, left, bottom + 3 * LINE);
  const period = `good units per ${range.period}`;
  return picture(
    {
      id,
      name: `People of ${visibleText(line.name)} as demand moves`,
      width: Math.ceil(Math.max(left + LENGTH + BESIDE + 20, left + key.width)),
      height: bottom + 3 * LINE + BESIDE,
    },
    null,
    [
      {
        bottom,
        drawn: [
          pictureText(0, LINE, "people at a time"),
          peopleAxis(staffed, y, left),
          element("path", {
            d: `M${left} ${TOP - 6}V${bottom}H${left + LENGTH}`,
            fill: "none",
            stroke: "#000",
          }),
          demands.map(({ at, words }) => [
            element("line", { x1: at, y1: bottom, x2: at, y2: bottom + 4, stroke: "#000" }),
            pictureText(at, bottom + LINE + 2, words, { "text-anchor": "middle" }),
          ]),
          pictureText(left + LENGTH, bottom + 2 * LINE + 2, period, { "text-anchor": "end" }),
          work.length < 2
            ? null
            : element("polyline", {
                points: work.join(" "),
                fill: "none",
                stroke: "#000",
                "stroke-dasharray": "1 3",
              }),
          staffed.map((step) => stepOf(step, x, y, range.period)),
          points,
          key.drawn,
        ],
      },
    ],
  );
}

const whole = (count: number): Ratio => numberShown(String(count));

/** The people of every step beside the axis, as far as there is room for their numbers. */
function peopleAxis(steps: readonly StaffStep[], y: (people: Ratio) => number, left: number): Html[] {
  const marks = [...new Set(steps.map(({ people }) => people!))].map((people) => ({
    at: y(whole(people)),
    words: String(people),
  }));
  return spaced(marks, () => LINE).map(({ at, words }) =>
    element(
      "g",
      {},
      element("line", { x1: left, y1: at, x2: left + LENGTH, y2: at, stroke: "#999", "stroke-width": 0.5 }),
      pictureText(left - BESIDE / 2, at + 4, words, { "text-anchor": "end" }),
    ),
  );
}

/** Those marks of a row that keep a distance, the first of them always. */
function spaced<Mark extends { readonly at: number }>(
  marks: readonly Mark[],
  room: (mark: Mark) => number,
): Mark[] {
  const kept: Mark[] = [];
  for (const mark of marks) {
    const last = kept.at(-1);
    if (last === undefined || Math.abs(mark.at - last.at) >= (room(mark) + room(last)) / 2) kept.push(mark);
  }
  return kept;
}

/** A step as a line; one of a single demand is as wide as it is thick. */
function stepOf(
  { people, from, to, outcome }: StaffStep,
  x: (units: Ratio) => number,
  y: (people: Ratio) => number,
  period: string,
): Html {
  const at = y(whole(people!));
  const [start, end] = [x(from), x(to)];
  const demands =
    signOf(shownDifference(to, from)) === 0 ? decimal(from, 6) : `${decimal(from, 6)} to ${decimal(to, 6)}`;
  return element(
    "g",
    {},
    element("title", {}, `${people} people for ${demands} per ${period}, ${outcome}`),
    element("line", {
      class: "step",
      x1: start === end ? rounded(start - 1.5) : start,
      y1: at,
      x2: start === end ? rounded(end + 1.5) : end,
      y2: at,
      stroke: "#000",
      "stroke-width": 3,
      "stroke-dasharray": outcome === "proved" ? null : "4 2",
    }),
  );
}

/** What the lines that occur mean, side by side. */
function keyOf(steps: readonly StaffStep[], hasWork: boolean, left: number, y: number) {
  const entries = [
    ...(steps.some(({ outcome }) => outcome === "proved")
      ? [{ words: "proved least", width: 3, dashes: null }]
      : []),
    ...(steps.some(({ outcome }) => outcome !== "proved")
      ? [{ words: "found; fewer are not ruled out", width: 3, dashes: "4 2" }]
      : []),
    ...(hasWork ? [{ words: "by work content alone", width: 1, dashes: "1 3" }] : []),
  ];
  let x = left;
  const drawn = entries.map(({ words, width, dashes }) => {
    const line = element("line", {
      x1: x,
      y1: y - 4,
      x2: x + 20,
      y2: y - 4,
      stroke: "#000",
      "stroke-width": width,
      "stroke-dasharray": dashes,
    });
    const text = pictureText(x + 26, y, words);
    x = Math.ceil(x + 26 + widthOf(words) + 2 * BESIDE);
    return element("g", {}, line, text);
  });
  return { drawn, width: x - left };
}
