import type { Line, Tables } from "../line/line.js";
import { inOrderOfWork } from "../off-line/find-blocks.js";
import { add, multiply, ONE, ratio } from "../time/ratio.js";
import type { Post } from "./post.js";

/**
 * Whole units at tables: each person builds complete units at a place of their own, as a station of so many places would. One unit
 * keeps a table busy for its whole work content (a task of two people counts twice), the walking of the tasks and of the tables;
 * handling is paid once a unit. What a machine runs by itself and what waits keeps nobody.
 */
export function tablesOfOption(line: Line, { people, walking }: Tables): Post {
  const tasks = inOrderOfWork(line, [...line.tasks.keys()]);
  const work = tasks
    .map((task) => multiply(line.tasks[task]!.load, ratio(line.tasks[task]!.people)))
    .reduce(add, ratio(walking));
  return {
    id: "tables",
    kind: "tables",
    tasks,
    places: people,
    crew: 1,
    busy: work,
    personTime: work,
    hours: ONE,
    shifts: line.calendar?.shifts.length ?? null,
    share: ONE,
  };
}
