import type { Sheet, SheetLift, SheetsAnswer, SheetTask } from "../../answer/sheets/answer-sheets.js";
import type { Fitness, TrainingMatrix } from "../../answer/sheets/training-matrix.js";
import { countOf, countPeople } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import type { Line, Task } from "../../line/line.js";
import type { Seat } from "../../plan/verify/skilled-places.js";
import type { Ratio } from "../../time/ratio.js";
import { showTimesApart, showTimesIn } from "../../time/show-in-unit.js";
import { isOne, signOf } from "../../time/show-numbers.js";
import { decimal, longTime, percent } from "../../time/show-values.js";
import { whoWords } from "./chart-words.js";
import { limitWords } from "./parts-words.js";

/** What standard work-in-process is here; printed wherever the figure is. */
export const STANDARD_STOCK =
  "Standard work-in-process: workplaces x units that stand at each, which are standing time / working time, rounded up (common practice). Units between stations are none of it.";

/** A label and what is said of it. */
export type Fact = readonly [label: string, words: string];

/** "S11", "B1, a bench". */
export const sheetTitle = ({ id, kind }: Pick<Sheet, "id" | "kind">): string =>
  kind === "bench" ? `${id}, a bench` : id;

/** "cargo-bike.plan.yaml, made for 711e7c88d8b24a9f; the line file is still that", with the date where one is given. */
export function originWords({ planFile, fingerprint: { ofPlan, ofLine }, date }: SheetsAnswer): string {
  const made =
    ofPlan === null
      ? `no fingerprint in it; line file ${ofLine}`
      : ofPlan === ofLine
        ? `fingerprint ${ofPlan}`
        : `fingerprint ${ofPlan}; the line file has changed since, now ${ofLine}`;
  return `Plan ${planFile}, ${made}${date === null ? "" : `. ${date}`}`;
}

/** The figures of a sheet, each with its label. */
export function sheetFacts({ line }: Pick<SheetsAnswer, "line">, sheet: Sheet): Fact[] {
  const { station, stationTime, stationLimit, workingTime, hands, walking, machine, handOver, share } = sheet;
  const [time, limit, working] = showTimesApart(line.unit, stationTime, stationLimit, workingTime);
  const show = showTimesIn(line.unit);
  const kinds = [
    `hands ${show(hands)}`,
    `walking ${show(walking)}`,
    `machine ${show(machine)}`,
    ...(signOf(handOver) > 0 ? [`handing over ${show(handOver)}`] : []),
  ];
  const list = (label: string, names: readonly string[]): Fact[] =>
    names.length === 0 ? [] : [[label, names.join(", ")]];
  return [
    ["people", peopleWords(sheet)],
    ...list("one way to staff it", sheet.people),
    ["time", `${time} of ${limit} that may be loaded; working time ${working}`],
    [
      station.persons === null && station.sides === null ? "of that" : "all people together",
      kinds.join(", "),
    ],
    ...(isOne(share)
      ? []
      : [["units", `${percent(share)} of the units come here; all times are for one of these`] as const]),
    ["standard work-in-process", countOf(sheet.standardStock, "unit")],
    ...cycleFacts(sheet.cyclesPerShift),
    ...list("tools and equipment", sheet.equipment),
    ...list("skills", sheet.skills),
    ...list("limits", sheet.limits.map(limitWords)),
    ...(station.places > 1 ? [["workplaces", `${station.places}, which take units in turn`] as const] : []),
  ];
}

const cycleFacts = (cycles: Ratio | null): Fact[] =>
  cycles === null
    ? []
    : [
        [
          "repetition",
          `the work of a workplace comes round ${decimal(cycles, 1)} times in the longest shift`,
        ],
      ];

function peopleWords({ station: { crew, places, sides, persons } }: Sheet): string {
  const all = places === 1 ? countPeople(crew) : `${countPeople(crew)} at each of ${places} workplaces`;
  if (persons !== null) return `${all}, each on tasks of their own`;
  if (sides !== null) return `${all}, at the sides that are named`;
  return crew > 1 ? `${all}, who work together` : all;
}

