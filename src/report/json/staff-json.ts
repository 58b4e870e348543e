import type { StaffAnswer, StaffRow, StaffWay } from "../../answer/staff/staff-answer.js";
import type { StaffStep } from "../../answer/staff/staff-steps.js";
import type { Demand } from "../../time/demand.js";
import { CAUTION, cautionsJson, cautionsOf } from "../cautions.js";
import { noWayWords } from "../words/no-way-words.js";
import { findingJson } from "./finding-json.js";
import { numberJson, secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/** The result document of `staff`: the rows of the range, the steps in people, other ways to make one demand. */
export function staffDocument(answer: StaffAnswer) {
  const { line, range, outcome, rows, steps, crew, waysDemand, ways, nodes, findings } = answer;
  return resultDocument("staff", {
    line: line.name,
    outcome,
    period: range.period,
    rows: rows.map(rowJson),
    steps: steps.map(stepJson),
    crew: crew && { people: crew.people, demand: crew.demand && demandJson(crew.demand) },
    alternativesDemand: waysDemand && demandJson(waysDemand),
    alternatives: ways.map(wayJson),
    attendance: numberJson(line.attendance),
    relief: numberJson(line.relief),
    search: { nodeLimit: nodes },
    findings: findings.map(findingJson),
    cautions: cautionsJson(cautionsOf(rows.map(({ plan }) => ({ tasks: line.tasks, plan })))),
    caution: CAUTION,
  });
}

export const staffJson = asText(staffDocument);

const demandJson = ({ units, period }: Demand) => ({ units: numberJson(units), period });

function rowJson(row: StaffRow) {
  const { demand, takt, outcome, leastPeople, measures, people, hired, roster, byWork, moves, machines } =
    row;
  return {
    demand: numberJson(demand.units),
    outcome,
    taktSeconds: secondsJson(takt?.takt ?? null),
    lineCycleSeconds: secondsJson(takt?.pace.lineCycle ?? null),
    stationLimitSeconds: secondsJson(takt?.pace.stationLimit ?? null),
    people: people?.atATime ?? null,
    peopleOnLine: people?.onLine ?? null,
    repairPeople: people?.repair ?? null,
    leastPeople,
    peoplePerDay: people?.perDay ?? null,
    hired,
    stations: measures?.stations ?? null,
    efficiencyAtPace: numberJson(measures?.efficiencyAtPace ?? null),
    idleShare: numberJson(measures?.balanceDelayAtPace ?? null),
    cycleOfPlanSeconds: secondsJson(measures?.cycleOfPlan ?? null),
    outputPerShift: measures?.outputPerShift ?? null,
    costPerUnit: numberJson(row.costPerUnit),
    moves: moves?.count ?? null,
    movesOutcome: moves?.outcome ?? null,
    workPeople: byWork && {
      exact: numberJson(byWork.exact),
      whole: byWork.whole,
      secondsToOneFewer: secondsJson(byWork.lessWork),
    },
    crewSecondsPerShift: secondsJson(row.hours),
    machines: machines.map(({ equipment, exact, units, counted }) => ({
      equipment,
      exact: numberJson(exact),
      units,
      counted,
    })),
    roster: roster && {
      shifts: roster.shifts.map((each) => ({ ...each })),
      peoplePerDay: roster.perDay,
    },
  };
}

function stepJson({ people, from, to, outcome, skipped }: StaffStep) {
  return { people, fromDemand: numberJson(from), toDemand: numberJson(to), outcome, skipped };
}

function wayJson(way: StaffWay) {
  return {
    kind: way.kind,
    shifts: way.shifts,
    crewOf: way.crewOf && demandJson(way.crewOf),
    people: way.people,
    peoplePerDay: way.peoplePerDay,
    hired: way.hired,
    lineCycleSeconds: secondsJson(way.pace?.lineCycle ?? null),
    cycleOfPlanSeconds: secondsJson(way.cycleOfPlan),
    secondsPerShift: secondsJson(way.timePerShift),
    overtimeSecondsPerShift: secondsJson(way.overtime),
    costPerUnit: numberJson(way.costPerUnit),
    outcome: way.outcome,
    reason: way.reason && noWayWords(way.reason),
    /** A good unit comes that often at the best: as the cycle of the plan has it, or less often where waits hold up a line that moves together. */
    outputCycleSeconds: secondsJson(way.outputCycle),
  };
}
