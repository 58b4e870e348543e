import { directFollowers } from "../line/precedence.js";
import type { Ratio } from "../time/ratio.js";
import type { StationProblem } from "./problem.js";
import type { ScheduleProblem } from "./station/schedule/schedule-problem.js";
import type { Team } from "./station/staff-skills.js";

/**
 * A line with shop-floor rules as the search sees it: whole numbers only, times in parts of a microsecond. Tasks that must
 * share a station are one block; blocks are numbered in an order of work, so every arrow goes from a smaller number to a larger.
 *
 * Stations stand at positions from 0. The first positions are those of the floor, each with its own kind; all further ones are
 * of the last kind. A position may stay empty; empty ones count neither as stations nor as people.
 */
export interface Work {
  /** How many blocks there are. */
  readonly size: number;
  /** The tasks of each block, as task numbers of the line, in order of work. */
  readonly members: readonly (readonly number[])[];
  readonly before: readonly (readonly number[])[];
  readonly after: readonly (readonly number[])[];
  readonly loads: readonly number[];
  /** People together at the block. */
  readonly people: readonly number[];
  /** Person-time: the sum over its tasks of load x people. */
  readonly work: readonly number[];
  /** How often units pass a station with the block: 0 for once, else the place in `StationKind.morePasses`, counted from 1. */
  readonly passes: readonly number[];
  /** At most one of its tasks takes any time, so it may stand alone above the station limit. */
  readonly mayStandAlone: readonly boolean[];
  /** By position; positions from the last kind on share it. */
  readonly kinds: readonly StationKind[];
  /** The first and last position that may hold each block, arrows and waits taken into account. */
  readonly first: readonly number[];
  readonly last: readonly number[];
  /** Whether the kind of station may hold the block: row of kinds for each block. */
  readonly allowed: readonly (readonly boolean[])[];
  /** Blocks of different zones never share a station; null: no zone. */
  readonly zones: readonly (string | null)[];
  /** For each block, those that may not share its station. */
  readonly apart: readonly (readonly number[])[];
  readonly equipment: readonly Counted[];
  readonly limits: readonly LimitedUse[];
  /** What stations must keep where times vary; null where none is asked. */
  readonly spread: SpreadOfTimes | null;
  /** Arrows whose second block stands at least `stations` positions after the first. */
  readonly waits: readonly { readonly from: number; readonly to: number; readonly stations: number }[];
  /** Loads of each model by block; empty where models are held on average only. */
  readonly modelLoads: readonly (readonly number[])[];
  /** The share of each model in the units, 1 for one that is not built now; empty where models are held on average only. */
  readonly modelShares: readonly Ratio[];
  /** Where stations are more than a sum of times; null where no line file asks for that. */
  readonly schedule: ScheduleProblem | null;
  readonly skills: SkillProblem | null;
  /** Today's plan, where only so much of it may be moved. */
  readonly today: Today | null;
  /** Positions matter by themselves: a floor, windows, or waits of several stations. */
  readonly isPositional: boolean;
  /** No position from here on holds anything. */
  readonly positions: number;
}

/** What a station may hold, by places - 1. */
export interface StationLimits {
  /** The most load, and the most of a task that stands alone. */
  readonly limits: readonly number[];
  readonly alone: readonly number[];
  /** The most load of one model; empty where models are held on average only. */
  readonly modelLimits: readonly number[];
  /** How long a unit of one model may stand; empty where models are held on average only. */
  readonly modelDwell: readonly number[];
  /** How long a unit may stand. */
  readonly dwell: readonly number[];
  /** Units that may stand at one place at a time. */
  readonly holds: number;
  /** The most people of a place who share the work of a unit; 1 where they work together. */
  readonly maxCrew: number;
  /** How many of a place may each be at a block of their own at once: the limits hold for each of them. */
  readonly atOnce: number;
}

/** What a station of a kind may hold where each good unit passes it once. */
export interface StationKind extends StationLimits {
  /** The same where units pass it more often, ascending. */
  readonly morePasses: readonly StationLimits[];
}

