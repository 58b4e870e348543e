import { stationIds } from "../station-numbers.js";
import { type Check, fault, listOf, taskFault } from "./fault.js";

/**
 * A bench works on loose parts: nothing there needs a task of the line, works on the base unit or belongs to a station, something
 * waits for all of it, and groups that belong together are not torn apart.
 */
export const checkBenches: Check = (view) => {
  const benchOf = new Map(view.benches.flatMap((at) => at.tasks.map((task) => [task, at] as const)));
  const needs = [...benchOf].flatMap(([task, at]) =>
    view.line.before[task]!.flatMap((earlier) => {
      const there = view.stationOf.get(earlier);
      if (there === undefined || benchOf.has(earlier)) return [];
      const { id } = view.line.tasks[earlier]!;
      const words = `is done at bench ${at.id} and needs ${id}, which stands at ${there.id} of the line`;
      return [taskFault("bench", view, at, task, words)];
    }),
  );
  const held = [...benchOf].flatMap(([task, at]) => {
    const { onBase, stations } = view.line.tasks[task]!;
    if (onBase)
      return [taskFault("bench", view, at, task, `works on the base unit; it is at bench ${at.id}`)];
    if (stations === null) return [];
    const words = `may stand at ${listOf(stationIds(view.line, stations))} only; it is at bench ${at.id}`;
    return [taskFault("fixed-station", view, at, task, words)];
  });
  const torn = view.line.together.flatMap((group) => {
    const [atBench] = group.filter((task) => benchOf.has(task) && !view.stationOf.has(task));
    const [atLine] = group.filter((task) => view.stationOf.has(task));
    if (atBench === undefined || atLine === undefined) return [];
    const [bench, station] = [benchOf.get(atBench)!, view.stationOf.get(atLine)!];
    const where = [
      `${view.line.tasks[atBench]!.id} at bench ${bench.id}`,
      `${view.line.tasks[atLine]!.id} at ${station.id}`,
    ];
    const { id } = view.line.tasks[atBench]!;
    return [fault("together", `${listOf(where)} belong together, at one station`, bench.id, id)];
  });
  const ends = [...benchOf].flatMap(([task, at]) => {
    if (view.line.before.some((earlier) => earlier.includes(task))) return [];
    return [taskFault("bench", view, at, task, `is done at bench ${at.id}, and nothing waits for it`)];
  });
  return [...needs, ...held, ...torn, ...ends, ...view.benches.flatMap((at) => findOrderFaults(view, at))];
};

/** At one bench, too, work comes after what it needs. */
function findOrderFaults(view: Parameters<Check>[0], at: Parameters<Check>[0]["benches"][number]) {
  const turn = new Map([...at.tasks.entries()].reverse().map(([index, task]) => [task, index]));
  return [...turn].flatMap(([task, own]) =>
    view.line.before[task]!.flatMap((earlier) => {
      const other = turn.get(earlier);
      if (other === undefined || other < own) return [];
      const [before, after] = [view.line.tasks[earlier]!.id, view.line.tasks[task]!.id];
      const message = `${at.id} lists ${after} before ${before}, which ${after} needs`;
      return [fault("precedence", message, at.id, after, { kind: "out-of-order", needs: before })];
    }),
  );
}
