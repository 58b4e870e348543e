import type { Line } from "../../line/line.js";
import type { BalanceAnswer } from "../../off-line/balance-answer.js";
import type { PlanMeasures } from "../../plan/measure.js";
import { divide, multiply, type Ratio, ratio, toDecimal } from "../../time/ratio.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { longTime, percent } from "../../time/show-values.js";
import { MICROS_IN } from "../../time/units.js";
import { labelled, paragraph } from "./sections.js";
import type { Look } from "./style.js";

/** Stations, people and every figure of the plan, each with what it is measured against. */
export function resultText(answer: BalanceAnswer, look: Look): string {
  const { measures } = answer;
  if (measures === null) return paragraph("No balance: no station can hold the tasks named below.", look);
  return labelled(figures(answer, measures), look);
}

function figures(answer: BalanceAnswer, measures: PlanMeasures): [string, string, string][] {
  const { line, pace } = answer;
  const show = showTimesIn(line.unit);
  const { efficiencyAtPace, efficiencyAtSlowest, balanceDelayAtPace, balanceDelayAtSlowest } = measures;
  const smoothness = show(Math.round(measures.smoothness));
  const shares: [string, string, string][] = [
    [
      "efficiency",
      share(efficiencyAtPace),
      `at the pace: work content / (people x ${show(pace.workingTime)})`,
    ],
    ["", share(efficiencyAtSlowest), `at the slowest station, ${measures.slowestStation}`],
    ["balance delay", share(balanceDelayAtPace), "at the pace"],
    ["", share(balanceDelayAtSlowest), "at the slowest station"],
  ];
  return [
    ["stations", String(measures.stations), ""],
    ["people", String(measures.operators), people(answer.line, measures)],
    ["work content", show(measures.workContent), "person-time of one unit"],
    [
      "cycle of plan",
      show(measures.cycleOfPlan),
      `${measures.slowestStation} with handling; line cycle ${show(pace.lineCycle)}`,
    ],
    ...shares,
    ["smoothness", smoothness, "root of the summed squared gaps to the cycle of the plan"],
    ["idle", show(measures.idlePerUnit), "per unit, all stations, against the working time"],
    ...perShift(measures),
  ];
}

function perShift({ idlePerShift, outputPerShift }: PlanMeasures): [string, string, string][] {
  const idle: [string, string, string][] =
    idlePerShift === null ? [] : [["", longTime(wholeMinutes(idlePerShift)), "per shift"]];
  const output: [string, string, string][] =
    outputPerShift === null
      ? []
      : [["output", String(outputPerShift), "good units a shift at the cycle of the plan, rounded down"]];
  return [...idle, ...output];
}

function people(line: Line, { operatorsPerDay }: PlanMeasures): string {
  const shifts = line.calendar?.shifts.length ?? 1;
  const atATime = "on the line at a time";
  return operatorsPerDay === null || shifts === 1
    ? atATime
    : `${atATime}; ${operatorsPerDay} per day in ${shifts} shifts`;
}

/** Idle time of a shift to the nearest minute; nobody acts on its milliseconds. */
function wholeMinutes(idle: Ratio): Ratio {
  const minutes = toDecimal(divide(idle, ratio(MICROS_IN.min)), 0);
  return multiply(ratio(BigInt(minutes)), ratio(MICROS_IN.min));
}

const share = (value: PlanMeasures["efficiencyAtPace"]): string => (value === null ? "-" : percent(value));
