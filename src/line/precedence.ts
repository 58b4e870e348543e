/**
 * Which task comes before which, everywhere as numbers of tasks: `before[t]` lists the tasks directly before t.
 * Everything here but `isLoopFree` expects an order without loops.
 */
export type Before = readonly (readonly number[])[];

/** For each task the tasks directly after it, ascending. */
export function directFollowers(before: Before): number[][] {
  const after: number[][] = before.map(() => []);
  for (const [task, earlier] of before.entries()) for (const each of earlier) after[each]!.push(task);
  return after;
}

/**
 * An order of work: of the tasks whose predecessors are done, always the smallest number, late ones only where no other is
 * left. Tasks on and behind loops are left out.
 */
export function topologicalOrder(before: Before, isLate: (task: number) => boolean = () => false): number[] {
  const after = directFollowers(before);
  const missing = before.map((earlier) => earlier.length);
  const ready = new SmallestFirst();
  const add = (task: number) => ready.add(isLate(task) ? task + before.length : task);
  for (const [task, count] of missing.entries()) if (count === 0) add(task);
  const order: number[] = [];
  for (let rank = ready.take(); rank !== undefined; rank = ready.take()) {
    const task = rank % before.length;
    order.push(task);
    for (const next of after[task]!) if (--missing[next]! === 0) add(next);
  }
  return order;
}

/** Whether all tasks can be done, whatever their order. */
export function isLoopFree(before: Before): boolean {
  const after = directFollowers(before);
  const missing = before.map((earlier) => earlier.length);
  const ready = [...missing.keys()].filter((task) => missing[task] === 0);
  for (const task of ready) for (const next of after[task]!) if (--missing[next]! === 0) ready.push(next);
  return ready.length === before.length;
}

/** The earliest column of each task in a diagram with columns from 1: one more than the last column before it. */
export function columns(before: Before): number[] {
  const column = before.map(() => 1);
  for (const task of topologicalOrder(before)) {
    for (const each of before[task]!) column[task] = Math.max(column[task]!, column[each]! + 1);
  }
  return column;
}

/** Tasks without a task before them, ascending. */
export function startTasks(before: Before): number[] {
  return [...before.keys()].filter((task) => before[task]!.length === 0);
}

/** Tasks without a task after them, ascending. */
export function endTasks(before: Before): number[] {
  const after = directFollowers(before);
  return [...before.keys()].filter((task) => after[task]!.length === 0);
}

/** A heap that gives back the smallest number first. */
class SmallestFirst {
  readonly #heap: number[] = [];

  add(value: number): void {
    const heap = this.#heap;
    let at = heap.push(value) - 1;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      if (heap[parent]! <= heap[at]!) return;
      this.#swap(at, parent);
      at = parent;
    }
  }

  take(): number | undefined {
    const heap = this.#heap;
    const smallest = heap[0];
    const last = heap.pop();
    if (heap.length === 0 || last === undefined) return smallest;
    heap[0] = last;
    for (let at = 0; ; ) {
      const left = 2 * at + 1;
      if (left >= heap.length) return smallest;
      const child = left + 1 < heap.length && heap[left + 1]! < heap[left]! ? left + 1 : left;
      if (heap[at]! <= heap[child]!) return smallest;
      this.#swap(at, child);
      at = child;
    }
  }

  #swap(one: number, two: number): void {
    const heap = this.#heap;
    [heap[one], heap[two]] = [heap[two]!, heap[one]!];
  }
}
