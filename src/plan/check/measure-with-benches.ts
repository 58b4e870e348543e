import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import {
  add,
  compare,
  divide,
  larger,
  multiply,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";
import { measurePlan, type PlanMeasures, type UnequalShifts } from "../measure.js";
import type { Plan } from "../plan.js";
import {
  balanceDelay,
  idlePerDayOf,
  isOverloaded,
  outputByShiftAt,
  outputPerShiftAt,
  shiftTime,
} from "../plan-figures.js";
import { workingTime } from "../station-figures.js";
import type { BenchLoad } from "./bench-load.js";

/**
 * The figures of a plan over all its people, those at benches among them: people, work, efficiency, idle time and output; stations,
 * smoothness and lead time are those of the line alone.
 */
export function measureWithBenches(
  line: Line,
  pace: Pace,
  plan: Plan,
  benches: readonly BenchLoad[],
): PlanMeasures {
  const alone = measurePlan(line, pace, plan);
  if (benches.length === 0) return alone;
  const sumOf = (of: (bench: BenchLoad) => Ratio) => benches.map(of).reduce(add, ZERO);
  const paidBy = ({ bench, workingTime: working }: BenchLoad, lineCycle: Ratio) =>
    multiply(ratio(bench.crew), working(lineCycle));
  const paid = (lineCycle: Ratio) =>
    plan.stations
      .map((station) => multiply(ratio(station.crew), workingTime(pace, station, lineCycle)))
      .reduce(
        add,
        sumOf((bench) => paidBy(bench, lineCycle)),
      );
  const workContent = add(
    alone.workContent,
    sumOf(({ personTime }) => personTime),
  );
  const efficiencyAt = (lineCycle: Ratio) =>
    compare(paid(lineCycle), ZERO) > 0 ? divide(workContent, paid(lineCycle)) : null;
  const isTooLong = isOverloaded(line, pace, plan) || benches.some((bench) => isBehind(bench, pace));
  const cycle = benches.reduce((most, bench) => larger(most, bench.cycle), alone.cycleOfPlan);
  const slowest = benches.find((bench) => compare(bench.cycle, cycle) === 0);
  const [atPace, atSlowest] = [isTooLong ? null : efficiencyAt(pace.lineCycle), efficiencyAt(cycle)];
  const idle = add(
    alone.idlePerUnit,
    sumOf((bench) => larger(ZERO, subtract(paidBy(bench, pace.lineCycle), bench.personTime))),
  );
  const people = benches.reduce((sum, bench) => sum + bench.people, 0);
  const peopleOfDay = benches.reduce((sum, bench) => sum + bench.peopleOfDay, 0);
  return {
    ...alone,
    operators: alone.operators + people,
    operatorsPerDay: alone.operatorsPerDay === null ? null : alone.operatorsPerDay + peopleOfDay,
    workContent,
    cycleOfPlan: cycle,
    slowestStation:
      compare(cycle, alone.cycleOfPlan) > 0 && slowest !== undefined
        ? slowest.bench.id
        : alone.slowestStation,
    efficiencyAtPace: atPace,
    efficiencyAtSlowest: atSlowest,
    balanceDelayAtPace: balanceDelay(atPace),
    balanceDelayAtSlowest: balanceDelay(atSlowest),
    idlePerUnit: idle,
    idlePerShift: perShift(line, pace, idle),
    outputPerShift: outputPerShiftAt(line, cycle),
    ofUnequalShifts: withBenches(line, pace, alone.ofUnequalShifts, idle, cycle),
  };
}

function withBenches(
  line: Line,
  pace: Pace,
  alone: UnequalShifts | null,
  idle: Ratio,
  cycle: Ratio,
): UnequalShifts | null {
  const [idlePerDay, output] = [idlePerDayOf(line, pace, idle), outputByShiftAt(line, cycle)];
  return alone === null || idlePerDay === null || output === null ? null : { idlePerDay, output };
}

const isBehind = ({ work, workingTime: working }: BenchLoad, { lineCycle }: Pace): boolean =>
  compare(work, working(lineCycle)) > 0;

/** Per unit x units started in a shift. */
function perShift(line: Line, { lineCycle }: Pace, perUnit: Ratio): Ratio | null {
  const available = shiftTime(line);
  if (available === null || compare(lineCycle, ZERO) === 0) return null;
  return multiply(perUnit, divide(multiply(ratio(available), line.uptime), lineCycle));
}
