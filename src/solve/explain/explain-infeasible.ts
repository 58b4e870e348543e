import type { Line, Task } from "../../line/line.js";
import { handlingAt } from "../../line/passes.js";
import { withoutTasks } from "../../line/without-tasks.js";
import { stationIds } from "../../plan/station-numbers.js";
import type { Pace } from "../../time/pace.js";
import { add, compare, multiply, type Ratio, subtract, ZERO } from "../../time/ratio.js";
import type { BalancingOptions } from "../balance.js";
import { PEOPLE_FIRST } from "../cost.js";
import { layOutWork } from "../lay-out-work.js";
import { mergeTogether } from "../merge-together.js";
import { wholeParts } from "../parts.js";
import { runSearchBelow } from "../search/run-search.js";
import { hasSchedules } from "../unit-rows.js";
import { limitsWith, mostAtOnce, type Work } from "../work.js";
import {
  dwellReasons,
  handReasons,
  keepPaceReasons,
  modelReasons,
  type TimeLimit,
  type TimeReason,
  type TimeSum,
  timeLimitsOf,
  timeSum,
  withoutLimits,
} from "./binding-times.js";
import { findShortage, type Shortage } from "./find-shortage.js";
import { idsOf, type LineRequirement, type LineRule, requirementsOf } from "./line-rules.js";

/** One reason why a line has no plan; times in microseconds, tasks and stations by id. */
export type Reason =
  | LineRule
  | TimeReason
  /** A task that stands where others do, as it lies between two of them along the arrows. */
  | { readonly kind: "between"; readonly task: string; readonly chain: readonly string[] }
  /** Tasks at one station that take more than any station holds. */
  | (TimeSum & { readonly kind: "crowd"; readonly limit: Ratio; readonly places: number });

/** Why a line has no plan at all: a set of reasons none of which can be left out. */
export interface Infeasibility {
  readonly reasons: readonly Reason[];
  /**
   * The earliest station, by the times of the work before it, of a task that a reason holds to sooner ones; by the number of that
   * reason.
   */
  readonly earliest: ReadonlyMap<number, string>;
  /** Tasks that the reasons are about. */
  readonly tasks: readonly number[];
  /** Every reason was tried without: without any one of them there is a plan. */
  readonly isSmallest: boolean;
  /** Tasks whose times are among the reasons. */
  readonly timed: readonly number[];
  /** Counted equipment of which too few exist, as far as reasons say so. */
  readonly scarce: readonly string[];
  /** Work that does not fit what it is held to; where there is one, it is the only reason. */
  readonly shortage: Shortage | null;
  /** Limits of time among the reasons; which machines are needed, and how many of them, is for the caller to say. */
  readonly binding: readonly TimeLimit[];
}

/** What ends the searches for reasons: partial plans that each may look at, no more than usual, and the checkpoint of the command. */
type Stop = Partial<Pick<BalancingOptions, "nodes" | "checkpoint">>;

/**
 * A smallest set of requirements of the line that no plan can keep: each is taken out in turn, and stays out where the rest
 * still has no plan (deletion filtering, Chinneck & Dravnieks 1991), until none can stay out. Times count as requirements too: of
 * the tasks that are left, only those matter that must take time. Null where a search ran out of partial plans before it proved that
 * no plan exists.
 */
