import type { MoveCase } from "../tools/move-cases.js";
import { ProgrammeText, type Terms } from "./floor-programme-text.js";

/**
 * The dearest tasks that can stay where they are, as an integer programme in LP format whose least value is minus what they cost: each
 * task stands at one of `people` positions in
 * order of flow, each position keeps at most one of today's stations, and those keep their order. Written from the meaning of a
 * move; the assignment model is that of E. H. Bowman (1960).
 */
export function fewestMovesProgramme(
  { line, seconds, cycle, labels, today, costs }: MoveCase,
  people: number,
): string {
  const text = new ProgrammeText();
  const positions = Array.from({ length: people }, (_, at) => at);
  const all = Array.from({ length: labels }, (_, label) => label);
  const stands = (task: number, at: number) => text.binary(`x_${task}_${at}`);
  const keeps = (at: number, label: number) => text.binary(`y_${at}_${label}`);
  const stays = (task: number, at: number) => text.binary(`s_${task}_${at}`);
  for (const [task, label] of today.entries()) {
    text.row(
      positions.map((at) => [1, stands(task, at)]),
      "=",
      1,
    );
    for (const at of positions) {
      text.row(
        [
          [1, stays(task, at)],
          [-1, stands(task, at)],
        ],
        "<=",
        0,
      );
      text.row(
        [
          [1, stays(task, at)],
          [-1, keeps(at, label)],
        ],
        "<=",
        0,
      );
    }
    for (const earlier of line.before[task]!) {
      const where = (each: number, sign: number): Terms =>
        positions.map((at) => [sign * at, stands(each, at)]);
      text.row([...where(earlier, 1), ...where(task, -1)], "<=", 0);
    }
  }
  for (const at of positions) {
    text.row(
      seconds.map((each, task) => [each, stands(task, at)]),
      "<=",
      cycle,
    );
    text.row(
      all.map((label) => [1, keeps(at, label)]),
      "<=",
      1,
    );
    for (const later of positions.slice(at + 1)) {
      // One pair of stations out of order is one too many.
      for (const label of all) {
        const sooner = all.filter((each) => each <= label).map((each) => [1, keeps(later, each)] as const);
        const beyond = all.filter((each) => each >= label).map((each) => [1, keeps(at, each)] as const);
        text.row([...sooner, ...beyond], "<=", 1);
      }
    }
  }
  return text.minimise(
    today.flatMap((_, task) => positions.map((at) => [-costs[task]!, stays(task, at)] as const)),
  );
}
