import type { OffLineAnswer, RatedBlock } from "../../answer/off-line/off-line-answer.js";
import type { KeptStock } from "../../benches/bench-stock.js";
import type { BenchFigures, BenchShiftUnits } from "../../benches/measure-bench.js";
import { countOf, thousands } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import { factorShown, showTimesIn } from "../../time/show-in-unit.js";
import { isOne, signOf } from "../../time/show-numbers.js";
import {
  beforeRounding,
  decimal,
  decimalHours,
  longTime,
  percent,
  upToMinutes,
} from "../../time/show-values.js";
import { overWhom, peopleOnLine } from "../words/people-words.js";
import { blockWords } from "../words/rated-words.js";
import { headed } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { formatTable } from "./table.js";

type Row = [string, string];

/** Below this many columns heads are shorter. */
const ROOM_FOR_WORDS = 66;
const LONG_HEADS = ["shifts", "needs", "places", "load", "people a day", "stock at start"] as const;
const SHORT_HEADS = ["shifts", "needs", "places", "load", "people", "stock"] as const;

/** One bench with every figure and what it is made of, and what it takes at other hours. */
export function benchText(answer: OffLineAnswer, rated: RatedBlock, look: Look): string {
  const { bench } = rated;
  const names = (tasks: readonly number[]) => tasks.map((task) => answer.line.tasks[task]!.id).join(", ");
  const order = names(bench.stations.flatMap(({ tasks }) => tasks));
  const name = bench.id === null ? "" : `${bench.id}: `;
  const paint = paintFor(look);
  const rows: Row[] = [
    ["builds", `${name}${order}; joins at ${names(bench.joinsAt)}`],
    ...workRows(answer, bench),
    ...peopleRows(answer, bench),
    ...stockRows(bench),
    ...changeRows(answer, rated),
  ];
  const table = formatTable(
    [{ head: "" }, { head: "", wraps: true }],
    rows.map(([label, words]) => [label, visibleText(words)]),
    look.width,
    (text, _, column) => (column === 0 ? paint.strong(text) : text),
  );
  return headed("at a bench", `${table}${hoursText(answer, bench, look)}`, look);
}

function workRows({ line, pace }: OffLineAnswer, bench: BenchFigures): Row[] {
  const show = showTimesIn(line.unit);
  const { work, handOver, pieces, pieceWork, takt, pieceTakt, hours, share, stations } = bench;
  const names = (tasks: readonly number[]) => tasks.map((task) => line.tasks[task]!.id).join(", ");
  const handing = signOf(handOver) === 0 ? "" : `, ${show(handOver)} to hand over among it`;
  const each = pieces === 1 ? "" : `; ${show(pieceWork)} for each of ${pieces} pieces`;
  const ofHours = isOne(hours.ofLine)
    ? ""
    : ` x ${factorShown(hours.ofLine, { of: pace.lineCycle, by: share, total: takt }, show, 3)} of its hours`;
  const ofShare = isOne(share) ? "" : ` / ${percent(share, 4)} of the units`;
  const terms_ = ofHours + ofShare;
  const sum = terms_ === "" ? "the line cycle" : `${show(pace.lineCycle)} line cycle${terms_}`;
  const piece = pieces === 1 ? "" : `; a piece every ${show(pieceTakt)}`;
  const rows: Row[] = [
    ["work", `${show(work)} for a unit${handing}${each}`],
    ["cycle", `${show(takt)}, ${sum}${piece}`],
  ];
  if (stations.length === 1) return rows;
  const shared = stations.map((station) => `${names(station.tasks)} ${show(station.work)}`).join(" | ");
  return [...rows, ["stations", `${shared}${bench.isProved ? "" : " (not proved shortest)"}`]];
}

function peopleRows({ line, pace }: OffLineAnswer, bench: BenchFigures): Row[] {
  const show = showTimesIn(line.unit);
  const { hours, stations, fullest, crew, places, people, peopleOfDay } = bench;
  const planned = isOne(pace.planTo) ? "" : ` / ${percent(pace.planTo, 4)} plan-to`;
  const handling = pace.handling === 0 ? "" : ` + ${show(fullest.handling)} handling`;
  const work = show(fullest.busy);
  const fills =
    bench.dwell === null ? `${work}${planned}` : `${show(bench.dwell)} of standing${heldTogether(bench)}`;
  const filled = fills + handling === work ? fills : `(${fills}${handling})`;
  const each = stations.length === 1 ? "" : ` at each of ${stations.length} stations`;
  const isAlike = stations.every((station) => station.crew === crew);
  const crews = isAlike
    ? `, ${crew} people at each`
    : `, crews of ${stations.map((each) => each.crew).join(" and ")}`;
  const ofDay = hours.shifts === null ? "" : `, ${peopleOfDay} a day in ${countOf(hours.shifts, "shift")}`;
  const rows: Row[] = [
    [
      "places",
      `${places}${each}: ${filled} / ${show(bench.takt)} = ${beforeRounding(bench.placesNeeded, 3)} (${percent(bench.placesNeeded)} of one place), rounded up${crew === 1 ? "" : crews}`,
    ],
    ["people", `${people} at the same time${ofDay}`],
    ...machineRows(line, bench),
    ["load", `${percent(bench.load)} of what its places may be loaded with`],
  ];
  if (bench.dayOfWork === null || bench.unitsByShift === null) return rows;
  const builds = shiftWords(bench, bench.unitsByShift);
  const need = `${decimalHours(bench.dayOfWork)} of one place for a day's need; one place builds ${builds}`;
  return [...rows, ["a day", need]];
}

