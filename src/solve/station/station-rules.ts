import type { FloorStation, Line, Task } from "../../line/line.js";
import { limitRows } from "../../line/parts/limits.js";

/** Whether a station may hold a task, by what it is alone; `at` is its number on the floor, `station` null after the floor. */
export function isAllowed(line: Line, task: Task, station: FloorStation | null, at: number): boolean {
  if (task.stations !== null && !(station !== null && task.stations.includes(at))) return false;
  if (
    line.floor.some((each) => each.zone !== null) &&
    task.zone !== null &&
    task.zone !== (station?.zone ?? null)
  ) {
    return false;
  }
  if (station?.zone != null && task.zone !== null && task.zone !== station.zone) return false;
  const hasIts = task.equipment.every(
    (name) =>
      !line.floor.some((each) => each.equipment.includes(name)) ||
      (station?.equipment.includes(name) ?? false),
  );
  if (!hasIts) return false;
  return task.skills.every(
    (skill) =>
      !line.floor.some((each) => each.skills?.includes(skill)) || (station?.skills?.includes(skill) ?? false),
  );
}

/** Whether tasks that must share a station do not forbid each other. */
export function mayShare(line: Line, tasks: readonly number[]): boolean {
  const inside = new Set(tasks);
  const zones = new Set(tasks.map((task) => line.tasks[task]!.zone).filter((zone) => zone !== null));
  return (
    zones.size <= 1 &&
    line.waits.every(({ from, to }) => !inside.has(from) || !inside.has(to)) &&
    line.apart.every((group) => group.filter((task) => inside.has(task)).length <= 1)
  );
}

/** Whether the line has any rule beyond precedence and one limit for every station: the plain search does not know those. */
export function hasFloorRules(line: Line): boolean {
  const special = line.tasks.some(
    (task) =>
      task.people > 1 ||
      task.side !== null ||
      task.zone !== null ||
      task.stations !== null ||
      task.notBefore !== null ||
      task.notAfter !== null ||
      task.equipment.some((name) => line.equipment.has(name)) ||
      (task.skills.length > 0 && line.people.length > 0),
  );
  return (
    special ||
    line.floor.length > 0 ||
    line.maxPlaces > 1 ||
    line.together.length > 0 ||
    line.apart.length > 0 ||
    line.waits.length > 0 ||
    line.modelOverload !== null ||
    limitRows(line).length > 0
  );
}
