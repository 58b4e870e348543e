import type { Comparison } from "../../answer/compare/compare-options.js";
import type { OptionAnswer, OptionBench } from "../../answer/compare/option-answer.js";
import type { Payback } from "../../answer/compare/payback.js";
import type { RowOfFigures } from "../../answer/compare/rows.js";
import type { Shortfall } from "../../answer/compare/shortfall.js";
import type { Ratio } from "../../time/ratio.js";
import { inSeconds } from "../../time/show-numbers.js";
import { CAUTION, cautionsJson, cautionsOfPlan } from "../cautions.js";
import { verdictWords } from "../words/verdict-words.js";
import { balanceAsJson } from "./balance-json.js";
import { findingJson } from "./finding-json.js";
import { numberJson, secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/** The result document of `compare`: seconds and plain numbers with 6 decimals, shares as fractions. */
export function compareDocument(comparison: Comparison) {
  const { line } = comparison;
  const facts = comparisonFacts(comparison);
  return resultDocument("compare", { line: line.name, ...facts, caution: CAUTION });
}

export const compareJson = asText(compareDocument);

/** What a comparison says, option by option. */
export function comparisonFacts(comparison: Comparison) {
  const { line, options, rows, verdict, outcome, findings } = comparison;
  return {
    outcome,
    options: options.map((option, at) => optionJson(comparison, option, at)),
    verdict: verdictWords(verdict),
    currency: line.rates?.currency ?? null,
    findings: findings.map(findingJson),
    unranked: Object.fromEntries(
      rows.flatMap((row) => (row.unranked === null ? [] : [[keyOf(row), row.unranked]])),
    ),
  };
}

function optionJson(comparison: Comparison, option: OptionAnswer, at: number) {
  const rows = inKeyOrder(comparison.rows);
  const { asked, benches, outcome, pays, posts } = option;
  const { balance, shortfall, outputByShift, slowest, payback } = comparison.facts[at]!;
  const ofRows = (of: (row: RowOfFigures) => Ratio | null) =>
    Object.fromEntries(rows.map((row) => [keyOf(row), valueJson(row, of(row))]));
  const [tables] = balance === null ? posts : [];
  return {
    name: asked.name,
    file: asked.line.file,
    note: asked.option?.note ?? null,
    outcome,
    plan: balance && balanceAsJson(balance),
    benches: benches.map((bench) => benchJson(option, bench)),
    tables: tables === undefined ? null : { people: tables.places, secondsPerUnit: secondsJson(tables.busy) },
    shortfall: shortfall && shortfallJson(shortfall),
    outputByShift,
    linePays: pays && { ...pays },
    movesOutcome: option.moves?.outcome ?? null,
    slowestStation: slowest,
    figures: ofRows((row) => (row.isUnstated[at] ? null : (row.values[at] ?? null))),
    differences: ofRows((row) => (row.isUnstated[at] ? null : (row.differences[at] ?? null))),
    best: rows.filter((row) => row.isBest[at]).map(keyOf),
    findings: option.findings.map(findingJson),
    currency: asked.line.rates?.currency ?? null,
    cautions: cautionsJson(cautionsOfPlan(asked.line, option.plan)),
    payback: payback && paybackJson(payback),
  };
}

/** Rows that came later stand last, so that the keys of a figure keep their order. */
const LATER: readonly string[] = ["wantedPerHour", "places"];

function inKeyOrder(rows: readonly RowOfFigures[]): RowOfFigures[] {
  const isLater = ({ key }: RowOfFigures) => LATER.includes(key);
  return [...rows.filter((row) => !isLater(row)), ...rows.filter(isLater)];
}

/** Money as plain numbers; what is not known is null. */
function paybackJson(payback: Payback) {
  const { once, currency, outcome } = payback;
  return {
    outcome,
    once: numberJson(once),
    currency,
    savingPerDay: outcome === "not stated" ? null : numberJson(payback.savingPerDay),
    workingDays: outcome === "pays back" ? numberJson(payback.workingDays) : null,
    why: outcome === "not stated" ? payback.why : null,
  };
}

/** Units wanted and made in the period; where only a line cycle is given, that and the slowest cycle. */
function shortfallJson({ period, wanted, made }: Shortfall) {
  const [units, seconds] = period === null ? [null, secondsJson] : [numberJson, null];
  return {
    period,
    wanted: units?.(wanted) ?? null,
    made: units?.(made) ?? null,
    lineCycleSeconds: seconds?.(wanted) ?? null,
    slowestCycleSeconds: seconds?.(made) ?? null,
  };
}

function benchJson(option: OptionAnswer, bench: OptionBench) {
  const idsOf = (tasks: readonly number[]) => tasks.map((task) => option.asked.line.tasks[task]!.id);
  return {
    id: bench.id,
    tasks: idsOf(bench.stations.flatMap(({ tasks }) => tasks)),
    joinsAt: idsOf(bench.joinsAt),
    stations: bench.stations.length,
    places: bench.places,
    crew: bench.crew,
    people: bench.people,
    shifts: bench.hours.shifts,
    secondsPerUnit: secondsJson(bench.work),
    load: numberJson(bench.load),
    stock: bench.stock.units,
    stockAtStart: bench.stock.start,
  };
}

/** Times carry their unit in the name. */
const keyOf = ({ key, unit }: RowOfFigures): string => (unit === "time" ? `${key}Seconds` : key);

function valueJson({ unit }: RowOfFigures, value: Ratio | null): number | null {
  return unit === "time" ? secondsJson(value) : numberJson(value);
}

/** For tables of plain numbers: a value in the unit that its name says. */
export function plainValue({ unit }: RowOfFigures, value: Ratio): Ratio {
  return unit === "time" ? inSeconds(value) : value;
}
