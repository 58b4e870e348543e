import type { Line } from "../line/line.js";
import { type MachineTask, machinesAt as machinesAtStation, unitsFor } from "../plan/figures/machines.js";
import { ONE_PERSON } from "../plan/plan.js";
import { equipmentTimes } from "../plan/station-schedule.js";
import type { Pace } from "../time/pace.js";
import { divide, multiply, type Ratio } from "../time/ratio.js";

/** A machine at a bench, loaded by hand and then running by itself; times in microseconds for one unit that carries the parts. */
export interface BenchMachine {
  /** The equipment; null for a machine that the file gives no name. */
  readonly name: string | null;
  /** Index of its station of the bench. */
  readonly station: number;
  readonly tasks: readonly MachineTask[];
  /** How long a unit keeps one of them busy: loading + running. */
  readonly busy: Ratio;
  /** So many keep up: busy time / takt of the bench, rounded up. */
  readonly needed: number;
  /** The same, one for each place at the least. */
  readonly units: number;
}

/** What a bench is like, as far as its machines depend on it. */
interface BenchWithPlaces {
  readonly stations: readonly { readonly tasks: readonly number[] }[];
  readonly places: number;
  readonly takt: Ratio;
  readonly share: Ratio;
}

/**
 * The machines of a bench, held against its own takt as those of a station are held against the line cycle: of so many, each has a
 * takt for a unit. Loads of the line are means over units with and without the parts.
 */
export function machinesAt(line: Line, pace: Pace, bench: BenchWithPlaces): BenchMachine[] {
  const { stations, places, takt, share } = bench;
  const ofBench = { ...pace, lineCycle: multiply(takt, share) };
  return stations.flatMap(({ tasks }, station) =>
    machinesAtStation(line, ofBench, { ...ONE_PERSON, id: "", tasks }).map((machine) => ({
      name: machine.name,
      station,
      tasks: machine.tasks.map(({ task, loading, run }) => ({
        task,
        loading: divide(loading, share),
        run: divide(run, share),
      })),
      busy: divide(machine.busy, share),
      needed: machine.needed,
      units: Math.max(places, machine.needed),
    })),
  );
}

/** How long a unit that carries the parts keeps each equipment of a station of a bench, in microseconds, in the order of the tasks. */
export function heldAtBench(
  line: Line,
  tasks: readonly number[],
  share: Ratio,
): { readonly name: string; readonly held: Ratio }[] {
  return [...equipmentTimes(line, { ...ONE_PERSON, id: "", tasks })].map(([name, held]) => ({
    name,
    held: divide(held, share),
  }));
}

/**
 * How many of an equipment a bench keeps: at each station whose tasks need it so many as keep its takt, one at the least; places of a
 * station share what is free often enough.
 */
export function unitsKept(
  line: Line,
  { stations, takt, share }: Pick<BenchWithPlaces, "stations" | "takt" | "share">,
  name: string,
): number {
  return stations
    .map(({ tasks }) => heldAtBench(line, tasks, share).find((each) => each.name === name))
    .reduce((sum, each) => (each === undefined ? sum : sum + unitsFor(each.held, takt)), 0);
}
