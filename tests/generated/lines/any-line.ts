import fc from "fast-check";
import { stringify } from "yaml";

/** A task of a generated line: a number for its id, whole seconds, and the numbers of tasks before it in the list. */
export interface AnyTask {
  readonly number: number;
  readonly seconds: number;
  readonly after: readonly number[];
}

/** A generated line with a cycle that holds every task alone. */
export interface AnyLine {
  readonly tasks: readonly AnyTask[];
  readonly cycle: number;
}

/** Lines of up to ten tasks, with arrows from earlier to later numbers, now and then a task of no time. */
export const anyLine: fc.Arbitrary<AnyLine> = fc
  .array(
    fc.record({ seconds: fc.integer({ min: 0, max: 40 }), arrows: fc.array(fc.boolean(), { maxLength: 9 }) }),
    { minLength: 1, maxLength: 10 },
  )
  .chain((rows) =>
    fc
      .record({ rows: fc.constant(rows), spare: fc.integer({ min: 1, max: 40 }) })
      .map(({ rows: drawn, spare }) => ({
        tasks: drawn.map(({ seconds, arrows }, at) => ({
          number: at + 1,
          seconds,
          after: arrows.flatMap((arrow, from) => (arrow && from < at ? [from + 1] : [])),
        })),
        cycle: Math.max(...drawn.map(({ seconds }) => seconds)) + spare,
      })),
  );

/** The usual id of a task: `step-1`, `step-2`, ... */
export const stepId = (number: number): string => `step-${number}`;

/** The line file of a generated line, with any ids. */
export function lineFile({ tasks }: AnyLine, id: (number: number) => string = stepId): string {
  const written = new Map(
    tasks.map(({ number, seconds, after }) => [
      id(number),
      after.length > 0 ? { time: seconds, after: after.map(id) } : { time: seconds },
    ]),
  );
  return stringify({ line: "Generated", unit: "s", tasks: written });
}