export async function explainInfeasible(
  line: Line,
  pace: Pace,
  strictLimit: boolean,
  stop: Stop = {},
): Promise<Infeasibility | null> {
  const probe = new Probe(pace, strictLimit, stop);
  const shortage = probe.shortageOf(line);
  if (shortage === null && (await probe.hasPlan(line)) !== false) return null;
  const crowded = await explainCrowd(line, pace, probe);
  if (crowded !== null) return crowded;
  if (shortage !== null && saysMore(shortage)) return ofShortage(shortage);
  const ofPart = await explainPart(line, pace, strictLimit, stop);
  if (ofPart !== null) return ofPart;
  let rest: Rest = { line, left: [] };
  let isSmallest = true;
  const keepNeeded = async <Each>(all: readonly Each[], without: (each: Each) => Rest): Promise<Each[]> => {
    const needed: Each[] = [];
    for (const each of all) {
      const fewer = without(each);
      const answer = await probe.hasPlan(fewer.line, fewer.left);
      if (answer === null) isSmallest = false;
      if (answer === false) rest = fewer;
      else needed.push(each);
    }
    return needed;
  };
  let binding = timeLimitsOf(line).reverse();
  let timed = [...line.tasks.keys()];
  let kept = requirementsOf(line);
  const count = () => binding.length + timed.length + kept.length;
  // An arrow may join two holds of one rig to one that is shorter than both: what was needed before it went may not be needed after it.
  const isOncePlenty = !hasSchedules(line);
  for (let before = 0; before !== count(); ) {
    before = count();
    binding = await keepNeeded(binding, (limit) => ({ ...rest, left: [...rest.left, limit] }));
    timed = await keepNeeded(timed, (task) => ({ ...rest, line: withoutTime(rest.line, task) }));
    kept = await keepNeeded(kept, (each) => ({ ...rest, line: each.without(rest.line) }));
    if (isOncePlenty || !isSmallest) break;
  }
  binding.reverse();
  const tasks = [...new Set([...kept.flatMap((each) => each.tasks), ...timed])].sort((one, two) => one - two);
  const problem = probe.problem(rest.line);
  const reasons = [
    ...kept.map(({ rule }) => rule),
    ...binding.flatMap((limit) => timeReasons(rest.line, pace, problem, timed, limit)),
  ];
  const scarce = kept.flatMap(({ rule }) => (rule.kind === "counted-equipment" ? [rule.equipment] : []));
  const earliest = await findEarliest(line, kept, probe);
  return { reasons, earliest, tasks, timed, isSmallest, scarce, shortage: null, binding };
}

/** Why tasks that ask for one thing have no plan by themselves: fewer reasons, found sooner than among all tasks. Null where they have one. */
async function explainPart(
  line: Line,
  pace: Pace,
  strictLimit: boolean,
  stop: Stop,
): Promise<Infeasibility | null> {
  const asked = new Map<string, number[]>();
  for (const [at, { equipment, zone }] of line.tasks.entries()) {
    const things = [
      ...equipment.map((name) => `equipment ${name}`),
      ...(zone === null ? [] : [`zone ${zone}`]),
    ];
    for (const thing of things) asked.set(thing, [...(asked.get(thing) ?? []), at]);
  }
  for (const part of asked.values()) {
    if (part.length === line.tasks.length) continue;
    const others = [...line.tasks.keys()].filter((task) => !part.includes(task));
    const why = await explainInfeasible(withoutTasks(line, others), pace, strictLimit, stop);
    if (why === null || why.shortage !== null) continue;
    const inLine = (tasks: readonly number[]) => tasks.map((task) => part[task]!);
    // Who is there is told of the whole line: of other tasks several people may be asked.
    const people = requirementsOf(line).find(({ rule }) => rule.kind === "people")?.rule;
    const reasons = why.reasons.map((each) => (each.kind === "people" ? people! : each));
    return { ...why, reasons, tasks: inLine(why.tasks), timed: inLine(why.timed) };
  }
  return null;
}

/** What is left of what a plan must keep: a line with fewer rules and times, and limits of time that do not count. */
interface Rest {
  readonly line: Line;
  readonly left: readonly TimeLimit[];
}

/** Of few tasks at one station, each rule that holds them there is named, and what they take. */
const saysMore = ({ tasks, stations }: Shortage): boolean => stations.length > 1 || tasks.length > FEW_TASKS;

const FEW_TASKS = 3;

function ofShortage(shortage: Shortage): Infeasibility {
  const { tasks } = shortage;
  return {
    reasons: [],
    earliest: new Map(),
    tasks,
    timed: tasks,
    isSmallest: true,
    scarce: shortage.kind === "equipment" || shortage.kind === "machine" ? [shortage.name!] : [],
    shortage,
    binding: [],
  };
}

