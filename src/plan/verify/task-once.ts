import { addTo } from "../../findings/add-to.js";
import { type Check, fault, listOf } from "./fault.js";

/** Every task of the line stands at one station or bench, and nothing else does. */
export const checkTaskOnce: Check = ({ line, plan }) => {
  const places = new Map<number, string[]>();
  for (const station of [...plan.stations, ...(plan.benches ?? [])]) {
    for (const task of station.tasks) addTo(places, task, station.id);
  }
  const unknown = [...places.keys()].filter((task) => line.tasks[task] === undefined);
  const counted = line.tasks.flatMap((task, at) => {
    const found = places.get(at) ?? [];
    if (found.length === 1) return [];
    const isMissing = found.length === 0;
    const text = isMissing ? "is at no station" : `is at ${listOf(found)}`;
    const fact = { kind: isMissing ? "missing-task" : "task-twice" } as const;
    return [fault("task-once", `task ${task.id} ${text}`, found[0] ?? null, task.id, fact)];
  });
  return [
    ...unknown.map((at) => fault("task-once", `task number ${at} is not on this line`, null, null)),
    ...counted,
  ];
};
