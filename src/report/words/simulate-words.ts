import { countOf, countPeople, thousands } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import type { Interval } from "../../simulate/intervals.js";
import type { CarriersOfRun, Help, PlanToHelp, SimulationAnswer } from "../../simulate/simulation-answer.js";
import { type ShowTime, showTimesRoughlyIn } from "../../time/show-in-unit.js";
import { signOf } from "../../time/show-numbers.js";
import { decimal, percent } from "../../time/show-values.js";
import { lengthWords } from "./length-words.js";

/** The answer in a few sentences: what the line makes, what limits it, what is in it. */
export function simulationWords(answer: SimulationAnswer): string {
  const {
    line,
    perHour,
    perShift,
    wantedPerHour,
    confidence,
    isRandom,
    replications,
    bottlenecks,
    stations,
    benches,
    parts,
  } = answer;
  const known = !isRandom
    ? " Nothing varies, so this is exact for these hours."
    : perHour.halfWidth === null
      ? " One replication does not say how far off that may be."
      : signOf(perHour.halfWidth) === 0
        ? " Every replication makes as many."
        : ` The interval holds with ${percent(confidence)} confidence.`;
  const shift = perShift === null ? "" : ` That is ${intervalWords(perShift)} a shift.`;
  const [first, ...others] = bottlenecks;
  const awaited = [
    ...parts.filter(({ station, waiting }) => station === first && signOf(waiting) > 0).map(({ id }) => id),
    ...benches
      .filter(({ joins, waiting }) => stations[joins]!.id === first && signOf(waiting) > 0)
      .map(({ id }) => `what ${id} builds`),
  ];
  const why = awaited.length === 0 ? "" : ` Units wait there for ${listOf(awaited)}.`;
  const which =
    first === undefined
      ? ` ${PACE_LIMITS}`
      : others.length === 0
        ? ` ${first} limits the line.${why}`
        : ` Which station limits the line cannot be told: it may be any of ${listOf(bottlenecks)}. More replications may tell.`;
  const limits = stations.length + benches.length > 1 ? which : "";
  const stopped =
    replications < answer.replicationsAsked
      ? `Stopped after ${thousands(replications)} of ${countOf(answer.replicationsAsked, "replication")}. `
      : "";
  const wanted = wantedPerHour === null ? "" : `, ${decimal(wantedPerHour, 2)} wanted`;
  return `${stopped}${intervalWords(perHour)} good units ${hourWords(line)}${wanted}.${shift}${known}${shiftDemandWords(answer)}${limits}${insideWords(answer)}`;
}

/** What limits a line that moves together and never waits for a station. */
export const PACE_LIMITS = "The pace limits the line: no station needs longer than the line cycle.";

/** What the columns of the table of buffers mean. */
export const BUFFERS_WORDS =
  "Units are means over the hours watched; a unit that finds no room stays at its station and is not among them. That wait: of all units that come to the next station; wait: the mean of all of these.";

/** "room for 1 unit more after S2", "room for 4 sets more after wheels", "1 workplace more at S3 (2 people)", "1 container more of P2 at S2". */
export function helpWords({ kind, station, part, people, sets }: Help): string {
  if (kind === "room") return `room for ${countOf(sets!, "set")} more after ${station}`;
  if (kind === "container") return `1 container more of ${part} at ${station}`;
  return kind === "buffer"
    ? `room for 1 unit more after ${station}`
    : `1 workplace more at ${station} (${countPeople(people)})`;
}

/** "+1.20 ± 0.15", or that nothing is shown; exact where nothing varies. */
export function moreWords({ more, isShown }: Help, isRandom: boolean): string {
  if (more.halfWidth === null) return "one replication cannot tell";
  const sign = more.mean.num > 0n ? "+" : "";
  if (isShown) return `${sign}${intervalWords(more)}`;
  return isRandom ? "no difference can be shown" : "none";
}

/** How far stations may be loaded for the demand to be met. */
export function planToWords(
  { now, planTo, perHour, wanted }: PlanToHelp,
  { confidence, isRandom, line }: SimulationAnswer,
): string {
  const asked = `${decimal(wanted, 2)} good units ${hourWords(line)} are wanted.`;
  const loaded = `The station with the most work is loaded to ${percent(now)} of its working time now.`;
  if (planTo === null || perHour === null)
    return `${asked} ${loaded} Even with all work shortened, so that this is 50 %, they cannot be shown to be met.`;
  const sure = !isRandom
    ? ""
    : perHour.halfWidth === null
      ? " in the one replication"
      : ` with ${percent(confidence)} confidence`;
  const higher =
    planTo.num === planTo.den ? "No higher one is tried." : "That is the highest in whole percents.";
  return `${asked} ${loaded} With a plan-to of ${percent(planTo)} they are met${sure}: ${intervalWords(perHour)} an hour. ${higher}`;
}

/** Demand is per hour of available time; here hours are those in which the line runs. */
const hourWords = ({ uptime }: SimulationAnswer["line"]): string =>
  uptime.num === uptime.den ? "an hour" : "an hour of running";

