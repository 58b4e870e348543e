import type { Line } from "../line/line.js";
import { visitsOfLine } from "../line/visits.js";
import type { BenchBeside } from "../plan/bench-beside.js";
import type { Plan } from "../plan/plan.js";
import { unitsAtPlace } from "../plan/units-at-place.js";
import type { Micros } from "../time/duration.js";
import { add, divide, floor, multiply, type Ratio, ratio } from "../time/ratio.js";
import { type DayHours, dayHours } from "./day-hours.js";
import { type RigStation, rigStation } from "./shared-rigs.js";
import { type WorkOfUnit, workOfStation } from "./station-work.js";

/** The benches of a plan, with the line of which they are beside: with their tasks, and with what they scrap. */
export interface BenchesBeside {
  readonly whole: Line;
  readonly benches: readonly BenchBeside[];
}

/** A station of a bench. */
interface BenchStation {
  /** Where a set may stand: as many at a workplace as it holds. */
  readonly places: number;
  readonly work: WorkOfUnit;
  /** Equipment and people that its sets share; null where each has its own. */
  readonly rigs: RigStation | null;
}

/** A bench while the line runs. */
export interface RunBench extends Pick<BenchBeside, "id" | "room" | "start"> {
  /** Number of the first station that its parts join at. */
  readonly joins: number;
  readonly stations: readonly BenchStation[];
  readonly carries: (unit: number) => boolean;
  /** When line and bench work; null without a calendar: both at the same time. */
  readonly day: DayHours | null;
}

/**
 * Benches whose parts join the line at a station of the plan.
 *
 * @param once each unit of the line is worked once, as failures are drawn one by one
 */
export function layOutBenches(
  { whole, benches }: BenchesBeside,
  { stations }: Plan,
  sequence: readonly number[],
  once: boolean,
): RunBench[] {
  return benches.flatMap((bench): RunBench[] => {
    const joins = stations.findIndex(({ tasks }) => tasks.some((task) => bench.joinsAt.includes(task)));
    const { models } = bench;
    const isAsked = models === null || sequence.some((model) => models.includes(model));
    if (joins < 0 || !isAsked) return [];
    const line = once ? forEachSet(whole, bench) : whole;
    const { id, room, start } = bench;
    const day = dayHours(whole, bench.shifts);
    return [
      {
        id,
        joins,
        room,
        start,
        day,
        carries: carriesOf(bench, sequence),
        stations: bench.stations.map((station, at) => {
          const hours = day?.bench ?? null;
          const work = workOfStation(line, station, sequence, false, 1, hours);
          const more = at === bench.stations.length - 1 ? handOverAt(whole, bench, once) : 0;
          const handing: WorkOfUnit = (unit, stream, due, from) => work(unit, stream, due, from) + more;
          const holds = unitsAtPlace(line, station, bench.holds);
          const post = { equipment: bench.equipment[at]!, holds };
          const rigs = rigStation(line, station, post, sequence, false, 1, hours);
          const { times } = rigs ?? {};
          return {
            places: station.places * holds,
            work: more === 0 ? work : handing,
            // Whoever hands parts over does nothing else meanwhile, as with handling.
            rigs: rigs && { ...rigs, times: { ...times!, handling: times!.handling + more } },
          };
        }),
      },
    ];
  });
}

/** How often parts leave the bench for one good unit that carries them. */
function leavingOf(line: Line, { stations }: BenchBeside): Ratio {
  return visitsOfLine(line).leaving[stations.at(-1)!.tasks.at(-1)!]!;
}

const handOverAt = (line: Line, bench: BenchBeside, once: boolean): Micros =>
  once
    ? bench.handOver
    : Number(floor(add(multiply(ratio(bench.handOver), leavingOf(line, bench)), ratio(1, 2))));

/** The line with visits of the bench's tasks for each set that leaves it, in place of each good unit. */
function forEachSet(line: Line, bench: BenchBeside): Line {
  const leaving = leavingOf(line, bench);
  const own = new Set(bench.stations.flatMap(({ tasks }) => tasks));
  const tasks = line.tasks.map((task, at) =>
    own.has(at) ? { ...task, visits: task.visits.map((each) => divide(each, leaving)) } : task,
  );
  return { ...line, tasks };
}

/** Units with the parts: those of some models, or evenly as many as the share says. */
function carriesOf({ models, share }: BenchBeside, sequence: readonly number[]): RunBench["carries"] {
  if (models !== null) return (unit) => models.includes(sequence[unit % sequence.length]!);
  if (share.num === share.den) return () => true;
  const [num, den] = [Number(share.num), Number(share.den)];
  return (unit) => ((unit + 1) * num) % den < num;
}
