import type { OrderChart } from "../../answer/charts/order-chart.js";
import { visibleText } from "../../findings/visible-text.js";
import { element, type Html, pictureText } from "./html.js";
import { boldWidthOf, type Picture, picture, rounded, widthOf } from "./picture.js";

/** In units of the picture: the height of a box, the gap between bands for arrows, and what an arrow takes that passes a band. */
const [BOX, GAP, PASSING] = [22, 34, 6];
/** Space between what stands in a band, inside a box at either side of its words, and around all. */
const [SPACE, INSIDE, EDGE] = [12, 8, 8];
/** Bands move sideways within this width, or that of the widest. */
const ROOM = 640;
/** An arrow that passes more bands is told in words at its end: no eye follows it, and a long line would be full of them. */
const FAR = 60;
/** So often the bands are gone through, there and back, to put what belongs together below each other. */
const SWEEPS = 6;

/** What takes room in a band: a task, or an arrow that passes to a later band. */
interface Slot {
  /** Null where an arrow passes. */
  readonly task: number | null;
  readonly words: string;
  readonly band: number;
  /** Its turn among the tasks of the band. */
  readonly turn: number;
  readonly width: number;
  /** Of its middle. */
  x: number;
  readonly above: Slot[];
  readonly below: Slot[];
}

/** Bands of slots, each from the left. */
type Bands = readonly Slot[][];

/**
 * The order of work by station: a band each, one below another along the line, with its tasks in order of work from the left, and arrows
 * from what must be done to what waits for it. Benches have a broken frame; a task that moved has a thick one and says where it was.
 */
export function orderPicture(chart: OrderChart, id = "order"): Picture {
  const { line, columns } = chart;
  const bands = bandsOf(chart);
  settle(bands);
  const names = columns.map(({ id: name }) => visibleText(name));
  const left = Math.ceil(Math.max(0, ...names.map(boldWidthOf))) + 2 * SPACE;
  const slots = bands.flat();
  for (const slot of slots) slot.x = rounded(slot.x + left + SPACE);
  // Folded, as arrows that pass bands of a long line are more than a call takes.
  const right = slots.reduce((most, { x, width }) => Math.max(most, x + width / 2), left) + SPACE;
  const frames = columns.map(({ kind }, at) =>
    element(
      "g",
      { "data-station": names[at]! },
      pictureText(0, middleOf(at) + 4, names[at]!, { "font-weight": "bold" }),
      element("rect", {
        x: left,
        y: middleOf(at) - BOX / 2 - 6,
        width: Math.ceil(right - left),
        height: BOX + 12,
        fill: "none",
        stroke: "#999",
        "stroke-dasharray": kind === "bench" ? "5 4" : null,
      }),
    ),
  );
  const size = { width: Math.ceil(right) + EDGE, height: middleOf(columns.length - 1) + BOX / 2 + 6 + EDGE };
  return picture(
    { id, name: `Order of work of ${visibleText(line.name)} by station`, ...size },
    element(
      "defs",
      {},
      element(
        "marker",
        {
          id: `${id}-head`,
          viewBox: "0 0 8 8",
          refX: 8,
          refY: 4,
          markerWidth: 6,
          markerHeight: 6,
          orient: "auto",
        },
        element("path", { d: "M0 0L8 4L0 8z" }),
      ),
    ),
    bands.map((slots, band) => {
      const arrows = (isBeyond: boolean) =>
        slots.flatMap((slot) =>
          slot.below
            .filter((next) => (next.band !== band) === isBeyond)
            .map((next) => arrowBetween(slot, next, bands, id)),
        );
      const boxes = slots.flatMap((slot) => (slot.task === null ? [] : [boxOf(chart, slot, slot.task)]));
      return {
        bottom: middleOf(band) + (BOX + GAP) / 2,
        drawn: [frames[band]!, arrows(false), boxes],
        beyond: arrows(true),
      };
    }),
  );
}

/** The height at which a band has its middle. */
const middleOf = (band: number): number => EDGE + 6 + BOX / 2 + band * (BOX + GAP);

/** The id of a task, with the station it came from where it moved, and the tasks far up the line that it waits for. */
function wordsOf({ line, movedFrom }: OrderChart, task: number, far: readonly number[]): string {
  const was = movedFrom.get(task);
  const idOf = (each: number) => visibleText(line.tasks[each]!.id);
  const from = was === undefined ? "" : ` (from ${visibleText(was)})`;
  return `${idOf(task)}${from}${far.length === 0 ? "" : `, after ${far.map(idOf).join(", ")}`}`;
}

