import type { Line } from "../line/line.js";
import { busyMachines, type MachineTask } from "../plan/figures/machines.js";
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
    busyMachines(line, ofBench, { tasks }).map((machine) => ({
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

/** How many of an equipment a bench keeps: one for each place of a station whose tasks need it, and more where machines are slower. */
export function unitsKept(
  line: Line,
  {
    stations,
    places,
    machines,
  }: Pick<BenchWithPlaces, "stations" | "places"> & { readonly machines: readonly BenchMachine[] },
  name: string,
): number {
  return stations
    .map(({ tasks }, station) => {
      if (!tasks.some((task) => line.tasks[task]!.equipment.includes(name))) return 0;
      const machine = machines.find((each) => each.station === station && each.name === name);
      return machine?.units ?? places;
    })
    .reduce((sum, each) => sum + each, 0);
}
