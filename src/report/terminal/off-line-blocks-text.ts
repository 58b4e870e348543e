import type { OffLineAnswer, RatedBlock } from "../../answer/off-line/off-line-answer.js";
import type { OffLinePlan, PeopleCompared } from "../../answer/off-line/plan-with-benches.js";
import type { BenchFigures } from "../../benches/measure-bench.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import { percent } from "../../time/show-values.js";
import { blockWords, setWords } from "../words/rated-words.js";
import { paragraph } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { type Column, formatTable } from "./table.js";

/** Blocks shown to a person; the JSON has them all. */
const SHOWN = 10;

/** Below this many columns the efficiency makes room for the words. */
const ROOM_FOR_EFFICIENCY = 72;

/** Every block with what it changes, the best first. */
export function blocksText(answer: OffLineAnswer, look: Look): string {
  const { blocks, isGuess, ranks } = answer;
  if (blocks === null) return "";
  if (blocks.length === 0) return paragraph(isGuess ? NO_GUESS : NONE, look);
  const rows = blocks.slice(0, SHOWN).map((block) => blockRow(answer, block));
  const more = blocks.length - rows.length;
  const rest = more > 0 ? `${more} more in --json.` : "";
  const order = paragraph(`The best first: by ${ranks.join(", then by ")}.`, look);
  return `${order}${figuresTable(answer, rows, look)}${paragraph(rest, look)}`;
}

const NONE =
  "None: every task works on the base unit, or what does not joins the line at several tasks (--joins-at-several) or at none.";
const NO_GUESS = "None: no part of less than half of the work joins the line at one task.";

/** For each number of benches that may be set up, the best choice. */
export function setsText(answer: OffLineAnswer, look: Look): string {
  const { line, sets, before, benchesAllowed } = answer;
  if (sets === null || benchesAllowed === 1 || sets.length === 0) return "";
  const rows = sets.map((set) => {
    const { plan, isBest, people } = set;
    const benches = plan.benches.map((bench) => benchWords(line, bench)).join(" | ");
    const best = isBest ? "" : " Not proved best.";
    return figuresRow(before, plan, people, `${benches}. ${sentence(setWords(answer, set))}.${best}`);
  });
  const isAll = sets.length < benchesAllowed && sets.every(({ isBest }) => isBest);
  const most = isAll ? `There are no ${sets.length + 1} blocks without a task in common.` : "";
  return `${figuresTable(answer, rows, look)}${paragraph(most, look)}`;
}

function blockRow(answer: OffLineAnswer, block: RatedBlock): string[] {
  const { bench, plan, least, people } = block;
  const words = `${benchWords(answer.line, bench)}. ${sentence(blockWords(answer, block))}.`;
  if (plan !== null && people !== null) return figuresRow(answer.before, plan, people, words);
  return [`>= ${least.people}`, `>= ${least.stations}`, String(bench.stock.units ?? "-"), "-", words];
}

/** People, stations, stock and efficiency, then the words. */
export function figuresRow(
  before: OffLinePlan,
  after: OffLinePlan,
  people: PeopleCompared,
  words: string,
): string[] {
  const change = (one: number | null, two: number | null) => `${one ?? "-"} -> ${two ?? "-"}`;
  return [
    change(people.before, people.after),
    change(before.stations, after.stations),
    String(after.stock ?? "-"),
    after.efficiency === null ? "-" : percent(after.efficiency),
    words,
  ];
}

export function figuresTable(
  { byDay }: OffLineAnswer,
  rows: readonly (readonly string[])[],
  look: Look,
): string {
  const narrow = look.width < ROOM_FOR_EFFICIENCY;
  const columns: Column[] = [
    { head: byDay && !narrow ? "people a day" : "people", align: "right" },
    { head: "stations", align: "right" },
    { head: "stock", align: "right" },
    { head: "efficiency", align: "right" },
    { head: "at a bench", wraps: true },
  ];
  const kept = (cells: readonly string[]) => (narrow ? cells.filter((_, at) => at !== 3) : cells);
  const paint = paintFor(look);
  return formatTable(
    columns.filter((_, at) => !narrow || at !== 3),
    rows.map(kept),
    look.width,
    (text, row, column) => (row < 0 ? paint.faint(text) : column === 0 ? paint.strong(text) : text),
  );
}

/** What a bench builds, where it joins, and what it takes. */
function benchWords(line: Line, bench: BenchFigures): string {
  const tasks = bench.stations.flatMap((station) => station.tasks).map((task) => line.tasks[task]!.id);
  const joins = bench.joinsAt.map((task) => line.tasks[task]!.id).join(", ");
  const name = bench.id === null ? "" : `${bench.id}: `;
  const places = bench.places === 1 ? "1 place" : `${bench.places} places`;
  const stations = bench.stations.length === 1 ? "" : ` at each of ${bench.stations.length} stations`;
  return visibleText(
    `${name}${tasks.join(", ")}; joins at ${joins}; ${places}${stations}, ${percent(bench.load)} loaded`,
  );
}

const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
