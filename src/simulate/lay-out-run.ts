import { type Finding, finding, type Place } from "../findings/finding.js";
import { nearestWords } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import type { Line } from "../line/line.js";
import { columnOf } from "../line/task-load.js";
import { carriersOfPlan } from "../plan/figures/carriers.js";
import { modelsInTurn, modelsMet } from "../plan/models/models-in-turn.js";
import type { Plan } from "../plan/plan.js";
import { postsOf } from "../plan/post.js";
import { emptyBefore } from "../plan/station-numbers.js";
import { unitsAtPlace } from "../plan/units-at-place.js";
import { paceFromCycle } from "../time/pace.js";
import { quoted } from "../time/quoted.js";
import { divide, ratio, toNumber } from "../time/ratio.js";
import { type BenchesBeside, layOutBenches } from "./bench-of-run.js";
import { dayHours } from "./day-hours.js";
import { layOutParts, type OneMore } from "./part-containers.js";
import { rigStation } from "./shared-rigs.js";
import { longestWork, workOfStation } from "./station-work.js";
import { drawsFailures, testedLine } from "./tested-units.js";
import type { RunLine, RunStation } from "./watched-line.js";

/** What keeps a plan from being simulated: names of stations that it does not have, a pace that is missing, no work at all. */
export function faultsOfRun(line: Line, plan: Plan, lineCycle: number | null): Finding[] {
  const { stations } = plan;
  const { flow, file, tasks } = line;
  const refuse = (rule: string, message: string, place: Place | null = null) =>
    finding({ rule, severity: "error", message, file, place });
  const known = new Set(stations.map(({ id }) => idKey(id)));
  const names = stations.map(({ id }) => id);
  const unknown = (key: string, station: string, place: Place) =>
    known.has(idKey(station))
      ? []
      : [
          refuse(
            "unknown-station",
            `${key}: the plan has no station ${quoted(station)}${nearestWords(station, names)}`,
            place,
          ),
        ];
  const afterLast = flow.buffers.filter(
    ({ station }) => names.length > 0 && idKey(station) === idKey(names.at(-1)!),
  );
  const twice = flow.buffers.filter(
    ({ station }, at) => flow.buffers.findIndex((each) => idKey(each.station) === idKey(station)) < at,
  );
  const works = stations.some((station) =>
    station.tasks.some((task) => tasks[task]!.times.some((time) => (time ?? 0) > 0)),
  );
  return [
    ...flow.buffers.flatMap(({ station, place }) => unknown("buffers", station, place)),
    ...afterLast.map(({ station, place }) =>
      refuse(
        "buffer-after-last",
        `buffers: no station follows ${station}, and units leave the line there`,
        place,
      ),
    ),
    ...twice.map(({ station, place }) =>
      refuse("buffer-twice", `buffers: the buffer after ${station} is given twice; keep one of them`, place),
    ),
    ...flow.breakdowns.flatMap(({ station, place }) => unknown("breakdowns", station, place)),
    ...(flow.pacing === "moving" && lineCycle === null
      ? [
          refuse(
            "no-pace",
            'a moving line needs a pace: put `demand:` in the line file, or give --demand "176 per day" or --cycle "60 s"',
          ),
        ]
      : []),
    ...(works
      ? []
      : [refuse("no-work", "no station of the plan has any work, so there is nothing to simulate")]),
    ...(works && !isEverAtWork(line, plan)
      ? [
          refuse(
            "no-work",
            "no unit has any work: what is done on every so many units never meets a model that has it; change `every` or `sequence`",
          ),
        ]
      : []),
  ];
}

/** Whether time goes on: where nothing else moves an unpaced line, some unit in the order of the models must have work. */
function isEverAtWork(line: Line, plan: Plan): boolean {
  if (line.flow.pacing !== "unpaced" || line.handling > 0) return true;
  const models = modelsInTurn(line, plan)?.models ?? [0];
  return plan.stations.some((station) =>
    station.tasks.some((number) => {
      const task = line.tasks[number]!;
      const { every, times, machineTime } = task;
      return modelsMet(models, every).some((model) => {
        const time = times[columnOf(task, model)]!;
        return time !== null && time + machineTime > 0;
      });
    }),
  );
}

