import type { AnswerModels } from "../../answer/balance/answer-models.js";
import type { BalanceAnswer } from "../../answer/balance/balance-answer.js";
import { countOf } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import type { DriftRoom } from "../../plan/models/drift-room.js";
import type { PartGaps } from "../../plan/models/levelled-sequence.js";
import type { MixMeasures, StationMix } from "../../plan/models/measure-mix.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { signOf } from "../../time/show-numbers.js";
import { beforeRounding, decimal, percent, percentOfAll } from "../../time/show-values.js";
import { peopleOnLine } from "../words/people-words.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { type Column, formatTable } from "./table.js";

/** Runs of equal units that people read through, and how many show the pattern of a longer sequence. */
const [LONGEST_SHOWN, BEGINNING] = [24, 12];

/** The models, what each station makes of them, and the order in which their units enter the line. */
export function modelsText(answer: BalanceAnswer, look: Look): string {
  const { line, models } = answer;
  if (models === null) return "";
  const sum = peopleWords(answer, models);
  return [
    workTable(line, models, look),
    paragraph(sum, look),
    "\n",
    stationsTable(line, models.mix.stations, look),
    paragraph(driftWords(answer, models), look),
    "\n",
    paragraph(sequenceWords(line, models), look),
  ].join("");
}

/** The people for the work alone, and more where more are proved to be needed. */
function peopleWords({ line, pace, bound, measures }: BalanceAnswer, { work }: AnswerModels): string {
  const show = showTimesIn(line.unit);
  const { exact, whole } = work.people;
  const alone = peopleOnLine(whole, measures?.repairPeople ?? null);
  const sum = `Weighted by share: ${show(work.workContent)} of work for a unit / ${show(pace.stationLimit)} station limit = ${beforeRounding(exact)}`;
  const proved = bound === null ? null : (bound.people ?? bound.stations);
  if (proved !== null && proved === whole) return `${sum}, so ${alone} at the least.`;
  const more =
    proved === null || proved < whole
      ? ""
      : `. Limits and rules of the floor take it to at least ${proved} (--proof shows why)`;
  return `${sum}, so ${alone} for the work alone${more}.`;
}

function workTable(line: Line, { work }: AnswerModels, look: Look): string {
  const show = showTimesIn(line.unit);
  const rows = work.models.map(({ model, share, workContent, interval }) => [
    visibleText(line.models[model]!.id),
    percent(share, 2),
    show(workContent),
    interval === null ? "-" : show(interval),
  ]);
  const columns: Column[] = [
    { head: "model", wraps: true, narrowest: 8 },
    { head: "share", align: "right" },
    { head: "work", align: "right" },
    { head: "a unit every", align: "right" },
  ];
  return formatTable(columns, rows, look.width);
}

function stationsTable(line: Line, stations: readonly StationMix[], look: Look): string {
  const show = showTimesIn(line.unit);
  const isGiven = line.sequence !== null;
  const drift = (each: DriftRoom | null) =>
    each === null ? "-" : each.room === null ? "no end" : show(each.room);
  const isNarrow = look.width < SIDE_BY_SIDE;
  const rows = stations.flatMap(({ id, average, averageShare, worst, givenDrift, proposedDrift }) => {
    const mean = `${show(average)}, ${percentOfAll(averageShare)}`;
    const most =
      worst === null
        ? "-"
        : `${worst.isOfAll ? "all alike" : visibleText(line.models[worst.model]!.id)} ${show(worst.stationTime)}, ${percentOfAll(worst.share)}`;
    const drifts = [...(isGiven ? [drift(givenDrift)] : []), drift(proposedDrift)];
    if (!isNarrow) return [[id, mean, most, ...drifts]];
    return [
      [id, mean, ...drifts],
      ["", most, ...drifts.map(() => "")],
    ];
  });
  const columns: Column[] = [
    { head: "station" },
    ...(isNarrow ? [] : [{ head: "average" }]),
    { head: isNarrow ? "average, then worst model" : "worst model", wraps: true, narrowest: 8 },
    ...(isGiven ? [{ head: "given", align: "right" } satisfies Column] : []),
    { head: isGiven ? "proposed" : "drift allowance", align: "right" },
  ];
  return formatTable(columns, rows, look.width);
}

/** Columns of a terminal in which average and worst model of a station stand side by side; one below the other in fewer. */
const SIDE_BY_SIDE = 70;

function driftWords({ stations }: BalanceAnswer, { mix }: AnswerModels): string {
  const rooms = mix.stations.flatMap(({ givenDrift, proposedDrift }) => [givenDrift, proposedDrift]);
  const grows = (why: "average" | "order") => rooms.some((each) => each?.grows === why);
  const whose =
    mix.given === null ? "with the proposed sequence" : "with the given and with the proposed sequence";
  const waits = stations.some(({ waitingTime }) => waitingTime !== null && signOf(waitingTime) > 0);
  return [
    `Shares are of the working time. Drift allowance: how far ${waits ? "the work of hands" : "work"} runs past the end of a station, ${whose}.`,
    grows("average")
      ? "No end: the average is above the working time, so the drift grows with every unit."
      : "",
    grows("order")
      ? "No end by the order: it brings the station, or one of its places, more work than there is time for."
      : "",
  ]
    .filter((each) => each !== "")
    .join(" ");
}

