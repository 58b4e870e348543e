import { type Line, mayDouble, type Task, type Wait } from "../../line/line.js";
import { endTasks, startTasks } from "../../line/precedence.js";
import { type BenchOfPlan, postsAt } from "../../plan/check/check-subject.js";
import { cycleSetBy } from "../../plan/figures/cycle.js";
import { type MachineNeed, machineNeed, machinesAt } from "../../plan/figures/machines.js";
import { outputOfDay, unitsPerHour, wantedPerDay, wantedPerShift } from "../../plan/figures/output.js";
import { type PeopleInAll, peopleInAll } from "../../plan/figures/people.js";
import {
  goodShare,
  type ScrapPace,
  scrapPaces,
  type TaskVisits,
  unevenVisits,
} from "../../plan/figures/units-tested.js";
import { stationLimit } from "../../plan/figures/working-time.js";
import type { PlanMeasures } from "../../plan/measure.js";
import { type Peak, peaksAt } from "../../plan/models/peaks.js";
import { ONE_PERSON, type Plan } from "../../plan/plan.js";
import { postOf, postsOf } from "../../plan/post.js";
import { floorStationOf, stationIds, stationNumbers } from "../../plan/station-numbers.js";
import { type NamedPerson, whoStandsWhere } from "../../plan/who-stands-where.js";
import type { Pace } from "../../time/pace.js";
import { compare, larger, ONE, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
import type { BalanceAnswer } from "./balance-answer.js";

/** A balance with what reports show beside it: of the line, of its tests, of what stands at the stations. */
export interface ShownBalance extends BalanceAnswer {
  readonly shown: BalanceFacts;
}

export interface BalanceFacts extends LineFacts, TestFacts {
  /** Limits at the pace of the demand, in microseconds, of stations with a plan-to of their own. */
  readonly ownLimits: readonly { readonly id: string; readonly limit: Ratio; readonly planTo: Ratio }[];
  /** Null without a plan. */
  readonly people: PeopleInAll | null;
  /** Good units of a day, where shifts differ in length; else null. */
  readonly outputPerDay: number | null;
  /** Good units of an hour at a pace without a calendar; else null. */
  readonly outputPerHour: Ratio | null;
  /** Good units wanted in a shift, in a day where shifts differ in length, or in an hour without a calendar; null without a demand. */
  readonly wanted: Ratio | null;
  /** Models and machines need a longer cycle than any station. */
  readonly isPacedByOthers: boolean;
  /** How often a good unit comes where waits hold the line up, in microseconds; null where they do not. */
  readonly heldTo: Ratio | null;
  /** Waits in stations that places left empty are part of, with the ids that stations there would have. */
  readonly emptyPlaces: readonly { readonly wait: Wait; readonly ids: readonly string[] }[];
  /** Stations of the floor, before the last of the plan, at which nothing is done. */
  readonly unusedStations: readonly string[];
  /** By station of the answer. */
  readonly needs: readonly StationFacts[];
  /** The least cycle as a station time, in microseconds; null where no station takes it. */
  readonly boundTime: Ratio | null;
  /** The same of the least cycle at that number of stations. */
  readonly levelTime: Ratio | null;
}

/** How a line looks as a whole. */
export interface LineFacts {
  /** Tasks with which the work starts and ends. */
  readonly starts: readonly number[];
  readonly ends: readonly number[];
  /** Its tables show one person at one place everywhere: shares, people, places and names of stations take room that narrow terminals lack. */
  readonly isPlain: boolean;
  /** A station may have parallel places. */
  readonly mayDouble: boolean;
}

/** What tests make of a line. */
export interface TestFacts {
  /** Share of the units started that pass in the end; null without tests. */
  readonly goodShare: Ratio | null;
  readonly scrapPaces: readonly ScrapPace[];
  readonly unevenVisits: readonly TaskVisits[];
}

/** What stands and who works at a station. */
export interface StationFacts {
  readonly zone: string | null;
  /** Machines of which one does not keep up. */
  readonly machines: readonly MachineNeed[];
  /** One way to staff its places by name; empty where no names are known. */
  readonly people: readonly NamedPerson[];
  /** Units on which it works longer than its working time. */
  readonly peaks: readonly Peak[];
}

/** @param benches of a plan that stands, whose people are among those of its measures */
export function shownBalance(answer: BalanceAnswer, benches: readonly BenchOfPlan[] = []): ShownBalance {
  const { line, pace, takt, rates, plan, measures, stations, bound, level } = answer;
  const sequence = sequenceToBuild(answer);
  const posts = plan === null ? [] : postsOf(line, pace, plan);
  const who = whoStandsWhere(line, stations);
  const handsAlone = stations.filter(({ passes, places }, at) => {
    const isOnce = pace.handling === 0 || compare(passes, ONE) === 0;
    return isOnce && places === 1 && cycleSetBy(posts[at]!).kind === "people";
  });
  // Models and machines may need a cycle that is no station's time, and so may stations with several places or that units pass more than once.
  const timeIn = (cycle: Ratio) => {
    const time = subtract(cycle, ratio(pace.handling));
    const isTimeOfAll = rates === null && handsAlone.length === stations.length;
    return isTimeOfAll || handsAlone.some(({ stationTime }) => compare(stationTime, time) >= 0) ? time : null;
  };
  const { output } = measures?.ofUnequalShifts ?? { output: null };
  const shown: BalanceFacts = {
    ...lineFacts(line),
    ...testFacts(line, pace.lineCycle),
    ownLimits: takt === null ? [] : ownLimits(line, takt.pace),
    people: measures && peopleInAll(line, measures, postsAt(benches)),
    outputPerDay: output && outputOfDay(output),
    outputPerHour:
      takt === null || measures === null || line.calendar !== null
        ? null
        : unitsPerHour(line, measures.outputCycle),
    wanted: wantedPerShift(line, takt) ?? wantedPerDay(line, takt) ?? takt?.demandPerHour ?? null,
    isPacedByOthers: rates !== null && measures !== null && compare(measures.cycleOfPlan, pace.lineCycle) < 0,
    heldTo: measures && heldTo(measures, rates === null ? ZERO : pace.lineCycle),
    emptyPlaces: plan === null ? [] : emptyPlaces(line, plan),
    unusedStations: plan === null ? [] : unusedStations(line, plan),
    needs: stations.map((station, at) => ({
      zone: floorStationOf(line, station.id)?.zone ?? null,
      machines: machinesAt(line, pace, station)
        .filter(({ needed }) => needed > 1)
        .map((machine) => machineNeed(line, pace, machine)),
      people: who?.get(station.id) ?? [],
      peaks: sequence === null ? [] : peaksAt(line, pace, station, sequence, posts[at]),
    })),
    boundTime: bound?.cycleOfPlan ? timeIn(bound.cycleOfPlan) : null,
    levelTime: level && timeIn(level.cycleOfPlan),
  };
  return { ...answer, shown };
}

/** @param paced a longer cycle that the plan is worked at, 0 without one */
function heldTo({ cycleOfPlan, outputCycle }: PlanMeasures, paced: Ratio): Ratio | null {
  return compare(outputCycle, larger(cycleOfPlan, paced)) > 0 ? outputCycle : null;
}

function emptyPlaces(line: Line, plan: Plan): BalanceFacts["emptyPlaces"] {
  const numbers = stationNumbers(line, plan);
  const numberOf = (task: number) => numbers[plan.stations.findIndex(({ tasks }) => tasks.includes(task))];
  const long = line.waits.filter(({ stations }) => stations >= 2);
  return long.flatMap((wait) => {
    const [first, last] = [numberOf(wait.from), numberOf(wait.to)];
    if (first === undefined || last === undefined) return [];
    const between = Array.from({ length: Math.max(0, last - first - 1) }, (_, at) => first + 1 + at);
    const ids = stationIds(
      line,
      between.filter((number) => !numbers.includes(number)),
    );
    return ids.length === 0 ? [] : [{ wait, ids }];
  });
}

function unusedStations(line: Line, plan: Plan): string[] {
  if (!line.isFloorListed) return [];
  const numbers = stationNumbers(line, plan);
  return line.floor.flatMap(({ id }, at) => (at < Math.max(...numbers) && !numbers.includes(at) ? [id] : []));
}

/** The sequence in which units enter the line, as numbers of models; null where a line with models has no plan. */
function sequenceToBuild({ line, models }: BalanceAnswer): readonly number[] | null {
  if (line.models.length === 0) return [0];
  return models && (models.mix.given ?? models.mix.proposed.sequence);
}

export function lineFacts(line: Line): LineFacts {
  const isPlainTask = ({ visits }: Task) => visits.every((each) => compare(each, ONE) === 0);
  return {
    starts: startTasks(line.before),
    ends: endTasks(line.before),
    isPlain:
      line.models.length === 0 &&
      line.tasks.every(isPlainTask) &&
      !mayDouble(line) &&
      line.floor.length === 0 &&
      line.tasks.every(({ people, side }) => people === 1 && side === null),
    mayDouble: mayDouble(line),
  };
}

/** @param lineCycle in microseconds */
export const testFacts = (line: Line, lineCycle: Ratio): TestFacts => ({
  goodShare: goodShare(line),
  scrapPaces: scrapPaces(line, lineCycle),
  unevenVisits: unevenVisits(line),
});

function ownLimits(line: Line, pace: Pace): BalanceFacts["ownLimits"] {
  return line.floor.flatMap(({ id, planTo }) => {
    if (planTo === null) return [];
    const post = postOf(line, pace, { ...ONE_PERSON, id, tasks: [] });
    const limit = stationLimit(post, pace.lineCycle);
    return [{ id, limit, planTo }];
  });
}
