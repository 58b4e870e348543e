import type { FloorStation, Line, Task } from "../../line/line.js";

/** Whether a station may hold a task, by what it is alone; `at` is its number on the floor, `station` null after the floor. */
export function isAllowed(line: Line, task: Task, station: FloorStation | null, at: number): boolean {
  const { hasZones, equipment, skills } = namedOnFloor(line.floor);
  if (task.stations !== null && !(station !== null && task.stations.includes(at))) return false;
  if (hasZones && task.zone !== null && task.zone !== (station?.zone ?? null)) return false;
  const hasIts = task.equipment.every(
    (name) => !equipment.has(name) || (station?.equipment.includes(name) ?? false),
  );
  if (!hasIts) return false;
  return task.skills.every((skill) => !skills.has(skill) || (station?.skills?.includes(skill) ?? false));
}

interface NamedOnFloor {
  readonly hasZones: boolean;
  readonly equipment: ReadonlySet<string>;
  readonly skills: ReadonlySet<string>;
}

/** What stations of the floor name at all: whatever none of them names binds no task. */
function namedOnFloor(floor: Line["floor"]): NamedOnFloor {
  const known = NAMED.get(floor);
  if (known !== undefined) return known;
  const named = {
    hasZones: floor.some(({ zone }) => zone !== null),
    equipment: new Set(floor.flatMap((station) => station.equipment)),
    skills: new Set(floor.flatMap((station) => station.skills ?? [])),
  };
  NAMED.set(floor, named);
  return named;
}

const NAMED = new WeakMap<Line["floor"], NamedOnFloor>();

/**
 * For each block the stations of the floor that may hold it, and at last whether it may stand behind the floor. Blocks that are asked the
 * same share one row.
 */
export function stationsAllowed(
  line: Line,
  members: readonly (readonly number[])[],
  blockOf: readonly number[],
): (readonly boolean[])[] {
  const kinds: (FloorStation | null)[] = [...line.floor, null];
  const rows = new Map<string, readonly boolean[]>();
  const broken = withoutStations(line, blockOf);
  return members.map((numbers, block) => {
    const tasks = numbers.map((task) => line.tasks[task]!);
    const asked = broken.has(block)
      ? ""
      : JSON.stringify(
          tasks.map(({ stations, zone, equipment, skills }) => [stations, zone, equipment, skills]),
        );
    const known = rows.get(asked);
    if (known !== undefined) return known;
    const row = kinds.map(
      (station, at) => !broken.has(block) && tasks.every((task) => isAllowed(line, task, station, at)),
    );
    rows.set(asked, row);
    return row;
  });
}

/** Blocks whose tasks must share a station and forbid each other to. */
function withoutStations(line: Line, blockOf: readonly number[]): ReadonlySet<number> {
  const broken = new Set<number>();
  const zoneOf = new Map<number, string>();
  for (const [task, { zone }] of line.tasks.entries()) {
    const block = blockOf[task]!;
    if (zone !== null && (zoneOf.get(block) ?? zone) !== zone) broken.add(block);
    if (zone !== null) zoneOf.set(block, zone);
  }
  for (const { from, to } of line.waits) if (blockOf[from] === blockOf[to]) broken.add(blockOf[from]!);
  for (const group of line.apart) {
    const blocks = new Set<number>();
    for (const task of group) {
      if (blocks.has(blockOf[task]!)) broken.add(blockOf[task]!);
      blocks.add(blockOf[task]!);
    }
  }
  return broken;
}
