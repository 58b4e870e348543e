import type { StudiedElement } from "../../study/study-elements.js";
import type { ShowTime } from "../../time/show-in-unit.js";
import { columnOf, difference } from "../../time/show-numbers.js";
import { headed, paragraph } from "./sections.js";
import type { Look } from "./style.js";

const LEVELS = 9;
/** Columns of the picture where the report has no end, as in a pipe. */
const USUAL_WIDTH = 100;
/** Columns of a reading. */
const STEP = 2;

/** The readings of an element in the order in which they were taken, the longer the higher: drift and odd ones are seen. */
export function readingsPicture({ name, shown, mean }: StudiedElement, show: ShowTime, look: Look): string {
  // Readings that are left out may be far off: they stand at the edge, so that the others can be told apart.
  const sorted = shown
    .filter(({ isLeftOut }) => !isLeftOut)
    .map(({ time }) => time)
    .sort(difference);
  const [lowest, highest] = [sorted[0]!, sorted.at(-1)!];
  const levelOf = (time: typeof mean) =>
    Math.max(0, Math.min(LEVELS - 1, columnOf(time, lowest, highest, LEVELS)));
  const labels = new Map([
    [levelOf(mean), `mean ${show(mean)}`],
    [0, show(lowest)],
    [levelOf(highest), show(highest)],
  ]);
  const width = Math.max(...[...labels.values()].map((label) => label.length));
  const room = Math.max(
    5,
    Math.floor(((Number.isFinite(look.width) ? look.width : USUAL_WIDTH) - width - 6) / STEP),
  );
  const blocks = Array.from({ length: Math.ceil(shown.length / room) }, (_, block) => {
    const some = shown.slice(block * room, (block + 1) * room);
    const rows = Array.from({ length: levelOf(highest) + 1 }, (_, from) => {
      const level = levelOf(highest) - from;
      const signs = some.map((reading) => (levelOf(reading.time) === level ? signOf(reading) : " "));
      return line((labels.get(level) ?? "").padStart(width), signs);
    });
    const numbers = some.map((_, at) => numberSign(block * room + at + 1));
    return [...rows, line(" ".repeat(width), numbers)].join("");
  });
  const legend = paragraph(
    "• reading, ◆ odd reading, × left out (those beyond the others stand at the edge); every fifth has its number",
    look,
  );
  const title = paragraph(`${name}, in the order in which the readings were taken`, look);
  return headed("readings", `${title}${blocks.join("\n")}${legend}`, look);
}

const line = (label: string, signs: readonly string[]): string =>
  `${`  ${label} │ ${signs.map((sign) => sign.padEnd(STEP)).join("")}`.trimEnd()}\n`;

const signOf = ({ isLeftOut, isOdd }: StudiedElement["shown"][number]): string =>
  isLeftOut ? "×" : isOdd ? "◆" : "•";

const numberSign = (number: number): string => (number % 5 === 0 || number === 1 ? String(number % 100) : "");