/** Something of which the blocks of a station may take only so much, in whole parts of its own. */
export interface LimitedUse {
  /** By block. */
  readonly uses: readonly bigint[];
  /** By kind of station; null where it has no such limit. */
  readonly most: readonly (bigint | null)[];
  /** Parallel places share what is taken. */
  readonly isPerPlace: boolean;
  /** The people at a place share what is taken. */
  readonly isPerPerson: boolean;
}

/** How far times vary, in whole numbers: see `SpreadRow`. */
export interface SpreadOfTimes {
  /** Of each model that keeps the pace by itself, by block. */
  readonly models: readonly { readonly means: readonly bigint[]; readonly variances: readonly bigint[] }[];
  /** By kind of station; null where nothing is asked there. */
  readonly scores: readonly (bigint | null)[];
  readonly scoreScale: bigint;
  /** The working time by `passes` of a station, then by places - 1. */
  readonly rooms: readonly (readonly bigint[])[];
}

/** Equipment of which only `count` exist. */
export interface Counted {
  readonly name: string;
  readonly count: number;
  readonly needs: readonly boolean[];
  /** How long so many of them at one station have for a unit; endless where nothing says so. */
  time(units: number): number;
}

/** Skills of people, as sets of bits. */
export interface SkillProblem {
  /** By block, of all its tasks. */
  readonly needs: readonly bigint[];
  /** By task number of the line. */
  readonly needsOfTasks: readonly bigint[];
  readonly people: readonly bigint[];
}

/** Today's plan as far as a new one may differ from it. Its stations are labels from 0 in order of flow. */
export interface Today {
  readonly labels: number;
  /** For each block the stations of today that its tasks have; none where today's plan has none of them. */
  readonly homes: readonly (readonly Home[])[];
  /** The label that stands at each position, -1 where none does; null where stations have no fixed places. */
  readonly labelAt: readonly number[] | null;
  /** The most that moves may cost. */
  readonly mostMoves: number;
  /** The same stations with another cost of moves and the most of that, held beside the first; nothing where one cost is asked. */
  readonly beside?: Pick<Today, "homes" | "mostMoves">;
}

/** A station of today's plan with what it costs to take a block's tasks away from it: a whole number above 0. */
export interface Home {
  readonly label: number;
  readonly cost: number;
}

/** A station of a plan under way, at its position. */
export interface FilledStation {
  readonly position: number;
  readonly blocks: readonly number[];
  readonly places: number;
  readonly crew: number;
  /** Units of each counted equipment; as many as it likes where left out. */
  readonly equipment?: readonly number[];
  /** Skills asked of each of its people; none where left out. */
  readonly team?: Team;
}

/** In order of flow; positions ascend. */
export type BlockPlan = readonly FilledStation[];

export function kindAt(problem: Work, position: number): number {
  return Math.min(position, problem.kinds.length - 1);
}

/** What a station of a kind may hold where it has these blocks: units pass it as often as the one of them that is done most. */
export function limitsWith({ kinds, passes }: Work, kind: number, blocks: readonly number[]): StationLimits {
  let most = 0;
  for (const block of blocks) if (passes[block]! > most) most = passes[block]!;
  return most === 0 ? kinds[kind]! : kinds[kind]!.morePasses[most - 1]!;
}

export const peopleOfPlan = (plan: BlockPlan): number =>
  plan.reduce((sum, { places, crew }) => sum + places * crew, 0);

/** Kinds of stations that hold different amounts: on a long floor hardly any. */
export const distinctKinds = ({ kinds }: Pick<Work, "kinds">): StationKind[] => [...new Set(kinds)];

/** The fewest places at which so much may stand alone: it may exceed the limit there, and still takes so many people. */
export function placesAlone(kinds: readonly StationKind[], load: number): number {
  const fewest = kinds
    .map(({ alone }) => 1 + alone.findIndex((most) => load <= most))
    .filter((places) => places > 0);
  return fewest.length === 0 ? 1 : Math.min(...fewest);
}

/** The most that any station of the work may hold, with all its places and people; at least 1. */
export function mostOfStation(work: Work): number {
  return Math.max(...distinctKinds(work).map(({ limits, atOnce }) => atOnce * Math.max(1, limits.at(-1)!)));
}