/** Tasks that must share a station and together exceed every station, by no more groups than it takes. */
async function explainCrowd(line: Line, pace: Pace, probe: Probe): Promise<Infeasibility | null> {
  // Where people do tasks of their own at once, a station holds more than one of them does.
  if (mostAtOnce(probe.problem(line)) > 1) return null;
  if (line.tasks.some((_, task) => !probe.fitsSomewhere(line, [task]))) return null;
  const crowdOf = (groups: Line["together"]) =>
    mergeTogether(line.before, groups).find(
      (tasks) => tasks.length > 1 && !probe.fitsSomewhere(line, tasks),
    ) ?? null;
  let [groups, tasks] = [line.together, crowdOf(line.together)];
  if (tasks === null) return null;
  for (const group of line.together) {
    const fewer = groups.filter((each) => each !== group);
    const crowd = crowdOf(fewer);
    if (crowd !== null) [groups, tasks] = [fewer, crowd];
  }
  // Where stations differ, the rest may still find no plan, though it crowds none.
  let isSmallest = true;
  for (const group of groups) {
    const fewer = groups.filter((each) => each !== group);
    isSmallest &&= (await probe.hasPlan({ ...withoutRules(line), together: fewer })) === true;
  }
  const all = tasks;
  const alone = longTogether(line, groups, all, probe);
  const short = alone ?? all;
  const asked = new Set(groups.flat());
  const between = alone === null ? all.filter((task) => !asked.has(task)) : [];
  const isOneGroup = groups.some((group) => short.every((task) => group.includes(task)));
  const told = alone !== null && isOneGroup ? [alone] : groups;
  return {
    reasons: [
      ...told.map((group) => ({ kind: "together", tasks: idsOf(line, group) }) as const),
      ...between.map((task) => {
        const chain = chainThrough(line, all, task);
        return { kind: "between", task: line.tasks[task]!.id, chain } as const;
      }),
      {
        kind: "crowd",
        ...timeSum(line, short, (task) => line.tasks[task]!.load),
        limit: multiply(subtract(pace.lineCycle, handlingAt(line, pace, short)), pace.planTo),
        places: mostPlaces(line),
      },
    ],
    earliest: new Map(),
    tasks: short,
    timed: short,
    isSmallest,
    scarce: [],
    shortage: null,
    binding: ["hands"],
  };
}

/** The fewest tasks of the groups that alone exceed every station, the longest first; null where it takes those that lie between. */
function longTogether(
  line: Line,
  groups: Line["together"],
  crowd: readonly number[],
  probe: Probe,
): readonly number[] | null {
  const asked = crowd.filter((task) => groups.some((group) => group.includes(task)));
  const longest = asked.toSorted(
    (one, two) => compare(line.tasks[two]!.load, line.tasks[one]!.load) || one - two,
  );
  for (let count = 2; count <= longest.length; count++) {
    const short = longest.slice(0, count).sort((one, two) => one - two);
    if (!probe.fitsSomewhere(line, short)) return short;
  }
  return null;
}

const mostPlaces = (line: Line): number =>
  Math.max(line.maxPlaces, ...line.floor.map((each) => each.maxPlaces ?? 1));

/** A task with one before it and one after it of the same tasks, along arrows. */
function chainThrough(line: Line, tasks: readonly number[], task: number): string[] {
  const inside = (each: number) => tasks.includes(each);
  const earlier = line.before[task]!.find(inside);
  const later = tasks.find((each) => line.before[each]!.includes(task));
  return [earlier, task, later].flatMap((each) => (each === undefined ? [] : [line.tasks[each]!.id]));
}

function timeReasons(
  line: Line,
  pace: Pace,
  problem: Work,
  timed: readonly number[],
  limit: TimeLimit,
): TimeReason[] {
  if (limit === "machines") return [];
  if (limit === "dwell") return dwellReasons(line, problem, timed);
  if (limit === "hands") return handReasons(line, problem, timed);
  if (limit === "keep-pace") return keepPaceReasons(line, pace, problem, timed);
  return modelReasons(line, pace, problem, timed, limit.model);
}

const totalOf = (line: Line, tasks: readonly number[]): Ratio =>
  tasks.map((task) => line.tasks[task]!.load).reduce(add, ZERO);

/** For a task that is held to early stations: where it could stand at the earliest, by the work that comes before it. */
async function findEarliest(
  line: Line,
  kept: readonly LineRequirement[],
  probe: Probe,
): Promise<Map<number, string>> {
  const found = new Map<number, string>();
  for (const [at, { tasks, rule }] of kept.entries()) {
    if (rule.kind !== "fixed" && rule.kind !== "not-after") continue;
    const [task] = tasks as [number];
    const { stations, notAfter } = line.tasks[task]!;
    const position = await probe.earliest(line, task);
    const last = Math.min(notAfter ?? Number.POSITIVE_INFINITY, ...(stations ?? []));
    if (position === null || position <= last) continue;
    found.set(at, stationIds(line, [position])[0]!);
  }
  return found;
}

