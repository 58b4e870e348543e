import type { Line } from "../../line/line.js";
import { add, compare, divide, multiply, ONE, type Ratio, ratio } from "../../time/ratio.js";
import type { CycleReason } from "../explain/cycle-facts.js";
import type { WorkLimits } from "../lay-out-work.js";
import { fromParts } from "../parts.js";
import type { Work } from "../work.js";
import { busyOf } from "./cycle-of-work.js";

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
 */
export function leastCycle(line: Line, problem: Work, limits: WorkLimits, most: Most): LeastCycle {
  const all = [...ofWork(line, problem, limits, most.people)];
  if (limits.free) all.push(...ofModels(line, problem, limits, most.stations), ...ofMachines(line));
  return all.reduce((one, two) => (compare(two.cycle, one.cycle) > 0 ? two : one));
}

function ofWork(line: Line, problem: Work, limits: WorkLimits, people: number): LeastCycle[] {
  const places = Math.max(...problem.kinds.map(({ limits: all }) => all.length));
  const handling = divide(ratio(limits.pace.handling), ratio(places));
  const work = problem.work.reduce((sum, each) => sum + each, 0);
  const longest = Math.max(...problem.loads);
  const reason = { kind: "work-of-people" } as const;
  return [
    { cycle: add(divide(fromParts(line, work), ratio(people)), handling), reason },
    { cycle: add(divide(fromParts(line, longest), ratio(places * sidesOf(problem))), handling), reason },
  ];
}

/** People at both sides of a station work a block of it at the same time. */
const sidesOf = ({ sides }: Work): number => (sides === null ? 1 : 2);

/** Stations of one place each. */
function ofModels(line: Line, problem: Work, { pace }: WorkLimits, stations: number): LeastCycle[] {
  const { modelOverload: overload } = line;
  if (overload === null) return [];
  const sides = sidesOf(problem);
  return problem.modelLoads.flatMap((loads, model) => {
    const cycleOf = (time: Ratio, shared: number) =>
      add(divide(time, multiply(add(ONE, overload), ratio(shared))), ratio(pace.handling));
    const all = fromParts(
      line,
      loads.reduce((sum, load) => sum + load, 0),
    );
    const longest = Math.max(...loads);
    const block = problem.members[loads.indexOf(longest)]!;
    const shares = block.length === 1 ? 1 : sides;
    const alone = fromParts(line, longest);
    const common = { kind: "model", model, overload } as const;
    return [
      {
        cycle: cycleOf(all, stations * sides),
        reason: { ...common, time: all, of: { stations }, bothSides: sides > 1 },
      },
      {
        cycle: cycleOf(alone, shares),
        reason: { ...common, time: alone, of: { tasks: block }, bothSides: shares > 1 },
      },
    ];
  });
}

function ofMachines(line: Line): LeastCycle[] {
  return [...line.equipment].map(([equipment, count]) => {
    const busy = busyOf(line, [...line.tasks.keys()], equipment);
    return { cycle: divide(busy, ratio(count)), reason: { kind: "machine", equipment, busy, count } };
  });
}
