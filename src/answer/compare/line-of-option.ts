import type { Line, LineOption, PaceKey, Task } from "../../line/line.js";
import { loadOf } from "../../line/task-load.js";
import type { Micros } from "../../time/duration.js";
import { ONE } from "../../time/ratio.js";

/** The line as an option has it: its pace keys, places and times in place of those of the file. */
export function lineOfOption(line: Line, option: LineOption): Line {
  const changed: Readonly<Record<PaceKey, unknown>> = {
    demand: option.demand,
    calendar: option.calendar,
    uptime: option.uptime,
    yield: option.yield,
    handling: option.handling,
    "plan-to": option.planTo,
  };
  const given = Object.entries(changed).flatMap(([key, value]) => (value === null ? [] : [key as PaceKey]));
  return {
    ...line,
    demand: option.demand ?? line.demand,
    calendar: option.calendar ?? line.calendar,
    uptime: option.uptime ?? line.uptime,
    yield: option.yield ?? line.yield,
    handling: option.handling ?? line.handling,
    planTo: option.planTo ?? line.planTo,
    maxPlaces: option.maxPlaces ?? line.maxPlaces,
    given: [...new Set([...line.given, ...given])],
    tasks: line.tasks.map((task, number) => withTime(line, task, option.times.get(number))),
  };
}

/** The task with another time of one piece, for every model that has it. */
function withTime(line: Line, task: Task, time: Micros | undefined): Task {
  if (time === undefined) return task;
  const times = task.times.map((each, model) =>
    each === null ? null : time * (task.quantityByModel?.[model] ?? task.quantity),
  );
  const shares = line.models.length === 0 ? [ONE] : line.models.map(({ share }) => share);
  return { ...task, times, load: loadOf({ ...task, times }, shares) };
}
