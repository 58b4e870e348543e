import { countShares } from "../../benches/count-shares.js";
import type { Finding } from "../../findings/finding.js";
import type { Lifting, Line } from "../../line/line.js";
import { type LiftFigures, liftFigures } from "../../line/parts/lifting.js";
import { unitsPerShift } from "../../line/parts/limits.js";
import { passesOf } from "../../line/passes.js";
import { visitsPerGoodUnit } from "../../line/visits.js";
import type { BenchOfPlan } from "../../plan/check/check-subject.js";
import { machineRun, machineTime, manualTime, walkingTime } from "../../plan/figures/kinds-of-time.js";
import { type LimitUse, limitsUsed } from "../../plan/figures/limits-used.js";
import { standardStock, standardStockInLine } from "../../plan/figures/standard-stock.js";
import { stationLimit, workingTime } from "../../plan/figures/working-time.js";
import { fingerprintOf } from "../../plan/fingerprint.js";
import { stationNamed } from "../../plan/named.js";
import type { Plan, Station } from "../../plan/plan.js";
import { type Post, postsOf } from "../../plan/post.js";
import { takersOf } from "../../plan/station-order.js";
import type { Pace } from "../../time/pace.js";
import { add, divide, larger, multiply, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
import { accept, type Reading, refuse } from "../../time/reading.js";
import { MICROS_IN } from "../../time/units.js";
import { type LineToCheck, PlanChecker, type ReadPlan } from "../balance/check-against-line.js";
import {
  type Batch,
  batchOfShift,
  batchOfUnits,
  inHours,
  type PartAtPost,
  partsAt,
} from "../parts/answer-parts.js";
import { type StationChart, stationChart } from "../show/station-chart.js";
import { type TrainingMatrix, trainingMatrix } from "./training-matrix.js";

/** A task of a sheet; times in microseconds for one good unit that comes to the station. */
export interface SheetTask {
  readonly task: number;
  /** The side, the numbers of the persons, or null where everybody of the place works together. */
  readonly who: string | readonly number[] | null;
  /** Hands, walking included. */
  readonly time: Ratio;
  /** What a machine then runs by itself. */
  readonly machine: Ratio;
  /** Time of the busiest of those who do it, up to the end of this task. */
  readonly total: Ratio;
}

/** A lift of a task with the figures of the lifting equation at its start and its end. */
export interface SheetLift {
  readonly task: number;
  readonly lifting: Lifting;
  readonly perMinute: Ratio;
  readonly ends: readonly LiftFigures[];
}

/** Everything that people at one station or bench need on paper; times in microseconds for one good unit that comes there. */
export interface Sheet {
  readonly id: string;
  readonly kind: "station" | "bench";
  readonly station: Station;
  /** Share of the units of the line that come here. */
  readonly share: Ratio;
  readonly tasks: readonly SheetTask[];
  /** What handing over takes, on top of the tasks; 0 at a station. */
  readonly handOver: Ratio;
  /** Of the busiest person of a place. */
  readonly stationTime: Ratio;
  readonly stationLimit: Ratio;
  readonly workingTime: Ratio;
  readonly hands: Ratio;
  readonly walking: Ratio;
  readonly machine: Ratio;
  /** Null where one person works and no machine runs. */
  readonly chart: StationChart | null;
  readonly skills: readonly string[];
  readonly equipment: readonly string[];
  readonly standardStock: number;
  /** How often the work of the place comes round in the longest shift; null where nothing says how much a shift makes. */
  readonly cyclesPerShift: Ratio | null;
  readonly limits: readonly LimitUse[];
  /** Lifts of which the file states the distances. */
  readonly lifts: readonly SheetLift[];
  readonly parts: readonly PartAtPost[];
  readonly people: readonly string[];
}

/** The sheets of a plan, and who can do what. */
export interface SheetsAnswer {
  readonly line: Line;
  readonly plan: Plan;
  readonly pace: Pace;
  readonly planFile: string;
  /** That of the line which the plan was made for, null where it does not say; and that of the line as it is. */
  readonly fingerprint: { readonly ofPlan: string | null; readonly ofLine: string };
  /** As the user gives it; null where none is given. */
  readonly date: string | null;
  /** What parts are counted for: a shift, or one good unit where nothing says what a shift makes. */
  readonly batch: Batch;
  readonly sheets: readonly Sheet[];
  /** Null where no task needs a skill and nobody has one. */
  readonly training: TrainingMatrix | null;
  readonly findings: readonly Finding[];
}

/** A plan that stands, with what its check found. */
export interface StandingPlan {
  /** As the benches of the plan leave it. */
  readonly line: Line;
  readonly plan: Plan;
  readonly benches: readonly BenchOfPlan[];
  readonly findings: readonly Finding[];
}

/** The sheets of a plan as it was read, which is checked first, with what the check found of the plan itself. */
export async function checkAndAnswer(
  against: LineToCheck,
  reading: ReadPlan,
  lineFile: string | null,
  date: string | null,
): Promise<{ readonly answer: SheetsAnswer; readonly findings: readonly Finding[] }> {
  // What the policy asks of the least takes a search, and changes no sheet.
  const line = { ...against.line, policy: { ...against.line.policy, maxAboveLeast: null } };
  const checker = new PlanChecker({ ...against, line }, { nodes: 0, checkpoint: () => null });
  const standing = await checker.check(reading, lineFile);
  const { findings } = standing.checked;
  const fingerprint = reading.madeFor?.fingerprint ?? null;
  const about = { planFile: reading.file, fingerprint, date, asRead: against.asRead };
  const all = [...checker.lineFindings, ...findings];
  return { answer: answerSheets(line, against.pace, { ...standing, findings: all }, about), findings };
}

/** Sheets of an answer, and the training matrix; null where it is not asked for or there is none. */
export interface ChosenSheets {
  readonly sheets: readonly Sheet[];
  readonly training: TrainingMatrix | null;
}

/** Those that are asked for, all of them unless one is named; or what is wrong with what is asked, its name first. */
export function chooseSheets(
  answer: SheetsAnswer,
  { station, training }: { readonly station?: string; readonly training?: boolean },
): Reading<ChosenSheets> {
  if (training) {
    if (answer.training !== null) return accept({ sheets: [], training: answer.training });
    return refuse(
      "training: no task of this line needs a skill, and nobody has one; give tasks `skill` and the line `people`",
    );
  }
  if (station === undefined) return accept(answer);
  const named = stationNamed(answer.plan, station);
  if (!named.ok) return refuse(`station: ${named.problem}`);
  const { id } = named.value;
  const isOf = (sheet: Sheet) => sheet.id === id || sheet.id.startsWith(`${id}, station `);
  return accept({ sheets: answer.sheets.filter(isOf), training: null });
}

/**
 * @param asked the line at the pace that is asked for
 * @param about where the plan comes from, the date of the sheets, and the line as its file has it, whatever pace is asked for
 */
export function answerSheets(
  asked: Line,
  pace: Pace,
  { line, plan, benches, findings }: StandingPlan,
  about: {
    readonly planFile: string;
    readonly fingerprint: string | null;
    readonly date: string | null;
    readonly asRead: Line;
  },
): SheetsAnswer {
  const counted = countShares(asked);
  const batch = batchOfShift(asked, pace.takt, null) ?? batchOfUnits(asked, pace.takt, ratio(1), null);
  const training = trainingMatrix(line, plan);
  const namesAt = new Map(training?.places.map(({ id, assigned }) => [id, assigned]));
  const posts = postsOf(line, pace, plan);
  const ofStations = plan.stations.map((station, at): Sheet => {
    const post = posts[at]!;
    return {
      ...sheetOf(line, pace, post, station, batch),
      kind: "station",
      chart: isWorthAChart(line, station) ? stationChart(asked, pace, plan, station, null) : null,
      limits: limitsUsed(line, station),
      people: namesAt.get(station.id) ?? [],
    };
  });
  const ofBenches = benches.flatMap(({ bench, posts: parts }) =>
    parts.map((post): Sheet => {
      const station = { ...bench, id: post.id, tasks: post.tasks };
      const isWhole = parts.length === 1;
      return {
        ...sheetOf(counted, pace, post, station, batch),
        kind: "bench",
        chart: isWhole && isWorthAChart(line, bench) ? stationChart(asked, pace, plan, bench, null) : null,
        limits: [],
        people: [],
      };
    }),
  );
  return {
    line,
    plan,
    pace,
    planFile: about.planFile,
    fingerprint: { ofPlan: about.fingerprint, ofLine: fingerprintOf(about.asRead) },
    date: about.date,
    batch,
    sheets: [...ofStations, ...ofBenches],
    training,
    findings,
  };
}

const isWorthAChart = (line: Line, { tasks, crew }: Station): boolean =>
  crew > 1 || tasks.some((task) => line.tasks[task]!.machineTime > 0);

function sheetOf(
  line: Line,
  { lineCycle }: Pace,
  post: Post,
  station: Station,
  batch: Batch,
): Omit<Sheet, "kind" | "chart" | "limits" | "people"> {
  const { share, places, hours } = post;
  const each = (value: Ratio) => divide(value, share);
  const all = station.tasks.map((task) => line.tasks[task]!);
  const started = unitsPerShift(line);
  const loads = station.tasks.map((task) => each(line.tasks[task]!.load));
  const busiest = new Map<number | string, Ratio>();
  const tasks = station.tasks.map((task, at): SheetTask => {
    for (const taker of takersOf(station, at))
      busiest.set(taker, add(busiest.get(taker) ?? ZERO, loads[at]!));
    return {
      task,
      who: station.persons?.[at] ?? station.sides?.[at] ?? null,
      time: loads[at]!,
      machine: each(machineRun(line, line.tasks[task]!)),
      total: takersOf(station, at)
        .map((taker) => busiest.get(taker)!)
        .reduce(larger, ZERO),
    };
  });
  const worked = [...busiest.values()].reduce(larger, ZERO);
  return {
    id: post.id,
    station,
    share,
    tasks,
    handOver: subtract(post.busy, worked),
    stationTime: post.busy,
    stationLimit: each(stationLimit(post, lineCycle)),
    workingTime: each(workingTime(post, lineCycle)),
    hands: each(manualTime(line, station)),
    walking: each(walkingTime(line, station)),
    machine: each(machineTime(line, station)),
    skills: [...new Set(all.flatMap(({ skills }) => skills))],
    equipment: [...new Set(all.flatMap(({ equipment }) => equipment))],
    standardStock:
      line.flow.pacing !== "unpaced" && post.kind === "station"
        ? standardStockInLine(line, station)
        : standardStock(post, lineCycle),
    cyclesPerShift:
      started === null
        ? null
        : divide(
            multiply(multiply(started, share), passesOf(line, station.tasks, share)),
            multiply(ratio(places), hours),
          ),
    lifts: liftsAt(line, divide(multiply(lineCycle, hours), share), station),
    parts: partsAt(line, inHours(batch, hours), station.tasks),
  };
}

/** Where the file does not say how often, a workplace lifts each piece as often as the task is performed at the pace. */
function liftsAt(line: Line, interval: Ratio, { tasks, places }: Station): SheetLift[] {
  return tasks.flatMap((task) => {
    const { lifting, quantity } = line.tasks[task]!;
    if (lifting === null) return [];
    const often = multiply(visitsPerGoodUnit(line, line.tasks[task]!), ratio(quantity));
    const atPace = divide(multiply(often, ratio(MICROS_IN.min)), multiply(interval, ratio(places)));
    const perMinute = lifting.perMinute ?? atPace;
    return [{ task, lifting, perMinute, ends: liftFigures(lifting, perMinute) }];
  });
}