/** Whether the kind of station may hold the block, alone and with all its places and people. */
export function mayHold(work: Work, block: number, kind: number): boolean {
  const { allowed, loads, mayStandAlone } = work;
  if (!allowed[block]![kind]!) return false;
  const { limits, alone, atOnce } = limitsWith(work, kind, [block]);
  const most = Math.max(limits.at(-1)!, mayStandAlone[block]! ? alone.at(-1)! : 0);
  return loads[block]! <= atOnce * most;
}

/** How many people of a place may each be at a block of their own at once, at any station. */
export const mostAtOnce = ({ kinds }: Work): number => Math.max(...kinds.map(({ atOnce }) => atOnce));

/** Whether stations stand for a sum of the times of their tasks, at one place. */
export const sumsTimesOnly = ({ kinds, schedule }: Work): boolean =>
  schedule === null && kinds.every(({ limits, atOnce }) => limits.length === 1 && atOnce === 1);

/** The most that one person may be loaded with, rounded up. */
export function mostOfPerson(work: Work): number {
  return Math.max(
    1,
    ...distinctKinds(work).flatMap(({ limits }) => limits.map((limit, at) => Math.ceil(limit / (at + 1)))),
  );
}

/** Blocks as the tasks of a problem: of equals the smaller number of a task goes first, whatever number its block has. */
export interface BlocksByTask extends Pick<StationProblem, "times" | "before"> {
  /** The block of each task of the problem. */
  readonly blocks: readonly number[];
}

export function blocksByTask({ members, loads, before }: Work): BlocksByTask {
  const blocks = [...members.keys()].sort((one, two) => members[one]![0]! - members[two]![0]!);
  const numberOf = new Map(blocks.map((block, at) => [block, at]));
  return {
    blocks,
    times: blocks.map((block) => loads[block]!),
    before: blocks.map((block) => before[block]!.map((each) => numberOf.get(each)!)),
  };
}

/** The same work from its last station to its first; only where positions do not matter. Block numbers stay. */
export function turnWork(work: Work): Work {
  const waits = work.waits.map(({ from, to, stations }) => ({ from: to, to: from, stations }));
  const today = work.today === null ? null : turnToday(work.today);
  return { ...work, before: work.after, after: work.before, waits, today };
}

/** A plan from its last station to its first; only where positions do not matter. */
export function turnPlan(plan: BlockPlan): BlockPlan {
  return plan
    .toReversed()
    .map((station, position) => ({ ...station, position, blocks: station.blocks.toReversed() }));
}

function turnToday(today: Today): Today {
  const turn = ({ label, cost }: Home): Home => ({ label: today.labels - 1 - label, cost });
  const turned = ({ homes, mostMoves }: Pick<Today, "homes" | "mostMoves">) => ({
    homes: homes.map((each) => each.map(turn)),
    mostMoves,
  });
  return { ...today, ...turned(today), ...(today.beside && { beside: turned(today.beside) }) };
}

const PLAIN = { modelLimits: [], modelDwell: [], dwell: [], holds: 1, maxCrew: 1, atOnce: 1, morePasses: [] };

/** A plain line: nothing is asked of stations but that tasks fit them. */
export function plainWork({ times, limit, before }: StationProblem): Work {
  const tasks = [...times.keys()];
  const none = tasks.map(() => []);
  return {
    size: times.length,
    members: tasks.map((task) => [task]),
    before,
    after: directFollowers(before),
    loads: times,
    people: times.map(() => 1),
    work: times,
    passes: times.map(() => 0),
    mayStandAlone: times.map(() => true),
    kinds: [{ ...PLAIN, limits: [limit], alone: [limit] }],
    first: times.map(() => 0),
    last: times.map(() => times.length - 1),
    allowed: times.map(() => [true]),
    zones: times.map(() => null),
    apart: none,
    equipment: [],
    limits: [],
    spread: null,
    waits: [],
    modelLoads: [],
    modelShares: [],
    schedule: null,
    skills: null,
    today: null,
    isPositional: false,
    positions: times.length,
  };
}