function sequenceWords(line: Line, { mix }: AnswerModels): string {
  const { sequence, quantities, exact, by } = mix.proposed;
  const units = line.models.map(({ id }, model) => `${quantities[model]} ${id}`).join(", ");
  const nearest = exact ? "" : ` The shares come out even only over more units; these are ${units}.`;
  if (by === "given")
    return `Given sequence: ${inOrder(line, sequence)}. It stands: ${leastWords(line, mix)}.${nearest}${spacingWords(line, mix)}`;
  const proposed = `Proposed sequence, ${countOf(sequence.length, "unit")} again and again: ${inOrder(line, sequence)}.`;
  const least = leastWords(line, mix);
  const given = mix.given === null ? "" : ` Given sequence: ${inOrder(line, mix.given)}${givenWords(mix)}.`;
  return `${proposed}${nearest} ${least[0]!.toUpperCase()}${least.slice(1)}.${spacingWords(line, mix)}${given}`;
}

function spacingWords({ spacings }: Line, { proposed: { measure } }: MixMeasures): string {
  if (spacings.length === 0) return "";
  const all = spacings.map(({ name, most, of }) => `${name} ${most} in ${of}`).join(", ");
  return measure.broken === 0
    ? ` It keeps the spacing: ${all}.`
    : ` It breaks the spacing (${all}) in ${countOf(measure.broken, "row")} of units.`;
}

/** What was looked at for the sequence that is shown. */
function leastWords(line: Line, { proposed }: MixMeasures): string {
  const { by, isLeast, isImpossible, longest, quantities, measure } = proposed;
  const upTo = longest > quantities.reduce((sum, each) => sum + each, 0) ? "up to " : "";
  const orders = `no order of ${upTo}${countOf(longest, "unit")}`;
  if (isImpossible) return `${orders} keeps the spacing`;
  if (measure.broken > 0) return "no order was found that keeps the spacing; one may exist";
  const drifts = measure.endless > 0 || measure.drift > 0n;
  const better = drifts ? "drifts less" : "has more level work at the stations";
  const isWithin = line.driftRoom !== null || line.floor.some(({ driftRoom }) => driftRoom !== null);
  const isKept = measure.kept.endless > 0 || measure.kept.drift > 0n;
  // What a line asks for beside comes first, so that an order that breaks it may drift less.
  const asked = line.spacings.length > 0 || isWithin || isKept ? "is better" : better;
  if (proposed.partGaps !== null) return partWords(line, proposed.partGaps, orders);
  if (isLeast) return `${orders} ${asked}`;
  if (by === "goal-chasing")
    return "goal chasing keeps the work at the stations near level; better orders may exist";
  return `no order was found that ${asked}; better ones may exist`;
}

/** How near to even the parts are used, and how near they could be. */
function partWords(
  line: Line,
  { units, proposed, least, isLeast, byGoalChasing }: PartGaps,
  orders: string,
): string {
  const parts = line.levelled.map(({ name }) => name).join(", ");
  const gaps = `over ${countOf(units, "unit")} the squared gaps to even use of ${parts} are ${decimal(proposed, 2)}`;
  if (least === null) return `${gaps}, by goal chasing; better orders may exist`;
  if (isLeast) return `${gaps}; ${orders} has less (goal chasing ${decimal(byGoalChasing, 2)})`;
  return `${gaps}; ${decimal(least, 2)} is the least without the other rules of the sequence`;
}

/** Why the given sequence is not the one proposed. */
function givenWords({ proposed: { given, partGaps } }: MixMeasures): string {
  switch (given) {
    case "other-shares":
      return "; it builds the models in other shares";
    case "breaks-spacing":
      return "; it breaks more of the spacing";
    case "drifts-without-end":
      return "; it drifts without end at more stations";
    case "drifts-too-far":
      return "; it drifts too far at more stations";
    case "drifts-more":
      return "; it drifts farther";
    case "keeps-longer":
      return "; in it units keep their place or equipment for longer";
    case "less-level":
      return partGaps === null
        ? "; its work at the stations is less level"
        : `; it has squared gaps of ${decimal(partGaps.given!, 2)}`;
    default:
      return "";
  }
}

/** Models in order of entry, equal neighbours counted: "2 x city, cargo"; of many runs the beginning, and where other models come. */
function inOrder(line: Line, sequence: readonly number[]): string {
  const runs: { model: number; units: number }[] = [];
  for (const model of sequence) {
    const last = runs.at(-1);
    if (last?.model === model) last.units++;
    else runs.push({ model, units: 1 });
  }
  const isLong = runs.length > LONGEST_SHOWN;
  const shown = isLong ? runs.slice(0, BEGINNING) : runs;
  const words = shown.map(
    ({ model, units }) => `${units === 1 ? "" : `${units} x `}${line.models[model]!.id}`,
  );
  if (!isLong) return words.join(", ");
  const later = [...new Set(runs.slice(BEGINNING).map(({ model }) => model))]
    .filter((model) => shown.every((run) => run.model !== model))
    .map((model) => `${line.models[model]!.id} first as unit ${sequence.indexOf(model) + 1}`);
  return `${[...words, "and so on", ...later].join(", ")} (--json has all ${sequence.length})`;
}
