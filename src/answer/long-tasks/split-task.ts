import type { Line, Task } from "../../line/line.js";
import { handsOnce } from "../../line/task-load.js";
import { divide, ratio } from "../../time/ratio.js";

/**
 * The line with one task cut into equal parts, one after the other: each keeps what the rules say of the whole, what comes before it
 * comes before the first part, and what comes after it after the last.
 */
export function splitTask(line: Line, task: number, parts: number): Line {
  const more = parts - 1;
  const last = task + more;
  const first = (each: number) => (each > task ? each + more : each);
  const final = (each: number) => (each >= task ? each + more : each);
  const pieces = Array.from({ length: parts }, (_, at) => task + at);
  const whole = (group: readonly number[]) =>
    group.flatMap((each) => (each === task ? pieces : [first(each)]));
  // Parts of the task are not kept apart from each other.
  const oneByOne = (group: readonly number[]) =>
    group.includes(task)
      ? pieces.map((piece) => group.map((each) => (each === task ? piece : first(each))))
      : [group.map(first)];
  const cut = line.tasks.flatMap((each, at): Task[] =>
    at === task ? pieces.map((_, part) => partOf(each, part, parts, first)) : [renumber(each, first)],
  );
  const before = line.before.flatMap((earlier, at) => {
    const own = earlier.map(final);
    return at === task ? [own, ...pieces.slice(0, -1).map((piece) => [piece])] : [own];
  });
  return {
    ...line,
    tasks: cut,
    before,
    waits: line.waits.map((wait) => ({
      ...wait,
      from: wait.from === task ? last : first(wait.from),
      to: first(wait.to),
    })),
    together: line.together.map(whole),
    apart: line.apart.flatMap(oneByOne),
    benches: [],
    options: [],
  };
}

function renumber(task: Task, first: (each: number) => number): Task {
  if (task.test === null || task.test.failures === "scrapped") return task;
  return { ...task, test: { ...task.test, returnTo: first(task.test.returnTo) } };
}

/** Hands and walking are shared equally, rounded up to whole microseconds for single models; a test comes with the last part. */
function partOf(task: Task, part: number, parts: number, first: (each: number) => number): Task {
  const { test } = renumber(task, first);
  return {
    ...task,
    id: `${task.id} (part ${part + 1})`,
    times: task.times.map((own, model) => (own === null ? null : Math.ceil(handsOnce(task, model) / parts))),
    walking: 0,
    takenOver: [],
    load: divide(task.load, ratio(parts)),
    test: part === parts - 1 ? test : null,
  };
}
