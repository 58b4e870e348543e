import { type Check, fault, taskFault } from "./fault.js";

/** Work on a task comes after the work on those that it needs, from station to station and within one. */
export const checkPrecedence: Check = ({ line, plan }) => {
  const turn = new Map<number, { readonly at: number; readonly station: string }>();
  for (const { id, tasks } of plan.stations) {
    for (const task of tasks) if (!turn.has(task)) turn.set(task, { at: turn.size, station: id });
  }
  return line.before.flatMap((earlier, task) =>
    earlier.flatMap((other) => {
      const [first, second] = [turn.get(other), turn.get(task)];
      if (first === undefined || second === undefined || first.at < second.at) return [];
      const [before, after] = [line.tasks[other]!.id, line.tasks[task]!.id];
      const message =
        first.station === second.station
          ? `${second.station} lists ${after} before ${before}, which ${after} needs`
          : `${before} is in ${first.station} but ${after}, which needs it, is in ${second.station}`;
      return [fault("precedence", message, null, after, { kind: "out-of-order", needs: before })];
    }),
  );
};

/** Stations of the floor stand in a plan as they stand on the floor, each once; further ones behind them. */
export const checkStationOrder: Check = ({ stations }) =>
  stations.slice(1).flatMap((station, at) => {
    const before = stations[at]!;
    if (before.number < station.number) return [];
    const words =
      before.number === station.number
        ? "is in the plan twice"
        : `comes after ${before.id}, but stands before it`;
    return [fault("station-order", `${station.id} ${words}`, station.id, null)];
  });

/** A task that must wait stands the asked number of stations behind, at least one: no unit waits in a station. */
export const checkWaits: Check = (view) =>
  view.line.waits.flatMap(({ from, to, stations }) => {
    const [first, second] = [view.stationOf.get(from), view.stationOf.get(to)];
    const least = Math.max(1, stations);
    if (first === undefined || second === undefined || second.number - first.number >= least) return [];
    const before = view.line.tasks[from]!.id;
    const later = least === 1 ? "at a later station" : `at least ${least} stations later`;
    const words = `waits for ${before} and must stand ${later}; ${before} stands at ${first.id}, it at ${second.id}`;
    return [taskFault("wait", view, second, to, words)];
  });
