import { type Finding, finding } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import type { Pace } from "../time/pace.js";
import type { Plan, Station } from "./plan.js";

/**
 * Judges a plan by the line file alone, in whole-number arithmetic of its own: it shares nothing with the solvers or
 * the figures, so that it cannot repeat their mistakes. Returns one finding a fault; none means the plan holds.
 *
 * A station holds when its tasks take no more than the station limit, or when one task alone (beside tasks that take
 * no time) takes no more than the working time and `strictLimit` is off.
 */
export function verifyPlan(line: Line, pace: Pace, plan: Plan, strictLimit: boolean): Finding[] {
  return [
    ...verifyTasksOnce(line, plan),
    ...verifyPrecedence(line, plan),
    ...plan.stations.flatMap((station) => verifyLoad(line, pace, station, strictLimit)),
  ];
}

function fault(rule: string, message: string, station: string | null, task: string | null): Finding {
  return finding({ rule, severity: "error", message, station, task });
}

function verifyTasksOnce(line: Line, plan: Plan): Finding[] {
  const places = new Map<number, string[]>();
  for (const station of plan.stations) {
    for (const task of station.tasks) places.set(task, [...(places.get(task) ?? []), station.id]);
  }
  const unknown = [...places.keys()].filter((task) => line.tasks[task] === undefined);
  const counted = line.tasks.flatMap((task, at) => {
    const found = places.get(at) ?? [];
    if (found.length === 1) return [];
    const text = found.length === 0 ? "is at no station" : `is at ${found.join(" and ")}`;
    return [fault("task-once", `task ${task.id} ${text}`, found[0] ?? null, task.id)];
  });
  return [
    ...unknown.map((at) => fault("task-once", `task number ${at} is not on this line`, null, null)),
    ...counted,
  ];
}

function verifyPrecedence(line: Line, plan: Plan): Finding[] {
  const turn = new Map<number, number>();
  for (const task of plan.stations.flatMap((station) => station.tasks)) {
    if (!turn.has(task)) turn.set(task, turn.size);
  }
  return line.before.flatMap((earlier, task) =>
    earlier.flatMap((other) => {
      const [first, second] = [turn.get(other), turn.get(task)];
      if (first === undefined || second === undefined || first < second) return [];
      const [before, after] = [line.tasks[other]!.id, line.tasks[task]!.id];
      return [fault("precedence", `${after} is done before ${before}, which it needs`, null, after)];
    }),
  );
}

function verifyLoad(line: Line, pace: Pace, station: Station, strictLimit: boolean): Finding[] {
  const loads = station.tasks.map((task) => line.tasks[task]?.load ?? { num: 0n, den: 1n });
  const common = loads.reduce((product, each) => product * each.den, 1n);
  const load = loads.reduce((sum, each) => sum + each.num * (common / each.den), 0n);
  // load / common <= (places x n/d - handling) x p/q, with every denominator multiplied out.
  const { num, den } = pace.lineCycle;
  const working = BigInt(station.places) * num - BigInt(pace.handling) * den;
  const withinLimit = load * den * pace.planTo.den <= working * pace.planTo.num * common;
  const alone = loads.filter((each) => each.num > 0n).length === 1;
  const withinWorking = load * den <= working * common;
  if (withinLimit || (alone && withinWorking && !strictLimit)) return [];
  const what = withinWorking ? "the station limit" : "the working time";
  return [fault("load", `${station.id} holds more than ${what}`, station.id, null)];
}
