import { countOf, thousands } from "../../findings/count-of.js";
import type { Interval, SimulationAnswer } from "../../simulate/simulation-answer.js";
import { showTimesRoughlyIn } from "../../time/show-in-unit.js";
import { decimal, percent, toMinutes } from "../../time/show-values.js";

/** The answer in a few sentences: what the line makes, what limits it, what is in it. */
export function simulationWords(answer: SimulationAnswer): string {
  const { perHour, perShift, confidence, isRandom, replications, bottleneck, stations } = answer;
  const known = !isRandom
    ? " Nothing varies, so this is exact for these hours."
    : perHour.halfWidth === null
      ? " One replication does not say how far off that may be."
      : ` The interval holds with ${percent(confidence)} confidence.`;
  const shift = perShift === null ? "" : ` That is ${intervalWords(perShift)} a shift.`;
  const limits = stations.length > 1 ? ` ${bottleneck} limits the line.` : "";
  const stopped =
    replications < answer.replicationsAsked
      ? `Stopped after ${thousands(replications)} of ${countOf(answer.replicationsAsked, "replication")}. `
      : "";
  return `${stopped}${intervalWords(perHour)} good units an hour.${limits}${known}${shift}${insideWords(answer)}`;
}

function intervalWords({ mean, halfWidth }: Interval): string {
  const shown = decimal(mean, 2);
  return halfWidth === null || halfWidth.num === 0n ? shown : `${shown} ± ${decimal(halfWidth, 2)}`;
}

function insideWords({ line, workInProcess, passThrough }: SimulationAnswer): string {
  const inside = ` On average ${decimal(workInProcess, 2)} units are in the line`;
  if (passThrough === null) return `${inside}; none left it in the hours watched.`;
  return `${inside}, and each passes through it in ${showTimesRoughlyIn(line.unit)(passThrough)}.`;
}

/** How the figures came about. */
export function runWords(answer: SimulationAnswer): string {
  const { line, replications, hours, warmUp, seed, sequence, lineCycle } = answer;
  const length = `${countOf(replications, "replication")}, each of ${toMinutes(hours)} after a warm-up of ${toMinutes(warmUp)}; seed ${seed}.`;
  const pace = {
    unpaced: `The line is unpaced: the first station always has a unit, the last is never blocked, and the demand sets no pace.`,
    moving: `The line moves at the line cycle and stops where a station runs past its drift allowance.`,
    indexing: `All units move together when every station is done${lineCycle === null ? "" : ", and not before the line cycle is over"}.`,
  }[line.flow.pacing];
  const models =
    sequence === null
      ? ""
      : ` Models follow the sequence ${sequence.isGiven ? "of the line file" : "that goal chasing makes of their shares"}.`;
  const losses =
    line.uptime.num === line.uptime.den
      ? ""
      : ` A shift runs for ${percent(line.uptime)} of its time (\`uptime\`).`;
  const scrap =
    line.yield.num === line.yield.den
      ? ""
      : ` Of the units that leave the line ${percent(line.yield)} are good (\`yield\`).`;
  return `${length} ${pace}${models}${scrap}${losses}`;
}

export const limitWords = (stations: number): string => (stations > 1 ? "limits" : "");