/** A slot for each task, and one in every band that an arrow passes. */
function bandsOf(chart: OrderChart): Bands {
  const bandOf = new Map(chart.columns.flatMap(({ tasks }, band) => tasks.map((task) => [task, band])));
  const isFar = ({ from, to }: OrderChart["arrows"][number]) => bandOf.get(to)! - bandOf.get(from)! > FAR;
  const farArrows = chart.arrows.filter(isFar);
  const farBefore = new Map(farArrows.map(({ to }) => [to, [] as number[]]));
  for (const { from, to } of farArrows) farBefore.get(to)!.push(from);
  const bands: Slot[][] = chart.columns.map(({ tasks }, band) =>
    tasks.map((task, turn) => {
      const words = wordsOf(chart, task, farBefore.get(task) ?? []);
      return { task, words, band, turn, width: widthOf(words) + 2 * INSIDE, x: 0, above: [], below: [] };
    }),
  );
  const slotOf = new Map(bands.flat().map((slot) => [slot.task, slot]));
  for (const arrow of chart.arrows) {
    const [first, last] = [slotOf.get(arrow.from), slotOf.get(arrow.to)];
    if (first === undefined || last === undefined || isFar(arrow)) continue;
    let before = first;
    for (let band = first.band + 1; band < last.band; band++) {
      const passing: Slot = {
        task: null,
        words: "",
        band,
        turn: 0,
        width: PASSING,
        x: 0,
        above: [before],
        below: [],
      };
      before.below.push(passing);
      bands[band]!.push(passing);
      before = passing;
    }
    before.below.push(last);
    last.above.push(before);
  }
  return bands;
}

/** Tasks stay in order of work; arrows pass where they come from and go to, and bands stand below what they wait for. */
function settle(bands: Bands): void {
  for (const band of bands) stack(band);
  const room = Math.max(ROOM, ...bands.map(widthOfBand));
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    const isDown = sweep % 2 === 0;
    for (const band of isDown ? bands : bands.toReversed())
      place(
        band,
        new Map(band.map((slot) => [slot, wantedAt(slot, isDown ? slot.above : slot.below)])),
        room,
      );
  }
  const slots = bands.flat();
  const first = slots.reduce(
    (least, { x, width }) => Math.min(least, x - width / 2),
    Number.POSITIVE_INFINITY,
  );
  for (const slot of slots) slot.x -= first;
}

/** Below, or above, the middle of its neighbours in other bands; where it is, without any. */
function wantedAt(slot: Slot, neighbours: readonly Slot[]): number {
  const others = neighbours.filter(({ band }) => band !== slot.band);
  return others.length === 0 ? slot.x : others.reduce((sum, { x }) => sum + x, 0) / others.length;
}

/** Passing arrows go in between the tasks where they are nearest to what they want; then the band moves as near to it as it can. */
function place(band: Slot[], wanted: ReadonlyMap<Slot, number>, room: number): void {
  const tasks = band.filter(({ task }) => task !== null).sort((one, two) => one.turn - two.turn);
  const passing = band
    .filter(({ task }) => task === null)
    .sort((one, two) => wanted.get(one)! - wanted.get(two)!);
  const order: Slot[] = [];
  for (const task of tasks) {
    while (passing.length > 0 && wanted.get(passing[0]!)! < wanted.get(task)!) order.push(passing.shift()!);
    order.push(task);
  }
  band.splice(0, band.length, ...order, ...passing);
  stack(band);
  const nearest = band.reduce((sum, slot) => sum + wanted.get(slot)! - slot.x, 0) / Math.max(1, band.length);
  const shift = Math.max(0, Math.min(room - widthOfBand(band), nearest));
  for (const slot of band) slot.x += shift;
}

const widthOfBand = (band: readonly Slot[]): number =>
  band.reduce((sum, { width }) => sum + width + SPACE, 0);

function stack(band: readonly Slot[]): void {
  let x = 0;
  for (const slot of band) {
    slot.x = x + slot.width / 2;
    x += slot.width + SPACE;
  }
}

function boxOf(chart: OrderChart, { x, band, width, words }: Slot, task: number): Html {
  const { name } = chart.line.tasks[task]!;
  const y = middleOf(band);
  return element(
    "g",
    {},
    name === null ? null : element("title", {}, visibleText(name)),
    element("rect", {
      x: rounded(x - width / 2),
      y: y - BOX / 2,
      width: rounded(width),
      height: BOX,
      fill: "#fff",
      stroke: "#000",
      "stroke-width": chart.movedFrom.has(task) ? 2.5 : 1,
    }),
    pictureText(x, y + 4, words, { "text-anchor": "middle" }),
  );
}

/** Down to the next band; to a neighbour in the same one straight, to another over what lies between. */
function arrowBetween(from: Slot, to: Slot, bands: Bands, id: string): Html {
  return element("path", {
    d: from.band === to.band ? besides(from, to, bands[from.band]!) : down(from, to),
    fill: "none",
    stroke: "#000",
    "stroke-width": 0.8,
    "marker-end": to.task === null ? null : `url(#${id}-head)`,
  });
}

function besides(from: Slot, to: Slot, band: readonly Slot[]): string {
  const y = middleOf(from.band);
  const start = rounded(from.x + from.width / 2);
  if (band.indexOf(to) === band.indexOf(from) + 1) return `M${start} ${y}H${rounded(to.x - to.width / 2)}`;
  const top = y - BOX / 2;
  return `M${from.x} ${top}C${from.x} ${top - 14} ${to.x} ${top - 14} ${to.x} ${top}`;
}

/** From the foot of a box, or from the head of the band that the arrow passes, to the head of the next. */
function down(from: Slot, to: Slot): string {
  const [start, end] = [middleOf(from.band) + BOX / 2, middleOf(to.band) - BOX / 2];
  const middle = (start + end) / 2;
  const passes = from.task === null ? `M${from.x} ${start - BOX}V${start}` : `M${from.x} ${start}`;
  return `${passes}C${from.x} ${middle} ${to.x} ${middle} ${to.x} ${end}`;
}
