import type { Interval, SimulationAnswer } from "../../simulate/simulation-answer.js";
import { hoursNumber } from "../../time/show-numbers.js";
import { CAUTION, cautionsJson, cautionsOfPlan } from "../cautions.js";
import { findingJson } from "./finding-json.js";
import { numberJson, secondsJson } from "./number-json.js";

/** The result document of `simulate`. */
export function simulateJson(answer: SimulationAnswer): string {
  const { perShift, stations, line, plan } = answer;
  const interval = ({ mean, halfWidth }: Interval) => ({
    mean: numberJson(mean),
    halfWidth: numberJson(halfWidth),
    confidence: numberJson(answer.confidence),
  });
  const document = {
    format: "linepoise/1",
    command: "simulate",
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
    })),
    workInProcess: numberJson(answer.workInProcess),
    passThroughSeconds: secondsJson(answer.passThrough),
    bottleneck: answer.bottleneck,
    findings: answer.findings.map(findingJson),
    cautions: cautionsJson(cautionsOfPlan(line, plan)),
    caution: CAUTION,
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}
