import { lineBeside, whoIsAtBenches } from "../../benches/bench-of-plan.js";
import type { Line } from "../../line/line.js";
import { withoutTasks } from "../../line/without-tasks.js";
import type { Plan, Station } from "../../plan/plan.js";

/** Who is at the benches that stay as they are, which no number of people of a rebalance counts. */
export interface AtBenches {
  readonly peopleAtBenches: number;
}

/** A line without what its plan builds at benches, and the plan in the task numbers of that line. */
export interface WithoutBenches extends AtBenches {
  readonly line: Line;
  readonly plan: Plan;
  /** Equipment of which benches use all that is counted though tasks on the line need it, too, with one of these; null where there is none. */
  readonly allAtBenches: { readonly equipment: string; readonly task: string } | null;
  /** A plan of the line without benches as one of the whole line, with the benches of before. */
  withBenches(plan: Plan): Plan;
}

/** Benches stay as they are when a line is rebalanced: only what is done on the line may move. */
export function keepBenches(line: Line, plan: Plan): WithoutBenches {
  const benches = plan.benches ?? [];
  const taken = benches.flatMap(({ tasks }) => tasks);
  const { kept, ...onLine } = leaveOut(lineBeside(line, plan), plan, taken);
  const equipment = equipmentLeft(line, benches);
  const short = onLine.line.tasks.flatMap(({ id, equipment: needed }) =>
    needed.filter((name) => equipment.get(name) === 0).map((name) => ({ equipment: name, task: id })),
  );
  return {
    plan: onLine.plan,
    line: { ...onLine.line, equipment },
    allAtBenches: short[0] ?? null,
    peopleAtBenches: whoIsAtBenches(line, plan),
    withBenches: (other) => ({
      stations: other.stations.map((station) => ({
        ...station,
        tasks: station.tasks.map((task) => kept[task]!),
      })),
      ...(benches.length > 0 ? { benches } : {}),
    }),
  };
}

/** What is counted of equipment, without that in use at every place of a bench. */
function equipmentLeft({ equipment, tasks }: Line, benches: readonly Station[]): Line["equipment"] {
  const usedAt = (bench: Station, name: string) =>
    bench.tasks.some((task) => tasks[task]!.equipment.includes(name)) ? bench.places : 0;
  return new Map(
    [...equipment].map(([name, count]) => {
      const used = benches.reduce((sum, bench) => sum + usedAt(bench, name), 0);
      return [name, Math.max(0, count - used)] as const;
    }),
  );
}

/** A line and its plan, as far as stations go, without some tasks; `kept` has for each task that stays its number before. */
export function leaveOut(
  line: Line,
  plan: Plan,
  taken: readonly number[],
): Pick<WithoutBenches, "line" | "plan"> & { readonly kept: readonly number[] } {
  const gone = new Set(taken);
  const kept = line.tasks.map((_, task) => task).filter((task) => !gone.has(task));
  const numberOf = new Map(kept.map((task, at) => [task, at]));
  const inward = (station: Station): Station => {
    const stays = station.tasks.map((task) => numberOf.has(task));
    return {
      ...station,
      tasks: station.tasks.flatMap((task) => numberOf.get(task) ?? []),
      sides: station.sides?.filter((_, at) => stays[at]) ?? null,
      persons: station.persons?.filter((_, at) => stays[at]) ?? null,
    };
  };
  return {
    line: withoutTasks(line, taken),
    // A station that had no task before counts with its people, as check counts it.
    plan: {
      stations: plan.stations
        .map(inward)
        .filter(({ tasks }, at) => tasks.length > 0 || plan.stations[at]!.tasks.length === 0),
    },
    kept,
  };
}
