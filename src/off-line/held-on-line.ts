import type { Line } from "../line/line.js";

/** A rule of the line that keeps tasks from leaving it, in words. */
export interface Hold {
  readonly kind: "fixed-station" | "together" | "apart";
  readonly words: string;
}

/** Rules of the line that speak against building these tasks, and no others, at one bench. */
export function holdsOf(line: Line, tasks: readonly number[]): Hold[] {
  const inside = new Set(tasks);
  const idOf = (task: number) => line.tasks[task]!.id;
  const fixed = tasks.flatMap((task): Hold[] => {
    const { stations } = line.tasks[task]!;
    if (stations === null) return [];
    const names = stations.map((at) => line.floor[at]!.id).join(" or ");
    return [{ kind: "fixed-station", words: `${idOf(task)} may stand at ${names} only (station)` }];
  });
  const torn = line.together.flatMap((group): Hold[] => {
    const [goes] = group.filter((task) => inside.has(task));
    const [stays] = group.filter((task) => !inside.has(task));
    if (goes === undefined || stays === undefined) return [];
    const words = `${idOf(goes)} shares its station with ${idOf(stays)}, which would stay (together)`;
    return [{ kind: "together", words }];
  });
  const met = line.apart.flatMap((group): Hold[] => {
    const [one, two] = group.filter((task) => inside.has(task));
    if (one === undefined || two === undefined) return [];
    return [{ kind: "apart", words: `${idOf(one)} and ${idOf(two)} never share a place (apart)` }];
  });
  return [...fixed, ...torn, ...met];
}
