import type { Line } from "../../line/line.js";
import { add, compare, divide, multiply, ONE, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { percent } from "../../time/show-values.js";
import type { WorkLimits } from "../lay-out-work.js";
import { fromParts } from "../parts.js";
import type { Work } from "../work.js";
import { busyOf } from "./cycle-of-work.js";

/** No plan has a shorter cycle, in microseconds, and why, in words. */
export interface LeastCycle {
  readonly cycle: Ratio;
  readonly reason: string;
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
  const reason = "the work content shared among as many people, and the longest task, allow nothing shorter";
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
  const show = showTimesIn(line.unit);
  const sides = sidesOf(problem);
  const above =
    compare(overload, ZERO) === 0
      ? "may not be above the working time"
      : `may be ${percent(overload)} above the working time`;
  return problem.modelLoads.flatMap((loads, model) => {
    const { id } = line.models[model]!;
    const cycleOf = (time: Ratio, shared: number) =>
      add(divide(time, multiply(add(ONE, overload), ratio(shared))), ratio(pace.handling));
    const all = fromParts(
      line,
      loads.reduce((sum, load) => sum + load, 0),
    );
    const longest = Math.max(...loads);
    const block = problem.members[loads.indexOf(longest)]!;
    const tasks = block.map((task) => line.tasks[task]!.id).join(" + ");
    const shares = block.length === 1 ? 1 : sides;
    const shared =
      stations * sides === 1
        ? ""
        : ` at ${stations} ${stations === 1 ? "station" : "stations"}${both(sides)}`;
    const alone = fromParts(line, longest);
    return [
      { cycle: cycleOf(all, stations * sides), reason: `${id} takes ${show(all)}${shared}, and ${above}` },
      {
        cycle: cycleOf(alone, shares),
        reason: `${id} takes ${show(alone)} for ${tasks}${both(shares)}, and ${above}`,
      },
    ];
  });
}

const both = (sides: number): string => (sides === 1 ? "" : " with both sides");

function ofMachines(line: Line): LeastCycle[] {
  const show = showTimesIn(line.unit);
  return [...line.equipment].map(([name, count]) => {
    const busy = busyOf(line, [...line.tasks.keys()], name);
    const among = count === 1 ? "1 exists" : `${count} exist`;
    const reason = `${name} is loaded and runs ${show(busy)} for a unit, and ${among}`;
    return { cycle: divide(busy, ratio(count)), reason };
  });
}
