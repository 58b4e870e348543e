import { shiftsOf } from "../../benches/bench-hours.js";
import type { Line } from "../../line/line.js";
import type { OffLinePlan } from "./plan-with-benches.js";

/** People before and after, counted so that they compare. */
export interface PeopleCompared {
  readonly before: number | null;
  readonly after: number | null;
  /** Of a day, because some bench of the file works other shifts than the line; otherwise at a time. */
  readonly isOfDay: boolean;
  /** Below 0 where it costs people; null where one of the lines has no plan. */
  readonly freed: number | null;
}

export function comparePeople(line: Line, before: OffLinePlan, after: OffLinePlan): PeopleCompared {
  const isOfDay = countsByDay(line);
  const [one, two] = isOfDay ? [before.peopleOfDay, after.peopleOfDay] : [before.people, after.people];
  return { before: one, after: two, isOfDay, freed: one === null || two === null ? null : one - two };
}

/** Whether some bench works other shifts than the line; people are then counted of a day, the same way in every answer. */
export function countsByDay(line: Line): boolean {
  const { calendar, benches } = line;
  return calendar !== null && benches.some(({ shifts }) => shifts !== null && shifts !== shiftsOf(line));
}
