import type { MoveCase } from "../tools/move-cases.js";
import { ProgrammeText, type Terms } from "./floor-programme-text.js";

/** What is asked beyond time and arrows, at positions along the line that may stay empty. */
export interface MoveRules {
  readonly positions: number;
  /** A task stands at least so many positions behind another. */
  readonly waits: readonly { readonly from: number; readonly to: number; readonly stations: number }[];
  readonly mayStand: (task: number, position: number) => boolean;
  /** The station of today at each position, -1 where none is; null where stations are told by what they hold. */
  readonly labelAt: readonly number[] | null;
  readonly maxPlaces: number;
  /** The most tasks that may move. */
  readonly mostMoves: number;
}

/** A line with a person at each of so many stations, which all follow each other. */
const plainRules = (people: number): MoveRules => ({
  positions: people,
  waits: [],
  mayStand: () => true,
  labelAt: null,
  maxPlaces: 1,
  mostMoves: Number.POSITIVE_INFINITY,
});

/**
 * The dearest tasks that can stay where they are, as an integer programme in LP format whose least value is minus what they cost: each
 * task stands at one position in order of flow, open places there hold the work and take a person each, each position keeps at most one
 * of today's stations, and those keep their order. Written from the meaning of a move; the assignment model is that of E. H. Bowman
 * (1960).
 */
export function fewestMovesProgramme(
  { line, seconds, cycle, labels, today, costs }: MoveCase,
  people: number,
  rules: MoveRules = plainRules(people),
): string {
  const { labelAt, maxPlaces, mayStand, waits, mostMoves } = rules;
  const text = new ProgrammeText();
  const positions = Array.from({ length: rules.positions }, (_, at) => at);
  const all = Array.from({ length: labels }, (_, label) => label);
  const places = Array.from({ length: maxPlaces }, (_, place) => place);
  const tasks = [...today.keys()];
  const stands = (task: number, at: number) => text.binary(`x_${task}_${at}`);
  const keeps = (at: number, label: number) => text.binary(`y_${at}_${label}`);
  const stays = (task: number, at: number) => text.binary(`s_${task}_${at}`);
  const isOpen = (at: number, place: number) => text.binary(`o_${at}_${place}`);
  const oneAfter = (one: string, two: string) =>
    text.row(
      [
        [1, one],
        [-1, two],
      ],
      "<=",
      0,
    );
  const where = (each: number, sign: number): Terms => positions.map((at) => [sign * at, stands(each, at)]);
  for (const [task, label] of today.entries()) {
    text.row(
      positions.map((at) => [1, stands(task, at)]),
      "=",
      1,
    );
    for (const at of positions) {
      if (!mayStand(task, at)) text.row([[1, stands(task, at)]], "=", 0);
      oneAfter(stands(task, at), isOpen(at, 0));
      oneAfter(stays(task, at), stands(task, at));
      oneAfter(stays(task, at), keeps(at, label));
    }
    for (const earlier of line.before[task]!) text.row([...where(earlier, 1), ...where(task, -1)], "<=", 0);
  }
  for (const { from, to, stations } of waits)
    text.row([...where(from, 1), ...where(to, -1)], "<=", -stations);
  for (const at of positions) {
    for (const place of places.slice(1)) oneAfter(isOpen(at, place), isOpen(at, place - 1));
    text.row(
      [
        ...tasks.map((task) => [seconds[task]!, stands(task, at)] as const),
        ...places.map((place) => [-cycle, isOpen(at, place)] as const),
      ],
      "<=",
      0,
    );
    if (labelAt !== null) {
      for (const label of all) if (label !== labelAt[at]) text.row([[1, keeps(at, label)]], "=", 0);
      continue;
    }
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
  text.row(
    positions.flatMap((at) => places.map((place) => [1, isOpen(at, place)] as const)),
    "<=",
    people,
  );
  const allStays = (worth: (task: number) => number): Terms =>
    tasks.flatMap((task) => positions.map((at) => [worth(task), stays(task, at)] as const));
  if (Number.isFinite(mostMoves))
    text.row(
      allStays(() => 1),
      ">=",
      tasks.length - mostMoves,
    );
  return text.minimise(allStays((task) => -costs[task]!));
}
