/**
 * Some loop of arrows, as tasks along the arrows with the first again at the end; null when there is none.
 * `before[task]` lists the tasks directly before it.
 */
export function findLoop(before: readonly (readonly number[])[]): number[] | null {
  const waitsFor = before.map((earlier) => earlier.length);
  const after: number[][] = before.map(() => []);
  for (const [task, earlier] of before.entries()) for (const other of earlier) after[other]!.push(task);
  const free = [...waitsFor.keys()].filter((task) => waitsFor[task] === 0);
  for (let at = 0; at < free.length; at++) {
    for (const later of after[free[at]!]!) if (--waitsFor[later]! === 0) free.push(later);
  }
  const start = waitsFor.findIndex((count) => count > 0);
  return start < 0 ? null : walkBack(before, waitsFor, start);
}

/** Every task left waits for another that is left, so walking back must meet a task again. */
function walkBack(
  before: readonly (readonly number[])[],
  waitsFor: readonly number[],
  start: number,
): number[] {
  const walked: number[] = [];
  let task = start;
  while (!walked.includes(task)) {
    walked.push(task);
    task = before[task]!.find((earlier) => waitsFor[earlier]! > 0)!;
  }
  return [task, ...walked.slice(walked.indexOf(task)).reverse()];
}