function withoutTime(line: Line, task: number): Line {
  return {
    ...line,
    tasks: line.tasks.map((each, at) => (at === task ? { ...each, ...NO_TIME, times: nothing(each) } : each)),
  };
}

/** Times, arrows and stations, and nothing else that a plan must keep. */
function withoutRules(line: Line): Line {
  return {
    ...line,
    tasks: line.tasks.map((each) => ({ ...each, ...ANYWHERE })),
    waits: [],
    together: [],
    apart: [],
    people: [],
    equipment: new Map(),
    modelOverload: null,
    limits: [],
    keepPace: null,
    floor: line.floor.map((station) => ({ ...station, limits: [], keepPace: null })),
  };
}

const ANYWHERE = { stations: null, notBefore: null, notAfter: null, zone: null, equipment: [], skills: [] };
const NO_TIME = { load: ZERO, walking: 0, machineTime: 0 };
const nothing = ({ times }: Task) => times.map((own) => (own === null ? null : 0));

class Probe {
  private isStopped = false;

  constructor(
    private readonly pace: Pace,
    private readonly strictLimit: boolean,
    private readonly stop: Stop,
  ) {}

  problem(line: Line): Work {
    const waits = line.waits.filter((wait) => wait.stations > 0);
    const limits = { pace: this.pace, strictLimit: this.strictLimit, slowest: null, free: false };
    return layOutWork({ ...line, waits }, limits, "down");
  }

  shortageOf(line: Line): Shortage | null {
    return findShortage(line, this.problem(line));
  }

  /** Null where the search ran out before it knew; `left` are limits of time that do not count. */
  async hasPlan(line: Line, left: readonly TimeLimit[] = []): Promise<boolean | null> {
    if (this.isStopped) return null;
    const any = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
    const nodes = Math.min(LIMITS.nodes, this.stop.nodes ?? LIMITS.nodes);
    const limits = { ...LIMITS, nodes, firstOnly: true } as const;
    const problem = withoutLimits(this.problem(line), left);
    if (findShortage(line, problem) !== null) return false;
    const answer = await runSearchBelow(
      problem,
      any,
      PEOPLE_FIRST,
      limits,
      ({ nodes: looked }) =>
        this.stop.checkpoint?.({ nodes: looked, best: null, bound: null, what: "reasons" }) ?? null,
    );
    this.isStopped = answer.ended === "time" || answer.ended === "interrupted";
    if (answer.plan !== null) return true;
    return answer.ended === "proved" ? false : null;
  }

  fitsSomewhere(line: Line, tasks: readonly number[]): boolean {
    const total = totalOf(line, tasks);
    const isAlone = tasks.filter((task) => compare(line.tasks[task]!.load, ZERO) > 0).length <= 1;
    const problem = this.problem(line);
    const blocks = [...problem.members.keys()].filter((block) =>
      problem.members[block]!.every((task) => tasks.includes(task)),
    );
    const limits = [...problem.kinds.keys()].flatMap((at) => {
      const own = limitsWith(problem, at, blocks);
      return isAlone ? own.alone : own.limits;
    });
    return limits.some((limit) => wholeParts(line, total, "down") <= limit);
  }

  /** The first position at which a task can stand behind all the work before it, all other rules left aside. */
  async earliest(line: Line, task: number): Promise<number | null> {
    const before = new Set([...allBefore(line, task), task]);
    const part = withoutTasks(
      withoutRules(line),
      [...line.tasks.keys()].filter((each) => !before.has(each)),
    );
    const own = [...before].filter((each) => each < task).length;
    for (let position = 0; position < line.floor.length + before.size; position++) {
      const held = part.tasks.map((each, at) => (at === own ? { ...each, notAfter: position } : each));
      const answer = await this.hasPlan({ ...part, tasks: held });
      if (answer !== false) return answer === null ? null : position;
    }
    return null;
  }
}

function allBefore(line: Line, task: number): number[] {
  const found = new Set<number>();
  const stack = [...line.before[task]!];
  for (let each = stack.pop(); each !== undefined; each = stack.pop()) {
    if (found.has(each)) continue;
    found.add(each);
    stack.push(...line.before[each]!);
  }
  return [...found];
}

const LIMITS = { nodes: 60_000, memory: 200_000 };
