import type { BatchTime, RampAnswer, RampUnit, UnitAndDay } from "../../answer/ramp/ramp-answer.js";
import { CAUTION, cautionsJson, cautionsOfPlan } from "../cautions.js";
import { paceJson } from "./balance-json.js";
import { findingJson } from "./finding-json.js";
import { numberJson, secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/** The result document of `ramp`; times in seconds, days counted from 1. */
export function rampDocument(answer: RampAnswer) {
  const { line, pace, posts, learned, settled, days } = answer;
  const row = (unit: RampUnit) => rowJson(answer, unit);
  return resultDocument("ramp", {
    line: line.name,
    outcome: answer.paceFrom === null ? "not-met" : "met",
    units: answer.units,
    unitsAsked: answer.unitsAsked,
    pace: paceJson(pace),
    paceMet: metJson(answer.paceFrom),
    learning: learned.map(({ learning, tasks }) => ({
      tasks: tasks.map((task) => line.tasks[task]!.id),
      share: numberJson(learning.share),
      by: learning.by,
      timeAtUnit: learning.timeAt,
      least: numberJson(learning.least),
      built: learning.built,
    })),
    settled: settled && {
      unit: settled.unit,
      cycleOfPlanSeconds: secondsJson(settled.cycle),
      outputCycleSeconds: secondsJson(settled.outputCycle),
    },
    people: answer.people,
    stations: posts.map(({ id, people, paceFrom }) => ({
      id,
      people,
      paceMet: metJson(paceFrom),
      heldUp: answer.heldUp
        .filter((each) => each.id === id)
        .map(({ by, from, to }) => ({
          by: by.kind,
          equipment: by.kind === "equipment" ? by.name : null,
          fromUnit: from,
          toUnit: to,
        })),
    })),
    byUnit: answer.rows.map(row),
    byDay:
      days === null
        ? null
        : days.map(({ day, made, madeInAll, first, behind, extraHands, hands }) => ({
            day,
            units: made,
            unitsInAll: madeInAll,
            behindUnits: numberJson(behind),
            firstUnit: first.unit,
            cycleOfPlanSeconds: secondsJson(first.cycle),
            slowestStation: first.slowest,
            extraPeople: numberJson(extraHands),
            wholeExtraPeople: hands,
            outputCycleSeconds: secondsJson(first.outputCycle),
          })),
    batch: batchJson(answer.batch),
    atStatedTimes: batchJson(answer.atStatedTimes),
    extraPeopleSeconds: secondsJson(answer.extraHandsTime),
    findings: answer.findings.map(findingJson),
    cautions: cautionsJson(cautionsOfPlan(line, answer.plan)),
    caution: CAUTION,
  });
}

export const rampJson = asText(rampDocument);

const metJson = (met: UnitAndDay | null) => met && { unit: met.unit, day: met.day };

const batchJson = ({ line, work }: BatchTime) => ({
  lineSeconds: secondsJson(line),
  workSeconds: secondsJson(work),
});

function rowJson(
  { posts }: RampAnswer,
  { unit, day, cycle, outputCycle, slowest, times, cycles, overPace, extraHands }: RampUnit,
) {
  return {
    unit,
    day,
    cycleOfPlanSeconds: secondsJson(cycle),
    slowestStation: slowest,
    stationsOverPace: overPace,
    extraPeople: numberJson(extraHands),
    stations: posts.map(({ id }, at) => ({
      id,
      seconds: secondsJson(times[at]!),
      cycleSeconds: secondsJson(cycles[at]!),
    })),
    /** A good unit comes so often at the best: as the cycle of the plan has it, or less often where waits hold up a line that moves together. */
    outputCycleSeconds: secondsJson(outputCycle),
  };
}
