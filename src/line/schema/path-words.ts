/** The keys that lead to a value, from the top of the file. */
export type Path = readonly string[];

/** Maps whose keys are names of things, by what one of those is called. */
const NAMED: Readonly<Record<string, string>> = { tasks: "task", shifts: "shift", options: "option" };

/** The path in words: `task load-frame, time`; `shift early, breaks, meal`; `uptime`; nothing at the top. */
export function pathWords(path: Path): string {
  const from = path.findIndex((key, at) => at < path.length - 1 && Object.hasOwn(NAMED, key));
  if (from < 0) return path.join(", ");
  return [`${NAMED[path[from]!]} ${path[from + 1]}`, ...path.slice(from + 2)].join(", ");
}

/** The id of the task that the path leads into, or null. */
export function taskOf(path: Path): string | null {
  return path[0] === "tasks" ? (path[1] ?? null) : null;
}
