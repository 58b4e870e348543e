import type { Plan } from "../../src/plan/plan.js";
import { stationIds } from "../../src/plan/station-numbers.js";
import type { MoveRules } from "../outside/fewest-moves-programme.js";
import { lineOf } from "./line-of.js";
import { drawFrom, type MoveCase } from "./move-cases.js";

/** A small line with something asked beyond time and arrows, and today's plan of it, which need not keep that. */
export interface RuledMoveCase extends MoveCase, Omit<MoveRules, "mostMoves"> {
  readonly plan: Plan;
}

export const RULED_KINDS = [
  "with waits of several stations, and gaps in the ids of today's plan",
  "on a floor of named stations, some of them fixed for a task, some empty today, some behind it",
  "with second places at stations",
  "of two models, with moves of several points",
] as const;

/** A case of one of the kinds above, by its index there; times are whole seconds, those of models on the mean. */
export function ruledMoveCase(seed: number, kind: number): RuledMoveCase {
  const draw = drawFrom(seed * RULED_KINDS.length + kind);
  for (let warm = 0; warm < 5; warm++) draw(10);
  const size = 4 + draw(3);
  const names = Array.from({ length: size }, (_, task) => `t${task + 1}`);
  const seconds = names.map(() => 4 + draw(22));
  const before = names.map((_, task) => [...names.keys()].slice(0, task).filter(() => draw(size) < 2));
  const isModels = kind === 3;
  const floor = kind === 1 ? ["bay", "dock", "hall", "yard"].slice(0, 2 + draw(3)) : [];
  const maxPlaces = kind === 2 ? 2 : 1;
  const fixed = names.map(() => (kind === 1 && draw(5) === 0 ? draw(floor.length) : -1));
  const waits = before.flatMap((earlier, to) =>
    earlier.filter(() => kind === 0 && draw(2) === 0).map((from) => ({ from, to, stations: 1 + draw(2) })),
  );
  const costs = names.map(() => (isModels || draw(4) === 0 ? 1 + draw(4) : 1));
  const rows = names.map((name, task) => {
    const after = before[task]!.map((from) => {
      const wait = waits.find((each) => each.from === from && each.to === task);
      return wait === undefined ? names[from] : `{task: ${names[from]}, stations: ${wait.stations}}`;
    });
    const apart = isModels ? draw(4) : 0;
    const time = isModels
      ? `{city: ${seconds[task]! - apart}, tour: ${seconds[task]! + apart}}`
      : seconds[task];
    const station = fixed[task]! < 0 ? "" : `, station: ${floor[fixed[task]!]}`;
    return `  ${name}: {time: ${time}, move-cost: ${costs[task]}, after: [${after.join(", ")}]${station}}`;
  });
  const line = lineOf(
    [
      "line: ruled line",
      "unit: s",
      ...(isModels ? ["models: {city: 50 %, tour: 50 %}"] : []),
      ...(maxPlaces > 1 ? [`max-places: ${maxPlaces}`] : []),
      ...(floor.length > 0 ? [`stations: [${floor.map((id) => `{id: ${id}}`).join(", ")}]`] : []),
      "tasks:",
      ...rows,
      "",
    ].join("\n"),
  );
  const at: number[] = [];
  for (const [task, earlier] of before.entries())
    at[task] = Math.max(kind === 0 || kind === 1 ? draw(5) : draw(3), ...earlier.map((each) => at[each]!));
  const used = [...new Set(at)].sort((one, two) => one - two);
  const ids = stationIds(line, used);
  const stations = used.map((position, index) => ({
    id: ids[index]!,
    tasks: [...names.keys()].filter((task) => at[task] === position),
    sides: null,
    persons: null,
    places: 1,
    crew: 1,
  }));
  // Without a floor only waits keep a position empty; with one, every task may have a new station behind the last of today.
  const last = floor.length === 0 ? 0 : Math.max(floor.length, used.at(-1)! + 1);
  const positions = last + size + waits.reduce((sum, each) => sum + each.stations - 1, 0);
  return {
    line,
    seconds,
    cycle: Math.max(...seconds) + draw(20),
    labels: used.length,
    today: at.map((position) => used.indexOf(position)),
    costs,
    plan: { stations },
    positions,
    waits,
    mayStand: (task, position) => fixed[task]! < 0 || fixed[task] === position,
    labelAt:
      floor.length === 0 ? null : Array.from({ length: positions }, (_, position) => used.indexOf(position)),
    maxPlaces,
  };
}
