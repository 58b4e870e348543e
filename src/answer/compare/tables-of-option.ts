import { inOrderOfWork } from "../../benches/find-blocks.js";
import type { Line, Tables } from "../../line/line.js";
import { workOfLine } from "../../plan/figures/person-time.js";
import { type Post, withTheLine } from "../../plan/post.js";
import type { Pace } from "../../time/pace.js";
import { add, ratio } from "../../time/ratio.js";

/**
 * Whole units at tables: each person builds complete units at a place of their own, as a station of so many places would. One unit
 * keeps a table busy for its whole work content (a task of two people counts twice), the walking of the tasks and of the tables;
 * handling is paid once a unit. What a machine runs by itself and what waits keeps nobody.
 */
export function tablesOfOption(line: Line, pace: Pace, { people, walking }: Tables): Post {
  const tasks = inOrderOfWork(line, [...line.tasks.keys()]);
  const work = add(workOfLine(line), ratio(walking));
  return {
    id: "tables",
    kind: "tables",
    tasks,
    places: people,
    crew: 1,
    busy: work,
    personTime: work,
    handling: ratio(pace.handling),
    planTo: pace.planTo,
    machines: [],
    ...withTheLine(line),
  };
}