export function intervalWords({ mean, halfWidth }: Interval): string {
  const shown = decimal(mean, 2);
  return halfWidth === null || halfWidth.num === 0n ? shown : `${shown} ± ${decimal(halfWidth, 2)}`;
}

/** How many simulated shifts make what is wanted in one; empty where that is not known. */
function shiftDemandWords({ shiftDemand, confidence }: SimulationAnswer): string {
  if (shiftDemand === null) return "";
  const { each, wanted, count, met, share, interval } = shiftDemand;
  const made = ` ${thousands(met)} of ${countOf(count, `simulated ${each}`)} ${met === 1 ? "makes" : "make"} the ${decimal(wanted, 2)} wanted`;
  if (interval === null) return `${made}.`;
  const [low, high] = interval;
  return `${made}: ${percent(share)}, and by the interval of Wilson (1927) ${percent(low)} to ${percent(high)} with ${percent(confidence)} confidence.`;
}

function insideWords({ line, workInProcess, passThrough }: SimulationAnswer): string {
  const units = decimal(workInProcess, 2);
  const inside = ` On average ${units} ${units === "1" ? "unit is" : "units are"} in the line`;
  if (passThrough === null) return `${inside}; none left it in the hours watched.`;
  return `${inside}, and each passes through it in ${showTimesRoughlyIn(line.unit)(passThrough)}.`;
}

/** What tests find, and who repairs off the line; empty where no failures are drawn. */
export function repairWords({ repair, line }: SimulationAnswer): string {
  if (repair === null) return "";
  const { people, busy, repairsPerHour, scrappedPerHour, carriers } = repair;
  const who = people === 1 ? "1 repairer, who is busy" : `${people} repairers, who are busy`;
  const scrapped =
    scrappedPerHour.num === 0n ? "" : ` ${decimal(scrappedPerHour, 2)} units an hour are scrapped.`;
  const drawn =
    repairsPerHour.num === 0n
      ? "Failures are drawn one by one."
      : `Failures are drawn one by one: ${decimal(repairsPerHour, 2)} repairs an hour off the line by ${who} ${percent(busy)} of the time.`;
  return `${drawn}${scrapped}${carriers === null ? "" : carriersWords(carriers, showTimesRoughlyIn(line.unit))}`;
}

function carriersWords(
  { perGoodUnit, every, perHour, everyForDemand }: CarriersOfRun,
  show: ShowTime,
): string {
  const often = ` Each failure takes a carrier: a good unit takes ${decimal(perGoodUnit, 4)}, so one comes every ${show(every)}, ${decimal(perHour, 2)} in an hour at most.`;
  return everyForDemand === null
    ? often
    : `${often} Units also wait for empty ones. For the demand one should come every ${show(everyForDemand)}.`;
}

/** How the figures came about. */
export function runWords(answer: SimulationAnswer): string {
  const { line, sequence, lineCycle } = answer;
  const moves = answer.repair?.carriers == null ? "at the line cycle" : "with its carriers";
  const no = answer.repair?.carriers == null ? "the line cycle is over" : "the next carrier comes";
  const pace = {
    unpaced: `The line is unpaced: the first station always has a unit, the last is never blocked, and the demand sets no pace.`,
    moving: `The line moves ${moves} and stops where a station runs past its drift allowance.`,
    indexing: `All units move together when every station is done${lineCycle === null ? "" : `, and not before ${no}`}.`,
  }[line.flow.pacing];
  const models =
    sequence === null
      ? ""
      : ` Models follow the sequence ${sequence.isGiven ? "of the line file" : "that goal chasing makes of their shares"}.`;
  const losses =
    line.uptime.num === line.uptime.den
      ? ""
      : ` Hours are those in which the line runs: ${percent(line.uptime)} of the available time (\`uptime\`).`;
  const scrap =
    line.yield.num === line.yield.den
      ? ""
      : ` Of the units that leave the line ${percent(line.yield)} are good (\`yield\`).`;
  const pauses = answer.goesOnInPauses
    ? " In breaks and between shifts nobody works; waits and machines go on."
    : "";
  const waits = !answer.hasWaits
    ? ""
    : line.flow.pacing === "unpaced"
      ? " A unit that waits between two tasks stands beside the line in a fixture until the next station takes it: as many can as wait there where the slowest station never stands, one more, and what the room holds."
      : " A wait between two tasks is spent in the line: the station after it begins no sooner.";
  const empty =
    answer.emptyStations === 0
      ? ""
      : ` Between the stations of the plan the line has ${countOf(answer.emptyStations, "empty station")}; a unit stands at each for a line cycle.`;
  const turns = answer.sharesPeople
    ? " Where several units stand at a workplace, the one that came first has its people first. They work on a later one only where that delays none."
    : "";
  const shifts =
    answer.shiftDemand === null
      ? ""
      : ` Simulated ${answer.shiftDemand.each}s follow each other from the end of the warm-up on, without a weekend.`;
  return `${lengthWords(answer)}${shifts} ${pace}${waits}${empty}${turns}${models}${scrap}${losses}${pauses}`;
}

export const limitWords = (stations: number, limiting: number): string =>
  stations === 1 ? "" : limiting === 1 ? "limits" : "may limit";
