import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import { addTo } from "../../findings/add-to.js";
import { listOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { StationMeasures } from "../../plan/measure.js";
import type { Ratio } from "../../time/ratio.js";
import { showTimesIn, showTimesRoughlyIn } from "../../time/show-in-unit.js";
import { difference, isOne, lengthOf, shareAbove } from "../../time/show-numbers.js";
import { decimal, percent } from "../../time/show-values.js";
import { paragraph } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { type Column, formatTable } from "./table.js";
import { widthOf } from "./width-of.js";
import { kindsOfTimeWords } from "./work-text.js";

/** Below this many columns the bars make room for the tasks. */
const ROOM_FOR_BARS = 72;

/** From so many columns on a task has its name beside its id; in a pipe, which has no width, rows stay short enough to read. */
const ROOM_FOR_NAMES = 140;

/** So many stations without work are named; more are counted. */
const MOST_UNUSED = 8;

const hasRoomForNames = ({ width }: Look): boolean => width >= ROOM_FOR_NAMES && Number.isFinite(width);

/** A column of the table with what it shows of each station. */
interface StationColumn extends Column {
  readonly of: (station: StationMeasures) => string;
}

/**
 * One row a station: its tasks in order of work, people and places, station time, load against the limit, idle time; below them what is not
 * alike at all stations, the limits only where everything is told.
 */
export function stationsText(answer: ShownBalance, isFull: boolean, look: Look): string {
  const { measures } = answer;
  if (measures === null) return "";
  const columns = columnsFor(answer, measures.slowestStation, look);
  const table = stationTable(answer, columns, look);
  const fits = answer.shown.isPlain || table.split("\n").every((row) => widthOf(row) <= look.width);
  // The idle time of single stations is the figure that is missed least: what they work stands beside it.
  const shown = fits ? table : stationTable(answer, columns.slice(0, -1), look);
  const isMarked = answer.stations.some(({ id }) => id === measures.slowestStation);
  const slowestWords = isMarked
    ? "* the slowest station"
    : `bench ${visibleText(measures.slowestStation)} is slower than every station`;
  const slowest = [slowestWords, ...unusedStationsWords(answer)];
  if (isFull) return shown + paragraph(slowest.join("; "), look) + paragraph(otherLimits(answer), look);
  return shown + paragraph([...slowest, ...kindsOfTimeWords(answer)].join("; "), look);
}

/** "nothing is done at S3 and S4". */
function unusedStationsWords({ shown: { unusedStations } }: ShownBalance): string[] {
  if (unusedStations.length === 0) return [];
  const more = unusedStations.length - MOST_UNUSED;
  const named = more > 0 ? [...unusedStations.slice(0, MOST_UNUSED), `${more} more`] : unusedStations;
  return [`nothing is done at ${listOf(named)}`];
}

/** Tasks in order of work with their names, one a row, where the table of stations has no room for these; "" where no task has one. */
export function taskNamesText(
  { line, stations }: ShownBalance,
  benches: readonly Pick<StationMeasures, "id" | "tasks">[],
  look: Look,
): string {
  if (hasRoomForNames(look)) return "";
  const rows = [...stations, ...benches].flatMap(({ id, tasks }) => {
    const named = tasks.map((task) => line.tasks[task]!).filter(({ name }) => name !== null);
    return named.map((task) => [id, task.id, task.name!].map(visibleText));
  });
  const columns: Column[] = [
    { head: "station" },
    { head: "task", givesWay: true },
    { head: "name", wraps: true },
  ];
  return rows.length === 0 ? "" : formatTable(columns, rows, look.width);
}

function stationTable({ stations }: ShownBalance, columns: readonly StationColumn[], look: Look): string {
  const paint = paintFor(look);
  const rows = stations.map((station) => columns.map((column) => column.of(station)));
  return formatTable(columns, rows, look.width, (text, row, column) => {
    if (row < 0) return paint.faint(text);
    return column === 0 ? paint.strong(text) : text;
  });
}

function columnsFor(answer: ShownBalance, slowest: string, look: Look): StationColumn[] {
  const { line, stations } = answer;
  const [show, showIdle] = [showTimesIn(line.unit), showTimesRoughlyIn(line.unit)];
  const wide = look.width >= ROOM_FOR_BARS;
  const hasRoom = hasRoomForNames(look);
  const bars = wide ? Math.min(30, Math.floor(look.width / 7)) : 0;
  const withPeople = stations.some(({ operators }) => operators !== 1);
  const withPlaces = stations.some(({ places }) => places !== 1);
  const idsOf = ({ tasks }: StationMeasures) =>
    tasks
      .map((task) => {
        const { id, name } = line.tasks[task]!;
        return visibleText(name === null || !hasRoom ? id : `${id} (${name})`);
      })
      .join(", ");
  const staffed = (station: StationMeasures) => (wide ? "" : staffWords(station));
  const tasks: StationColumn = {
    head: "tasks in order of work",
    wraps: true,
    of: (station) => `${idsOf(station)}${staffed(station)}`,
    ...(answer.shown.isPlain && wide ? {} : { narrowest: 8 }),
  };
  const people: StationColumn = { head: "people", align: "right", of: ({ operators }) => String(operators) };
  const places: StationColumn = { head: "places", align: "right", of: ({ places: all }) => String(all) };
  return [
    { head: "station", of: ({ id }) => `${id}${id === slowest ? " *" : ""}` },
    tasks,
    ...(wide && withPeople ? [people] : []),
    ...(wide && withPlaces ? [places] : []),
    { head: "time", align: "right", of: ({ stationTime }) => show(stationTime) },
    {
      head: bars > 0 ? "load against the limit" : "load",
      align: bars > 0 ? "left" : "right",
      of: ({ load }) => loadWords(load, bars),
    },
    { head: "idle", align: "right", of: ({ idle }) => showIdle(idle) },
  ];
}

/** People and places of a station where it has more than one, for terminals without room for columns of their own. */
function staffWords({ operators, places }: StationMeasures): string {
  if (operators === 1) return "";
  return places === 1 ? ` (${operators} people)` : ` (${operators} people at ${places} places)`;
}

/** Limits of stations that have several places or a plan-to of their own, or that units pass more than once, those that are alike together. */
function otherLimits({ line, pace, stations }: ShownBalance): string {
  const show = showTimesIn(line.unit);
  const others = stations.filter(({ stationLimit }) => difference(stationLimit, pace.stationLimit) !== 0);
  if (others.length === 0) return "";
  const alike = new Map<string, StationMeasures[]>();
  for (const each of others) {
    const key = `${show(each.stationLimit)} x ${each.places} / ${decimal(each.passes, 4)}`;
    addTo(alike, key, each);
  }
  const limits = [...alike.values()].map((group) => {
    const [{ stationLimit, places, passes }] = group as [StationMeasures];
    const handled = pace.handling === 0 || isOne(passes) ? "" : ` (handling at ${decimal(passes, 4)} passes)`;
    const where = `${show(stationLimit)} at ${group.map(({ id }) => id).join(", ")}`;
    if (places === 1) return where + handled;
    const all = group.length === 1 ? `with its ${places} places` : `with ${places} places each`;
    return `${where} ${all}${handled}`;
  });
  const elsewhere = others.length === stations.length ? [] : [`elsewhere ${show(pace.stationLimit)}`];
  return `Limits: ${[...limits, ...elsewhere].join("; ")}.`;
}

/** The load with a bar where there is room for one, which no colour judges; a word says what is over the limit. */
function loadWords(load: Ratio, bars: number): string {
  const share = percent(load).padStart(7);
  const isOver = shareAbove(load, 100);
  if (bars === 0) return isOver ? `over ${share.trimStart()}` : share;
  return `${loadBar(load, bars)} ${share}${isOver ? " over" : ""}`;
}

/** A bar of `length` for a full station; what a task alone takes beyond the limit is shown by an arrow. */
function loadBar(load: Ratio, length: number): string {
  if (shareAbove(load, 100)) return `${"■".repeat(length - 1)}▶`;
  const filled = lengthOf(load, length);
  return "■".repeat(filled) + "·".repeat(length - filled);
}
