import type { Interval } from "../../simulate/intervals.js";
import type { SimulatedBench, SimulatedStock } from "../../simulate/simulated-benches.js";
import type { SimulationAnswer } from "../../simulate/simulation-answer.js";
import { hoursNumber } from "../../time/show-numbers.js";
import { CAUTION, cautionsJson, cautionsOfPlan } from "../cautions.js";
import { findingJson } from "./finding-json.js";
import { numberJson, secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/** The result document of `simulate`. */
export function simulateDocument(answer: SimulationAnswer) {
  const { line, plan } = answer;
  return resultDocument("simulate", {
    ...simulationFacts(answer),
    cautions: cautionsJson(cautionsOfPlan(line, plan)),
    caution: CAUTION,
  });
}

export const simulateJson = asText(simulateDocument);

/** What the plan makes on simulated days, and what its stations do. */
export function simulationFacts(answer: SimulationAnswer) {
  const { perShift, stations, within } = answer;
  const planTo = answer.whatHelps?.planTo ?? null;
  const interval = ({ mean, halfWidth }: Interval) => ({
    mean: numberJson(mean),
    halfWidth: numberJson(halfWidth),
    confidence: numberJson(answer.confidence),
  });
  return {
    seed: answer.seed,
    replications: answer.replications,
    hours: hoursNumber(answer.hours),
    warmUpHours: hoursNumber(answer.warmUp),
    goodUnitsPerHour: interval(answer.perHour),
    goodUnitsPerShift: perShift && interval(perShift),
    stations: stations.map(({ id, shares, overrun }) => ({
      id,
      busy: numberJson(shares.busy),
      starved: numberJson(shares.starved),
      blocked: numberJson(shares.blocked),
      down: numberJson(shares.down),
      overrun: numberJson(overrun),
      ...(answer.canWait && { waiting: numberJson(shares.waiting) }),
    })),
    workInProcess: numberJson(answer.workInProcess),
    passThroughSeconds: secondsJson(answer.passThrough),
    bottleneck: answer.bottleneck,
    findings: answer.findings.map(findingJson),
    bottlenecks: answer.bottlenecks,
    repair: answer.repair && {
      people: answer.repair.people,
      busy: numberJson(answer.repair.busy),
      repairsPerHour: numberJson(answer.repair.repairsPerHour),
      scrappedPerHour: numberJson(answer.repair.scrappedPerHour),
      ...(answer.repair.carriers !== null && {
        carriersPerGoodUnit: numberJson(answer.repair.carriers.perGoodUnit),
        carrierSeconds: secondsJson(answer.repair.carriers.every),
        carrierSecondsForDemand: secondsJson(answer.repair.carriers.everyForDemand),
      }),
    },
    course: answer.course.map(({ until, made, wanted, inLine }) => ({
      untilHours: hoursNumber(until),
      goodUnits: numberJson(made),
      wanted: numberJson(wanted),
      unitsInLine: numberJson(inLine),
    })),
    whatHelps: answer.whatHelps && {
      changes: answer.whatHelps.helps.map(
        ({ kind, station, part, people, sets, perHour, more, isShown }) => ({
          change: kind,
          station,
          people,
          goodUnitsPerHour: interval(perHour),
          more: interval(more),
          isShown,
          ...(part !== null && { part }),
          ...(sets !== undefined && { sets }),
        }),
      ),
      planTo: planTo && {
        now: numberJson(planTo.now),
        most: numberJson(planTo.planTo),
        goodUnitsPerHour: planTo.perHour && interval(planTo.perHour),
        wantedPerHour: numberJson(planTo.wanted),
      },
    },
    wantedPerHour: numberJson(answer.wantedPerHour),
    ...(answer.parts.length > 0 && {
      parts: answer.parts.map(({ station, id, pack, containers, waiting }) => ({
        station,
        part: id,
        containers,
        pack,
        unitsWaiting: numberJson(waiting),
      })),
    }),
    ...(answer.benches.length > 0 && { benches: answer.benches.map(benchJson) }),
    ...(answer.buffers.length > 0 && {
      buffers: answer.buffers.map(({ after, before, size, mean, most, waiting, wait }) => ({
        after,
        before,
        room: size,
        units: numberJson(mean),
        most,
        shareThatWaits: numberJson(waiting),
        waitSeconds: secondsJson(wait),
      })),
    }),
    shiftDemand: shiftDemandJson(answer),
    chosen: chosenJson(answer),
    within: within && { asked: numberJson(within.share), isReached: within.isReached, most: within.most },
  };
}

/** How many of the simulated shifts, or days, make what is wanted in one. */
function shiftDemandJson({ shiftDemand, confidence }: SimulationAnswer) {
  if (shiftDemand === null) return null;
  const { each, wanted, count, met, share, interval } = shiftDemand;
  return {
    each,
    wanted: numberJson(wanted),
    count,
    met,
    share: numberJson(share),
    low: numberJson(interval?.[0] ?? null),
    high: numberJson(interval?.[1] ?? null),
    confidence: interval && numberJson(confidence),
    method: interval && "Wilson 1927",
  };
}

/** What of the length the tool chose; each null where it was given. */
function chosenJson({ chosen, hours, warmUp, replications, within }: SimulationAnswer) {
  const { units, settled, isWarmUpGiven, areReplicationsGiven } = chosen;
  return {
    hours: units && { unitsOfSlowestStation: units, hours: hoursNumber(hours) },
    warmUp: isWarmUpGiven
      ? null
      : {
          rule: "MSER-5",
          hours: hoursNumber(warmUp),
          settledAfterHours: settled?.isSettled ? hoursNumber(settled.after) : null,
          trialRuns: settled?.trials ?? null,
          unitsOfSlowestStation: settled?.units ?? null,
        },
    replications: areReplicationsGiven && within === null ? null : replications,
  };
}

function benchJson({ id, shares, perHour, waiting, room, course, isByHour, ...stock }: SimulatedBench) {
  return {
    id,
    busy: numberJson(shares.busy),
    starved: numberJson(shares.starved),
    blocked: numberJson(shares.blocked),
    setsPerHour: numberJson(perHour),
    unitsWaiting: numberJson(waiting),
    room,
    stock: stockJson(stock),
    course: course.map(({ from, to, isLineAtWork, isBenchAtWork, ...each }) => ({
      fromHours: hoursNumber(from),
      untilHours: hoursNumber(to),
      line: isLineAtWork,
      bench: isBenchAtWork,
      ...stockJson(each),
    })),
    courseOf: isByHour ? "day" : "hours watched",
  };
}

const stockJson = ({ mean, least, greatest }: SimulatedStock) => ({
  mean: numberJson(mean),
  least,
  greatest,
});