/** The stations of a plan with what is simulated of them. */
export function layOutRun(
  line: Line,
  plan: Plan,
  sequence: readonly number[],
  lineCycle: number | null,
  timesAsLong = 1,
  beside: BenchesBeside | null = null,
  oneMore: OneMore | null = null,
): RunLine {
  const { flow } = line;
  const { stations } = plan;
  const tested = drawsFailures(line, plan)
    ? testedLine(line, plan, lineCycle === null ? longestWork(line, plan) : ratio(lineCycle))
    : null;
  const pace = {
    ...paceFromCycle(Math.max(1, lineCycle ?? Math.round(toNumber(longestWork(line, plan))))),
    handling: line.handling,
  };
  const isShared = line.equipment.size > 0 || stations.some((station) => unitsAtPlace(line, station) > 1);
  const posts = isShared ? postsOf(line, pace, plan) : null;
  const sizes = new Map(flow.buffers.map(({ station, size }) => [idKey(station), size]));
  const breakdowns = new Map(flow.breakdowns.map((each) => [idKey(each.station), each]));
  const floor = new Map(line.floor.map((each) => [idKey(each.id), each]));
  const waits = waitsAfter(line, plan);
  const empty = emptyBefore(line, plan);
  const fixtures = fixturesBefore(line, plan, waits);
  const hours = goesOnInPauses(line, plan) ? dayHours(line, null)!.line : null;
  return {
    lineCycle:
      lineCycle === null || tested === null || flow.pacing === "unpaced"
        ? lineCycle
        : Math.max(1, Math.round(toNumber(divide(ratio(lineCycle), carriersOfPlan(line, plan))))),
    hours,
    tested,
    sequence,
    parts: layOutParts(line, plan, pace.lineCycle, sequence, tested !== null, oneMore),
    benches: beside === null ? [] : layOutBenches(beside, plan, sequence, tested !== null),
    stations: stations.map((station, at) => {
      const before = stations[at - 1];
      const holds = unitsAtPlace(line, station);
      return {
        places: station.places * holds,
        emptyBefore: flow.pacing === "unpaced" ? 0 : empty[at]!,
        work: workOfStation(line, station, sequence, tested !== null, timesAsLong, hours),
        rigs:
          posts &&
          rigStation(line, station, { ...posts[at]!, holds }, sequence, tested !== null, timesAsLong, hours),
        waits: waits[at]!,
        fixtures: fixtures[at]!,
        breakdowns: breakdowns.get(idKey(station.id)) ?? null,
        buffer: before === undefined ? 0 : (sizes.get(idKey(before.id)) ?? flow.buffer),
        room: flow.pacing === "moving" ? (floor.get(idKey(station.id))?.driftRoom ?? line.driftRoom ?? 0) : 0,
      };
    }),
  };
}

/** Whether waits or machines of the line go on while nobody works. */
export const goesOnInPauses = (line: Line, plan: Plan): boolean =>
  line.calendar !== null &&
  (waitsAfter(line, plan).some((waits) => waits.length > 0) ||
    plan.stations.some(({ tasks }) => tasks.some((task) => line.tasks[task]!.machineTime > 0)));

/**
 * By station, the units that wait before it at once where the slowest station never stands, and one more; 0 where none waits.
 *
 * @param waits those that follow each station
 */
function fixturesBefore(line: Line, plan: Plan, waits: readonly RunStation["waits"][]): number[] {
  const longest = plan.stations.map(() => 0);
  for (const { station, byModel } of waits.flat()) longest[station] = Math.max(longest[station]!, ...byModel);
  const slowest = Math.max(1, toNumber(longestWork(line, plan)));
  return longest.map((wait) => (wait === 0 ? 0 : 1 + Math.ceil(wait / slowest)));
}

/** By station, waits from its tasks to tasks of later ones, which count from when the station is done. */
function waitsAfter(line: Line, { stations }: Plan): RunStation["waits"][] {
  const stationWith = new Map(stations.flatMap(({ tasks }, at) => tasks.map((task) => [task, at] as const)));
  const waits = stations.map((): RunStation["waits"][number][] => []);
  for (const { from, to, wait, byModel } of line.waits) {
    const [before, station] = [stationWith.get(from), stationWith.get(to)];
    if (wait === 0 || before === undefined || station === undefined || station <= before) continue;
    const tasks = [from, to].map((task) => line.tasks[task]!);
    const models = [...new Array(Math.max(1, line.models.length)).keys()];
    waits[before]!.push({
      station,
      after: from,
      everies: tasks.map(({ every }) => every),
      byModel: models.map((model) =>
        tasks.some((task) => task.times[columnOf(task, model)] === null) ? 0 : (byModel?.[model] ?? wait),
      ),
    });
  }
  return waits;
}
