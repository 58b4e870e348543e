import type { Line } from "../../line/line.js";
import type { Plan } from "../../plan/plan.js";
import type { Move } from "./match-stations.js";

/** What changes at one station, for the people who stand there. */
export interface StationChange {
  readonly id: string;
  readonly kind: "new" | "given up" | "changed";
  /** From whom the station takes over which tasks; `from` is null for work that is new to the line. */
  readonly gets: readonly { readonly task: number; readonly from: string | null }[];
  /** To whom the station hands which tasks; null: to a bench, or off the line. */
  readonly gives: readonly { readonly task: number; readonly to: string | null }[];
  /** The new order of work; empty for a station given up. */
  readonly tasks: readonly number[];
  /** Equipment that comes with the tasks taken over and was not used here before. */
  readonly equipment: readonly string[];
  /** Parts that come with them and were not put on here before. */
  readonly parts: readonly string[];
  /** Skills that come with them and were not needed here before. */
  readonly skills: readonly string[];
  readonly operatorsBefore: number;
  readonly operatorsAfter: number;
}

/**
 * Every station that changes, in order of flow of the new plan, then those given up.
 *
 * @param matched which station of the plan before each station is, -1 for a new one
 * @param moves the tasks that change their station
 */
export function changeSheet(
  line: Line,
  from: Plan,
  to: Plan,
  matched: readonly number[],
  moves: readonly Move[],
): StationChange[] {
  const placed = new Map(to.stations.flatMap(({ id, tasks }) => tasks.map((task) => [task, id] as const)));
  const movesOf = byKey(moves, ({ task }) => task);
  const movesFrom = byKey(moves, (move) => move.from);
  const comesBy = (task: number, to: string) =>
    (movesOf.get(task) ?? []).filter((move) => move.to === to).map((move) => ({ task, from: move.from }));
  const leaves = (id: string) => (movesFrom.get(id) ?? []).map(({ task, to }) => ({ task, to }));
  const isMatched = new Set(matched);
  const known = new Set(from.stations.flatMap(({ tasks }) => tasks));
  const gone = (at: number) =>
    from.stations[at]!.tasks.filter((task) => !placed.has(task)).map((task) => ({ task, to: null }));
  const changes = to.stations.map((station, at): StationChange => {
    const before = matched[at]! < 0 ? null : from.stations[matched[at]!]!;
    const gets = station.tasks.flatMap((task) =>
      known.has(task) ? comesBy(task, station.id) : [{ task, from: null }],
    );
    const gives = before === null ? [] : [...leaves(before.id), ...gone(matched[at]!)];
    const news = (names: (task: number) => readonly string[]) => {
      const had = new Set(before?.tasks.flatMap(names) ?? []);
      return [...new Set(gets.flatMap(({ task }) => names(task)))].filter((name) => !had.has(name));
    };
    return {
      id: station.id,
      kind: before === null ? "new" : "changed",
      gets,
      gives,
      tasks: station.tasks,
      equipment: news((task) => line.tasks[task]!.equipment),
      parts: news((task) => line.tasks[task]!.parts.map(({ id }) => id)),
      skills: news((task) => line.tasks[task]!.skills),
      operatorsBefore: before === null ? 0 : before.crew * before.places,
      operatorsAfter: station.crew * station.places,
    };
  });
  const givenUp = from.stations.flatMap((station, at): StationChange[] =>
    isMatched.has(at)
      ? []
      : [
          {
            id: station.id,
            kind: "given up",
            gets: [],
            gives: [...leaves(station.id), ...gone(at)],
            tasks: [],
            equipment: [],
            parts: [],
            skills: [],
            operatorsBefore: station.crew * station.places,
            operatorsAfter: 0,
          },
        ],
  );
  const isChanged = (change: StationChange) =>
    change.kind !== "changed" ||
    change.gets.length + change.gives.length > 0 ||
    change.operatorsBefore !== change.operatorsAfter;
  return [...changes.filter(isChanged), ...givenUp];
}

function byKey<Key>(moves: readonly Move[], keyOf: (move: Move) => Key): ReadonlyMap<Key, Move[]> {
  const found = new Map<Key, Move[]>();
  for (const move of moves) {
    const key = keyOf(move);
    const own = found.get(key);
    if (own === undefined) found.set(key, [move]);
    else own.push(move);
  }
  return found;
}
