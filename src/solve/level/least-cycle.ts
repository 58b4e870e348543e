import type { Line } from "../../line/line.js";
import { add, compare, divide, multiply, ONE, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { type CycleReason, workedAtOnce } from "../explain/cycle-facts.js";
import { handlingOf, type WorkLimits } from "../lay-out-work.js";
import { fromParts } from "../parts.js";
import { leastHolders, timeHeld } from "../time-held.js";
import { mostAtOnce, type Work } from "../work.js";

/** No plan has a shorter cycle, in microseconds, and why. */
export interface LeastCycle {
  readonly cycle: Ratio;
  readonly reason: CycleReason;
}

/** How many a plan may have at the most. */
export interface Most {
  readonly people: number;
  readonly stations: number;
}

/**
 * What the work alone says of the cycle: shared among the people, and by the longest block; where the plan sets its own pace, also
 * by what each model takes and by what the machines that exist are busy. The first of the longest.
 *
 * @param isTrue by the loads as they are, not as the work rounds them
 */
export function leastCycle(
  line: Line,
  problem: Work,
  limits: WorkLimits,
  most: Most,
  isTrue: boolean,
): LeastCycle {
  const loads = problem.members.map((tasks, block) =>
    isTrue
      ? tasks.map((task) => line.tasks[task]!.load).reduce(add, ZERO)
      : fromParts(line, problem.loads[block]!),
  );
  const work = isTrue
    ? line.tasks.map(({ load, people }) => multiply(load, ratio(people))).reduce(add, ZERO)
    : fromParts(
        line,
        problem.work.reduce((sum, each) => sum + each, 0),
      );
  const handlings = problem.members.map((tasks) => handlingOf(line, limits, tasks));
  const all = ofWork(problem, limits, { loads, handlings, work, people: most.people });
  if (limits.free) all.push(...ofModels(line, problem, limits, most.stations));
  if (limits.free && problem.schedule !== null) all.push(...ofMachines(line));
  return all.reduce((one, two) => (compare(two.cycle, one.cycle) > 0 ? two : one));
}

function ofWork(
  problem: Work,
  limits: WorkLimits,
  {
    loads,
    handlings,
    work,
    people,
  }: {
    readonly loads: readonly Ratio[];
    readonly handlings: readonly Ratio[];
    readonly work: Ratio;
    readonly people: number;
  },
): LeastCycle[] {
  const places = Math.max(...problem.kinds.map(({ limits: all }) => all.length));
  const handling = divide(ratio(limits.pace.handling), ratio(places));
  const together = places * mostAtOnce(problem);
  const cycles = loads.map((load, block) =>
    add(divide(load, ratio(together)), divide(handlings[block]!, ratio(places))),
  );
  const longest = cycles.reduce((at, cycle, block) => (compare(cycle, cycles[at]!) > 0 ? block : at), 0);
  const [time, tasks] = [loads[longest] ?? ZERO, problem.members[longest] ?? []];
  const shared = { kind: "work-of-people" } as const;
  const isAlone = together === 1 && tasks.length === 1;
  return [
    { cycle: add(divide(work, ratio(people)), handling), reason: shared },
    {
      cycle: cycles[longest] ?? handling,
      reason: isAlone ? { kind: "longest-task", task: { task: tasks[0]!, time } } : shared,
    },
  ];
}

/** Stations of one place each. */
function ofModels(line: Line, problem: Work, { pace }: WorkLimits, stations: number): LeastCycle[] {
  const { modelOverload: overload } = line;
  if (overload === null) return [];
  const atOnce = mostAtOnce(problem);
  return problem.modelLoads.flatMap((loads, model) => {
    const cycleOf = (time: Ratio, shared: number) =>
      add(divide(time, multiply(add(ONE, overload), ratio(shared))), ratio(pace.handling));
    const all = fromParts(
      line,
      loads.reduce((sum, load) => sum + load, 0),
    );
    const longest = Math.max(...loads);
    const block = problem.members[loads.indexOf(longest)]!;
    const shares = block.length === 1 ? 1 : atOnce;
    const alone = fromParts(line, longest);
    const common = { kind: "model", model, overload } as const;
    return [
      {
        cycle: cycleOf(all, stations * atOnce),
        reason: { ...common, time: all, of: { stations }, atOnce: workedAtOnce(line, atOnce) },
      },
      {
        cycle: cycleOf(alone, shares),
        reason: { ...common, time: alone, of: { tasks: block }, atOnce: workedAtOnce(line, shares) },
      },
    ];
  });
}

function ofMachines(line: Line): LeastCycle[] {
  return [...line.equipment].map(([equipment, count]) => {
    const holders = leastHolders(line, equipment);
    const busy = holders.map((task) => timeHeld(line, task)).reduce(add, ZERO);
    return { cycle: divide(busy, ratio(count)), reason: { kind: "machine", equipment, busy, count } };
  });
}