/** How a task is done: who, how many pieces, how often, on what. */
export function manners(line: Line, { task, who }: SheetTask): string[] {
  const { people, quantity, quantityByModel, every, side, equipment, visits, times, takenOver } =
    line.tasks[task]!;
  const doing = whoWords({ who });
  const often = visits.every((each) => isOne(each)) || every > 1;
  const byModel = line.models.length > 0 && times.some((time) => time !== times[0]);
  return [
    ...(doing === ""
      ? []
      : [who === "left" || who === "right" ? `${doing} side` : who === "both" ? "both sides" : doing]),
    ...(people > 1 ? [`${countPeople(people)} together`] : []),
    ...(side !== null && who === null ? [side === "either" ? "either side" : `${side} side`] : []),
    ...(quantityByModel === undefined && quantity > 1 ? [countOf(quantity, "piece")] : []),
    ...(every > 1 ? [`on one unit in ${every}`] : []),
    ...(byModel ? [timesByModel(line, times)] : []),
    ...(often || visits.length > 1 ? [] : [`${decimal(visits[0]!, 4)} times per good unit`]),
    ...equipment.map((name) => `on ${name}`),
    ...((takenOver ?? []).length > 0 ? ["takes parts over from a bench"] : []),
  ];
}

/** What the task takes on each model that has it, then the models that have not. */
function timesByModel({ models, unit }: Line, times: Task["times"]): string {
  const show = showTimesIn(unit);
  const having = models.flatMap(({ id }, model) =>
    times[model] === null ? [] : [`${id} ${show(times[model]!)}`],
  );
  const without = models.filter((_, model) => times[model] === null).map(({ id }) => id);
  return [having.join(", "), ...(without.length === 0 ? [] : [`not on ${listOf(without)}`])].join("; ");
}

/** Whether the work of a station is a mean: units differ, or work is done again. */
export const isMean = ({ tasks }: Line, { station }: Sheet): boolean =>
  station.tasks.some((task) => tasks[task]!.visits.length > 1 || !isOne(tasks[task]!.visits[0]!));

/** "works here", "can", "lacks brakes (4 h)". */
export function fitnessWords(fitness: Fitness): string {
  switch (fitness.kind) {
    case "works-here":
      return "works here";
    case "can":
      return `can stand in${asWords(fitness.as)}`;
    case "lacks": {
      const time = fitness.training === null ? "" : ` (${longTime(fitness.training)} to train)`;
      return `lacks ${listOf(fitness.skills)}${time}`;
    }
  }
}

/** " as person 2", " at the left", " beside somebody with the skills". */
function asWords(seats: readonly Seat[]): string {
  if (seats.length === 0) return "";
  const persons = seats.filter((seat) => typeof seat === "number");
  if (persons.length > 0) return ` as person ${persons.toSorted((one, two) => one - two).join(" or ")}`;
  const sides = seats.filter((seat) => typeof seat === "string");
  return sides.length > 0 ? ` at the ${sides.join(" or ")}` : " beside somebody with the skills";
}

/** How the matrix is to be read. */
export const trainingWords = ({ people, places }: TrainingMatrix): string[] => [
  ...(people.length === 0
    ? ["The line file names no `people`, so who works there and who could stand in is not known."]
    : ["Who can stand in has every skill that the tasks of one of the people there need."]),
  ...(places.some(({ assigned }) => assigned.length > 0)
    ? ["Who works where is one way to staff the plan; others may do as well."]
    : []),
];

/** What the figures of a lift are; printed wherever they are. */
export const LIFTING =
  "Lifts: recommended weight limit (RWL) and lifting index (mass / RWL) of the revised NIOSH lifting equation (DHHS 94-110), for one person with both hands. They are figures, not a verdict. Several lifts at a place are not added up.";

/** "box-up: 14 kg, 0.5 lifts a minute for up to 8 h. Start: RWL 9.02 kg = 23 kg x 0.625 x ...; lifting index 1.55. End: ...". */
export function liftWords({ tasks }: Line, { task, lifting, perMinute, ends }: SheetLift): string {
  const { id, name } = tasks[task]!;
  const stated = lifting.perMinute === null ? " at the pace" : "";
  const told = ends.map((end) => `${end.at === "start" ? "Start" : "End"}: ${endWords(end)}.`).join(" ");
  return `${name ?? id}: ${decimal(lifting.mass, 2)} kg, ${decimal(perMinute, 2)} lifts a minute${stated}, for up to ${lifting.lasts}, ${lifting.grip} grip. ${told}`;
}

function endWords({ limit, index, ...factors }: SheetLift["ends"][number]): string {
  const all = [
    factors.horizontal,
    factors.vertical,
    factors.distance,
    factors.asymmetry,
    factors.frequency,
    factors.coupling,
  ];
  const sum = `RWL ${decimal(limit, 2)} kg = 23 kg x ${all.map((each) => decimal(each, 4)).join(" x ")} (rounded)`;
  return index === null
    ? `${sum}, so the lift is outside of what the equation covers`
    : `${sum}; lifting index ${decimal(index, 2)}`;
}
