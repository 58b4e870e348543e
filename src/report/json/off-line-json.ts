import type { LongTaskAnswer, SlowerPace } from "../../answer/long-tasks/long-task-answers.js";
import type {
  AskedBlock,
  OffLineAnswer,
  RatedBlock,
  RatedSet,
} from "../../answer/off-line/off-line-answer.js";
import type { OffLinePlan } from "../../answer/off-line/plan-with-benches.js";
import type { KeptStock } from "../../benches/bench-stock.js";
import type { BenchFigures } from "../../benches/measure-bench.js";
import type { Line } from "../../line/line.js";
import { CAUTION, cautionsJson, cautionsOfBlocks } from "../cautions.js";
import { hindranceWords } from "../words/hindrance-words.js";
import { blockWords, setWords } from "../words/rated-words.js";
import { paceJson } from "./balance-json.js";
import { findingJson } from "./finding-json.js";
import { numberJson, secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/** The result document of `off-line`: one object with the keys in a fixed order. `secondsLimit` is what `--seconds` gave. */
export function offLineDocument(answer: OffLineAnswer, secondsLimit: number | null) {
  const { line, asked, stated, together, longTasks } = answer;
  const rated = answer.blocks ?? (asked ?? []).flatMap((each) => each.rated ?? []);
  return resultDocument("off-line", {
    line: line.name,
    outcome: answer.outcome,
    pace: paceJson(answer.pace),
    before: { ...planJson(line, answer.before), repairPeople: answer.before.repairPeople },
    rank: answer.ranks,
    benchesAllowed: answer.benchesAllowed,
    joinsAtSeveral: answer.joinsAtSeveral,
    peopleCompared: answer.byDay ? "of a day" : "at a time",
    guess: answer.isGuess,
    asked: asked?.map((each) => askedJson(answer, each)) ?? null,
    stated: stated?.map((each) => askedJson(answer, each)) ?? null,
    together: together && setJson(answer, together),
    blocks: rated.map((each) => blockJson(answer, each)),
    sets: (answer.sets ?? []).map((each) => setJson(answer, each)),
    tooLong: longTasks.answers.map((each) => longTaskJson(line, each)),
    withPlaces: withPlacesJson(longTasks),
    search: { ...answer.search, secondsLimit },
    findings: answer.findings.map(findingJson),
    cautions: cautionsJson(cautionsOfBlocks(answer)),
    caution: CAUTION,
  });
}

export const offLineJson = asText(offLineDocument);

const idsOf = (line: Line, tasks: readonly number[]): string[] => tasks.map((task) => line.tasks[task]!.id);

/** The figures of line and benches together, people for repairs among them; nulls where the line has no plan, and people of a day where there is no calendar. */
function figuresJson({ calendar }: Line, plan: OffLinePlan) {
  return {
    outcome: plan.outcome,
    stations: plan.stations,
    leastStations: plan.leastStations,
    people: plan.people,
    leastPeople: plan.leastPeople,
    linePeople: plan.linePeople,
    peopleOfDay: calendar === null ? null : plan.peopleOfDay,
    slowestStation: plan.slowestStation,
    cycleOfPlanSeconds: secondsJson(plan.cycleOfPlan),
    efficiencyAtPace: numberJson(plan.efficiency),
    stock: plan.stock,
    stockPoints: plan.stockPoints,
  };
}

function planJson(line: Line, plan: OffLinePlan) {
  const stations = plan.plan?.stations.map(({ id, tasks, places, crew }) => ({
    id,
    tasks: idsOf(line, tasks),
    places,
    crew,
  }));
  return { ...figuresJson(line, plan), plan: stations ?? null };
}

function blockJson(answer: OffLineAnswer, block: RatedBlock) {
  const { bench, plan, least, people } = block;
  const { line } = answer;
  const figures = plan === null ? boundedJson(bench, least) : planJson(line, plan);
  return {
    tasks: idsOf(
      line,
      bench.stations.flatMap((station) => station.tasks),
    ),
    joinsAt: bench.joinsAt.length === 1 ? line.tasks[bench.joinsAt[0]!]!.id : null,
    joinsAtTasks: idsOf(line, bench.joinsAt),
    bench: benchJson(answer, bench),
    ...figures,
    freed: people?.freed ?? null,
    reason: blockWords(answer, block),
    repairPeople: answer.before.repairPeople,
  };
}

/** What is known of a block that was not balanced again. */
function boundedJson(bench: BenchFigures, least: RatedBlock["least"]) {
  return {
    outcome: "bounded",
    stations: null,
    leastStations: least.stations,
    people: null,
    leastPeople: least.people,
    linePeople: null,
    peopleOfDay: null,
    slowestStation: null,
    cycleOfPlanSeconds: null,
    efficiencyAtPace: null,
    stock: bench.stock.units,
    stockPoints: bench.joinsAt.length,
    plan: null,
  };
}

function benchJson(answer: OffLineAnswer, bench: BenchFigures) {
  const { line } = answer;
  const { terms, hours, stock } = bench;
  const others = answer.otherHours.get(bench);
  return {
    id: bench.id,
    tasks: idsOf(line, bench.tasks),
    shifts: hours.shifts,
    hoursOfLine: numberJson(hours.ofLine),
    share: numberJson(bench.share),
    pieces: bench.pieces,
    workSeconds: secondsJson(bench.work),
    handOverSeconds: secondsJson(terms.handOver),
    takeOverSeconds: secondsJson(terms.takeOver),
    taktSeconds: secondsJson(bench.takt),
    pieceTaktSeconds: secondsJson(bench.pieceTakt),
    placesNeeded: numberJson(bench.placesNeeded),
    places: bench.places,
    stations: bench.stations.map(({ tasks, work, crew }) => ({
      tasks: idsOf(line, tasks),
      seconds: secondsJson(work),
      crew,
    })),
    stationsProved: bench.isProved,
    machines: bench.machines.map((machine) => ({
      name: machine.name,
      tasks: idsOf(
        line,
        machine.tasks.map(({ task }) => task),
      ),
      busySeconds: secondsJson(machine.busy),
      units: machine.units,
    })),
    crew: bench.crew,
    people: bench.people,
    peopleOfDay: line.calendar === null ? null : bench.peopleOfDay,
    load: numberJson(bench.load),
    dayOfWorkSeconds: secondsJson(bench.dayOfWork),
    unitsPerPlaceAndShift: unitsOfEveryShift(bench),
    unitsPerPlaceByShift: bench.unitsByShift,
    stock: {
      units: stock.units,
      start: stock.start,
      most: stock.most,
      stop: keptJson(stock.stop),
      bunch: keptJson(stock.bunch),
      resting: stock.resting,
      space: terms.space,
    },
    otherHours:
      others?.map(({ bench: other }) => ({
        shifts: other.hours.shifts,
        placesNeeded: numberJson(other.placesNeeded),
        places: other.places,
        load: numberJson(other.load),
        people: other.people,
        peopleOfDay: other.peopleOfDay,
        stockAtStart: other.stock.start,
        stock: other.stock.units,
      })) ?? null,
  };
}

function keptJson(kept: KeptStock | null) {
  return kept && { units: kept.units, refills: kept.refills, refillSeconds: secondsJson(kept.refill) };
}

function askedJson(answer: OffLineAnswer, { id, verdict, rated }: AskedBlock) {
  const { line } = answer;
  return {
    bench: id,
    tasks: idsOf(line, verdict.tasks),
    answer: verdict.hindrances.length === 0 ? "yes" : "no",
    hindrances: verdict.hindrances.map((each) => ({
      kind: each.kind,
      arrow: each.arrow && idsOf(line, each.arrow),
      message: hindranceWords(line, each),
    })),
    nearest: verdict.nearest && idsOf(line, verdict.nearest),
    block: rated && blockJson(answer, rated),
  };
}

function setJson(answer: OffLineAnswer, set: RatedSet) {
  const { plan, isBest, people } = set;
  return {
    benches: plan.benches.map((bench) => benchJson(answer, bench)),
    ...planJson(answer.line, plan),
    freed: people.freed,
    best: isBest,
    reason: setWords(answer, set),
    repairPeople: plan.repairPeople,
  };
}

function longTaskJson(line: Line, answer: LongTaskAnswer) {
  const { bench } = answer;
  return {
    task: line.tasks[answer.task]!.id,
    seconds: secondsJson(answer.taskTime),
    kind: answer.isImpossible ? "over-working-time" : "over-limit",
    places: answer.places,
    bench: bench && {
      tasks: idsOf(line, bench.tasks),
      joinsAt: line.tasks[bench.joinsAt]!.id,
      places: bench.places,
    },
    split: { parts: answer.parts, seconds: secondsJson(answer.partTime) },
    slower: slowerJson(answer.slower),
    helpedAlone: slowerJson(answer.helpedAlone),
  };
}

function withPlacesJson({ withPlaces }: OffLineAnswer["longTasks"]) {
  if (withPlaces === null) return null;
  const { efficiency, ...counts } = withPlaces;
  return { ...counts, efficiencyAtPace: numberJson(efficiency) };
}

function slowerJson({ lineCycle, unitsPerHour, units, demand, overtime, fitsDay }: SlowerPace) {
  return {
    lineCycleSeconds: secondsJson(lineCycle),
    unitsPerHour: numberJson(unitsPerHour),
    units: numberJson(units),
    period: demand?.period ?? null,
    overtimeSecondsPerShift: secondsJson(overtime),
    overtimeFitsDay: overtime === null ? null : fitsDay,
  };
}

/** Null where its shifts differ. */
function unitsOfEveryShift({ unitsByShift }: BenchFigures): number | null {
  const [first, ...others] = unitsByShift ?? [];
  return first !== undefined && others.every(({ units }) => units === first.units) ? first.units : null;
}
