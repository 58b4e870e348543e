import type { StationProblem, Stations } from "../../src/solve/problem.js";

/** A plain first plan: again and again the longest task that is ready and fits, with no other cleverness. */
export function fillPlainly({ times, limit, before }: StationProblem): number[][] {
  const stations: number[][] = [];
  const left = new Set(times.keys());
  while (left.size > 0) {
    const station: number[] = [];
    let room = limit;
    for (;;) {
      const ready = [...left].filter(
        (task) => times[task]! <= room && before[task]!.every((each) => !left.has(each)),
      );
      if (ready.length === 0) break;
      const task = ready.reduce((one, two) => (times[two]! > times[one]! ? two : one));
      left.delete(task);
      station.push(task);
      room -= times[task]!;
    }
    stations.push(station);
  }
  return stations;
}

/** Everything wrong with a plan: tasks missing or doubled, a station above the limit, an arrow that runs backwards. */
export function faultsOf({ times, limit, before }: StationProblem, stations: Stations): string[] {
  const faults: string[] = [];
  const position = new Map<number, number>();
  for (const [at, task] of stations.flat().entries()) {
    if (position.has(task)) faults.push(`task ${task} is placed twice`);
    position.set(task, at);
  }
  for (const task of times.keys()) if (!position.has(task)) faults.push(`task ${task} is missing`);
  if (position.size > times.length) faults.push("there are more tasks than the line has");
  for (const [at, station] of stations.entries()) {
    const load = station.reduce((sum, task) => sum + times[task]!, 0);
    if (load > limit) faults.push(`station ${at + 1} holds ${load}, above ${limit}`);
    if (station.length === 0) faults.push(`station ${at + 1} is empty`);
  }
  for (const [task, earlier] of before.entries()) {
    for (const each of earlier) {
      if (position.get(each)! > position.get(task)!) faults.push(`task ${task} comes before task ${each}`);
    }
  }
  return faults;
}