/** " / 2 at a place". */
const heldTogether = ({ terms }: BenchFigures): string =>
  terms.holds === 1 ? "" : ` / ${terms.holds} at a place`;

/** Units of a shift; by name where the shifts of the line differ, so that "a shift" says nothing. */
function shiftWords({ unitsPerShift }: BenchFigures, byShift: readonly BenchShiftUnits[]): string {
  if (unitsPerShift !== null) return `${thousands(unitsPerShift)} in a shift`;
  return byShift
    .map(
      ({ shift, units }) => `${thousands(units)} in ${shift === null ? "a further shift" : `shift ${shift}`}`,
    )
    .join(", ");
}

/** What machines run by themselves keeps no person, but as many of them as keep up. */
function machineRows(line: Line, { machines, takt, places }: BenchFigures): Row[] {
  const show = showTimesIn(line.unit);
  return machines.map(({ name, tasks, busy, needed, units }, at): Row => {
    const sums = tasks.map(({ loading, run }) => `${show(loading)} of loading + ${show(run)} of running`);
    const what = name ?? line.tasks[tasks[0]!.task]!.id;
    const least = needed < places ? ", one for each place" : "";
    return [
      at === 0 ? "machines" : "",
      `${units} x ${what}: ${sums.join(", ")} = ${show(busy)} for a unit, one due every ${show(takt)}${least}`,
    ];
  });
}

function stockRows(bench: BenchFigures): Row[] {
  const { stock, terms, hours } = bench;
  const reasons = [
    ...(stock.start > 0
      ? [`${stock.start} ready when the line starts its day, as the bench works other hours`]
      : []),
    ...(stock.most > stock.start ? [`up to ${stock.most} in the course of the day`] : []),
    ...keptWords(stock.stop, `to ride through a stop of ${longTime(terms.stop)}`),
    ...keptWords(stock.bunch, `for ${terms.bunch} in a row`),
    ...(stock.resting > 0 ? [`${stock.resting} that rest before they may join`] : []),
  ];
  const same = hours.shifts === null || stock.most === 0 ? "bench and line keep pace, unit by unit" : "";
  const rows: Row[] = [
    ["stock", reasons.length === 0 ? `none beyond the unit in hand: ${same}` : reasons.join("; ")],
  ];
  if (terms.space === null) {
    return stock.units ? [...rows, ["room", `for ${countOf(stock.units, "unit")} is needed`]] : rows;
  }
  const units = stock.units ?? 0;
  const fits = units <= terms.space ? "enough" : `too little for ${thousands(units)}`;
  return [...rows, ["room", `for ${countOf(terms.space, "unit")}: ${fits}`]];
}

function keptWords(kept: KeptStock | null, why: string): string[] {
  if (kept === null) return [];
  const words = `${thousands(kept.units)} ${why}`;
  if (kept.units === 0) return [words];
  if (kept.refill === null) return [`${words}, never built up again: the bench has no time to spare`];
  const long = kept.refills === "longer than a shift" ? ", longer than a shift" : "";
  return [`${words}, built up again in ${upToMinutes(kept.refill)} of its work${long}`];
}

function changeRows(answer: OffLineAnswer, block: RatedBlock): Row[] {
  const { plan } = block;
  const verdict = blockWords(answer, block);
  if (plan === null || plan.cycleOfPlan === null) return [["changes", verdict]];
  const show = showTimesIn(answer.line.unit);
  const efficiency = plan.efficiency === null ? "-" : percent(plan.efficiency);
  const proof = plan.outcome === "proved" ? "proved least" : `at least ${plan.leastStations} needed`;
  return [
    [
      "line",
      `${countOf(plan.stations!, "station")} (${proof}), ${peopleOnLine(plan.linePeople!, plan.repairPeople)}; ${plan.slowestStation} is slowest with ${show(plan.cycleOfPlan)}; efficiency ${efficiency} ${overWhom(plan.repairPeople)}`,
    ],
    ["changes", verdict],
  ];
}

/** The same bench on other shifts. */
function hoursText(answer: OffLineAnswer, bench: BenchFigures, look: Look): string {
  const others = answer.otherHours.get(bench) ?? [];
  if (others.length < 2) return "";
  const paint = paintFor(look);
  const rows = others.map(({ bench: other, isChosen }) => [
    `${other.hours.shifts}${isChosen ? " *" : ""}`,
    decimal(other.placesNeeded, 3),
    String(other.places),
    percent(other.load),
    String(other.peopleOfDay),
    String(other.stock.start),
  ]);
  const table = formatTable(
    (look.width < ROOM_FOR_WORDS ? SHORT_HEADS : LONG_HEADS).map((head) => ({
      head,
      align: "right" as const,
    })),
    rows,
    look.width,
    (text, row) => (row < 0 ? paint.faint(text) : text),
  );
  return `\n${table}`;
}
