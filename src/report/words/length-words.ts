import { countOf, thousands } from "../../findings/count-of.js";
import type { SimulationAnswer } from "../../simulate/simulation-answer.js";
import { quotientShown } from "../../time/show-numbers.js";
import { percent, toMinutes } from "../../time/show-values.js";

/** How long a simulation was, what of that was chosen, and why. */
export function lengthWords(answer: SimulationAnswer): string {
  const { replications, hours, warmUp, seed, chosen } = answer;
  const each = replications === 1 ? "" : ", each";
  const length = `${countOf(replications, "replication")}${each} of ${toMinutes(hours)} after a warm-up of ${toMinutes(warmUp)}; seed ${seed}.`;
  const units =
    chosen.units === null
      ? ""
      : ` The hours are those of ${countOf(chosen.units, "unit")} of the slowest station.`;
  return `${length}${units}${warmUpWords(answer)}${widthWords(answer)}`;
}

function warmUpWords({ chosen: { settled, isWarmUpGiven } }: SimulationAnswer): string {
  if (settled === null) return isWarmUpGiven ? "" : " The trial runs for the warm-up were ended.";
  const { after, trials, units, isSettled } = settled;
  const runs = `${countOf(trials, "trial run")} of ${countOf(units, "unit")}`;
  if (!isSettled)
    return ` The warm-up may be too short: by half of ${runs} neither the output nor the units in the line had settled for sure (MSER-5, White 1997).`;
  return ` The warm-up is that of MSER-5 (White 1997), rounded up to whole hours: the output and the units in the line had settled after ${toMinutes(after)} in ${runs}.`;
}

function widthWords({
  perHour,
  within,
  isRandom,
  replications,
  replicationsAsked,
}: SimulationAnswer): string {
  const { mean, halfWidth } = perHour;
  if (!isRandom) return within === null ? "" : " Nothing varies, so one replication is exact.";
  if (halfWidth === null || mean.num === 0n) return "";
  const is = `The half-width is ${percent(quotientShown(halfWidth, mean), 2)} of the output`;
  if (within === null) return ` ${is}.`;
  const asked = `${percent(within.share, 2)} was asked for`;
  if (within.isReached) return ` ${is}: ${asked}, and replications were added until then.`;
  const most =
    replications < replicationsAsked
      ? ""
      : `, and ${thousands(within.most)} replications are the most that are run`;
  return ` ${is}: ${asked}${most}.`;
}
