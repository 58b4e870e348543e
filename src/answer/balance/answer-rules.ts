import type { Line } from "../../line/line.js";
import { stationIds } from "../../plan/station-numbers.js";
import { layOutWork } from "../../solve/lay-out-work.js";
import { kindAt, type Work } from "../../solve/work.js";
import type { Pace } from "../../time/pace.js";

/** Where a task may stand by all that the line says of stations and of the order of work; time is not counted. */
export interface TaskWindow {
  /** Stations of the floor, by id. */
  readonly stations: readonly string[];
  /** The first station behind the floor that may hold it, and every later one; null where none may. */
  readonly behind: string | null;
}

/** How the rules of a line bear on single tasks. */
export interface AnswerRules {
  /** Tasks that stand together, each list in order of work; no list of one. */
  readonly blocks: readonly (readonly number[])[];
  /** By task; null where every task may stand anywhere. */
  readonly windows: readonly TaskWindow[] | null;
}

export function answerRules(line: Line, pace: Pace, strictLimit: boolean): AnswerRules {
  const problem = layOutWork(line, { pace, strictLimit, slowest: null, free: false });
  const { members } = problem;
  const onFloor = line.floor.length;
  const windows: TaskWindow[] = [];
  for (const [block, positions] of whereAllowed(problem).entries()) {
    const stations = stationIds(
      line,
      positions.filter((position) => position < onFloor),
    );
    const behind = positions.find((position) => position >= onFloor);
    const window = { stations, behind: behind === undefined ? null : stationIds(line, [behind])[0]! };
    for (const task of members[block]!) windows[task] = window;
  }
  const [next] = stationIds(line, [onFloor]);
  const isFree = ({ stations, behind }: TaskWindow) => stations.length === onFloor && behind === next;
  return {
    blocks: members.filter((tasks) => tasks.length > 1),
    windows: windows.every(isFree) ? null : windows,
  };
}

/** Two blocks, the second of which stands at least so many stations after the first. */
interface Distance {
  readonly from: number;
  readonly to: number;
  readonly stations: number;
}

/**
 * The positions at which each block may stand if stations had all the time there is: of a kind that may hold it, and with one left for
 * every block that comes before or after it. Blocks that never share a station stand one apart, waited-for ones as many as the wait
 * asks. These distances leave exactly what plans may do; of two blocks that never share a station and have no order, each keeps away
 * from the other where that has one station only.
 *
 * @returns for each block its positions in ascending order, of `problem.positions` positions; empty where it may stand nowhere
 */
export function whereAllowed(problem: Work): number[][] {
  const { positions, first, last, allowed } = problem;
  const { distances, neverShare } = tiesOf(problem);
  let found = allowed.map((kinds, block) =>
    Array.from({ length: positions }, (_, position) => position).filter(
      (position) =>
        position >= first[block]! && position <= last[block]! && kinds[kindAt(problem, position)]!,
    ),
  );
  for (let count = Number.POSITIVE_INFINITY; countOf(found) < count; ) {
    count = countOf(found);
    found = besideFixed(inOrder(found, distances), neverShare);
  }
  return found;
}

const countOf = (found: readonly (readonly number[])[]): number =>
  found.reduce((sum, { length }) => sum + length, 0);

/** What leaves every block that comes before or after a station; blocks are numbered in an order of work. */
function inOrder(found: readonly (readonly number[])[], distances: readonly Distance[]): number[][] {
  const soonest: number[] = [];
  for (const [block, mine] of found.entries()) {
    const least = distances
      .filter(({ to }) => to === block)
      .reduce((most, { from, stations }) => Math.max(most, soonest[from]! + stations), 0);
    soonest[block] = mine.find((position) => position >= least) ?? Number.POSITIVE_INFINITY;
  }
  const latest: number[] = [];
  for (let block = found.length - 1; block >= 0; block--) {
    const most = distances
      .filter(({ from }) => from === block)
      .reduce((least, { to, stations }) => Math.min(least, latest[to]! - stations), Number.POSITIVE_INFINITY);
    latest[block] = found[block]!.findLast((position) => position <= most) ?? Number.NEGATIVE_INFINITY;
  }
  return found.map((mine, block) =>
    mine.filter((position) => position >= soonest[block]! && position <= latest[block]!),
  );
}

/** Without the one station of a block that never shares it. */
function besideFixed(
  found: readonly (readonly number[])[],
  neverShare: readonly (readonly number[])[],
): number[][] {
  return found.map((mine, block) =>
    mine.filter((position) =>
      neverShare[block]!.every((other) => found[other]!.length !== 1 || found[other]![0] !== position),
    ),
  );
}

function tiesOf({ size, before, waits, apart, zones }: Work) {
  const earlier: Set<number>[] = [];
  const distances: Distance[] = [];
  const isForbidden = (one: number, two: number) => {
    const [zone, other] = [zones[one]!, zones[two]!];
    return apart[one]!.includes(two) || (zone !== null && other !== null && zone !== other);
  };
  for (let to = 0; to < size; to++) {
    earlier[to] = new Set(before[to]!.flatMap((each) => [each, ...earlier[each]!]));
    for (const from of earlier[to]!) {
      const waited = waits.filter((wait) => wait.from === from && wait.to === to);
      const stations = Math.max(isForbidden(from, to) ? 1 : 0, ...waited.map((wait) => wait.stations));
      distances.push({ from, to, stations });
    }
  }
  const neverShare = Array.from({ length: size }, (_, block) =>
    Array.from({ length: size }, (_each, other) => other).filter(
      (other) => other !== block && isForbidden(block, other),
    ),
  );
  return { distances, neverShare };
}
