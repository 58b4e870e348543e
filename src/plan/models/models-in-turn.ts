import type { Line } from "../../line/line.js";
import { greatestCommonDivisor } from "../../time/ratio.js";
import type { Plan } from "../plan.js";
import { modelTime } from "../station-schedule.js";
import { goalChasing } from "./goal-chasing.js";
import { repeatQuantities } from "./repeat-quantities.js";

/** The models of the units, again and again: as the line gives them, or level by goal chasing; null on a line that builds one. */
export function modelsInTurn(line: Line, { stations }: Pick<Plan, "stations">) {
  if (line.models.length === 0) return null;
  if (line.sequence !== null) return { models: line.sequence, isGiven: true };
  const { quantities } = repeatQuantities(line.models.map(({ share }) => share));
  const uses = line.models.map((_, model) => stations.map((station) => modelTime(line, station, model)));
  return { models: goalChasing(quantities, uses).sequence, isGiven: false };
}

/** Of models that follow each other again and again, those that work of every so many units meets: positions of one remainder. */
export function modelsMet(models: readonly number[], every: number): readonly number[] {
  const apart = Number(greatestCommonDivisor(BigInt(every), BigInt(models.length)));
  return apart === 1 ? models : models.filter((_, at) => at % apart === (every - 1) % apart);
}
