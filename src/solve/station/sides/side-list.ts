import type { SideStation } from "./side-station.js";

/**
 * The mean end of a schedule made in one go, or infinite where that keeps no limit of a model: each task in turn, the longest
 * chain behind it first, at the side where the station ends earliest, then the task.
 *
 * @param order tasks; of those that can start the first goes next
 */
export function listSides(station: SideStation, order: readonly number[]): number {
  const { size, rows, loads, sides } = station;
  const free = [new Float64Array(rows), new Float64Array(rows)] as const;
  const ready = new Float64Array(rows * size);
  const missing = station.before.map((earlier) => earlier.length);
  for (let taken = 0; taken < size; taken++) {
    const task = order.find((each) => missing[each] === 0)!;
    missing[task] = -1;
    const side = sides[task]! === "either" ? earlierSide(station, free, ready, task) : sides[task]!;
    for (let row = 0; row < rows; row++) {
      const [left, right] = [free[0][row]!, free[1][row]!];
      const from = side === "left" ? left : side === "right" ? right : Math.max(left, right);
      const end = Math.max(from, ready[row * size + task]!) + loads[row * size + task]!;
      if (side !== "right") free[0][row] = end;
      if (side !== "left") free[1][row] = end;
      for (const later of station.after[task]!)
        ready[row * size + later] = Math.max(ready[row * size + later]!, end);
    }
    for (const later of station.after[task]!) missing[later]!--;
  }
  return station.meanOf(free[0].map((left, row) => Math.max(left, free[1][row]!)));
}

function earlierSide(
  { size, rows, loads }: SideStation,
  free: readonly [Float64Array, Float64Array],
  ready: Float64Array,
  task: number,
): "left" | "right" {
  let [onLeft, onRight, endLeft, endRight] = [0, 0, 0, 0];
  for (let row = 0; row < rows; row++) {
    const [left, right] = [free[0][row]!, free[1][row]!];
    const from = ready[row * size + task]!;
    const load = loads[row * size + task]!;
    const [ifLeft, ifRight] = [Math.max(left, from) + load, Math.max(right, from) + load];
    onLeft += Math.max(ifLeft, right);
    onRight += Math.max(ifRight, left);
    endLeft += ifLeft;
    endRight += ifRight;
  }
  return onLeft < onRight || (onLeft === onRight && endLeft <= endRight) ? "left" : "right";
}
