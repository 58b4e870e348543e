import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import type { Line } from "../../line/line.js";
import type { MachineNeed } from "../../plan/figures/machines.js";
import type { PaceKept } from "../../plan/figures/pace-kept.js";
import type { StationMeasures } from "../../plan/measure.js";
import type { StationMix } from "../../plan/models/measure-mix.js";
import type { Peak } from "../../plan/models/peaks.js";
import { numberJson, secondsJson } from "./number-json.js";

/** One station of the result document; what the line has nothing of is null. */
export function stationJson({ line, models, shown }: ShownBalance, station: StationMeasures, at: number) {
  const { zone, machines, people, peaks } = shown.needs[at]!;
  const mix = models?.mix.stations[at] ?? null;
  return {
    id: station.id,
    /** Ids of tasks, in order of work. */
    tasks: station.tasks.map((task) => line.tasks[task]!.id),
    /** Station time: busy time of the busiest person of one place, per good unit. */
    seconds: secondsJson(station.stationTime),
    /** What may be loaded: working time x plan-to. */
    limitSeconds: secondsJson(station.stationLimit),
    /** Of its people, per unit. */
    idleSeconds: secondsJson(station.idle),
    /** Beyond the working time. */
    overloadSeconds: secondsJson(station.overload),
    /** Parallel workplaces, which take units in turn. */
    places: station.places,
    /** People together at one place. */
    crew: station.crew,
    /** Crew x places. */
    operators: station.operators,
    zone: zone,
    manualSeconds: secondsJson(station.manualTime),
    walkingSeconds: secondsJson(station.walkingTime),
    machineSeconds: secondsJson(station.machineTime),
    /** Of the unit that takes it longest. */
    peakSeconds: secondsJson(station.peakTime),
    ...mixJson(line, mix),
    /** Units on which it works longer than its working time, and how it catches up; null where there are none. */
    peaks: peaks.length === 0 ? null : peaks.map((peak) => peakJson(line, peak)),
    /** When each task starts, in order of work. */
    starts: startsJson(line, station),
    skills: station.skills,
    equipment: station.equipment,
    uses:
      station.uses?.map(({ name, used, most, unit, per }) => ({
        limit: name,
        used: numberJson(used),
        most: numberJson(most),
        unit,
        per,
      })) ?? null,
    /** One way to staff it by name; null where no names are known. */
    people: people.length === 0 ? null : people.map(({ name }) => name),
    machines: machines.length === 0 ? null : machines.map(machineJson),
    /** How long a unit stands there, machine time included. */
    dwellSeconds: secondsJson(station.dwell),
    /** Units that may stand at a place at a time. */
    holds: station.holds,
    /** How long a unit keeps each equipment. */
    equipmentSeconds: Object.fromEntries(
      [...station.equipmentTimes].map(([name, time]) => [name, secondsJson(time)]),
    ),
    /** Who of the crew does each task, from 1, where people share a unit. */
    persons: station.persons,
    taskNames: station.tasks.map((task) => line.tasks[task]!.name),
    ...(station.paceKept === null ? {} : { keepPace: paceKeptJson(station.paceKept) }),
  };
}

/** How far the station may be loaded where its times vary; only where a chance is asked. */
const paceKeptJson = ({ asked, model, mean, deviation, needed, planTo, chance }: PaceKept) => ({
  asked: numberJson(asked.chance),
  z: numberJson(asked.score),
  deviationSeconds: secondsJson(deviation),
  neededSeconds: secondsJson(needed),
  planTo: numberJson(planTo),
  chance: numberJson(chance),
  ...(model !== null && { model, meanSeconds: secondsJson(mean) }),
});

/** A machine of which one does not keep up. */
const machineJson = ({ name, task, busy, needed }: MachineNeed) => ({
  name,
  task,
  busySeconds: secondsJson(busy),
  needed,
});

/** Units on which the station works longer than its working time, and how it catches up. */
function peakJson(line: Line, peak: Peak) {
  const modelOf = (model: number | null) => (model === null ? null : (line.models[model]?.id ?? null));
  const { catchUp } = peak;
  return {
    model: modelOf(peak.model),
    every: peak.every,
    tasks: peak.tasks.map((task) => line.tasks[task]!.id),
    seconds: secondsJson(peak.time),
    overSeconds: secondsJson(peak.over),
    catchUp: catchUp && {
      units: catchUp.units,
      secondsEach: secondsJson(catchUp.spare),
      model: modelOf(catchUp.model),
    },
    driftSeconds: secondsJson(peak.drift),
    driftRoomSeconds: secondsJson(peak.driftRoom),
    by: peak.by.kind,
    equipment: peak.by.kind === "equipment" ? peak.by.name : null,
    severity: peak.severity,
  };
}

function mixJson(line: Line, mix: StationMix | null) {
  const idOf = (model: number) => line.models[model]!.id;
  return {
    averageSeconds: secondsJson(mix?.average ?? null),
    averageShareOfWorkingTime: numberJson(mix?.averageShare ?? null),
    worstModel: mix?.worst
      ? {
          model: idOf(mix.worst.model),
          seconds: secondsJson(mix.worst.stationTime),
          shareOfWorkingTime: numberJson(mix.worst.share),
        }
      : null,
    driftRoomSeconds: mix && {
      given: secondsJson(mix.givenDrift?.room ?? null),
      proposed: secondsJson(mix.proposedDrift.room),
    },
    driftGrows: mix && { given: mix.givenDrift?.grows ?? null, proposed: mix.proposedDrift.grows },
  };
}

/** When each task starts, in the order of work; the side is null where the line has none. */
function startsJson(line: Line, { tasks, sides, starts }: StationMeasures) {
  return tasks.map((task, at) => ({
    task: line.tasks[task]!.id,
    side: sides?.[at] ?? null,
    startSeconds: secondsJson(starts[at]!),
  }));
}
