import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { compare, divide, type Ratio, ZERO } from "../../time/ratio.js";
import { workingTime } from "../figures/working-time.js";
import { type WorstModel, worstModel } from "../figures/worst-model.js";
import type { Plan, Station } from "../plan.js";
import { postOf } from "../post.js";
import { type DriftRoom, driftRoom } from "./drift-room.js";
import { type LevelledSequence, levelledSequence } from "./levelled-sequence.js";
import { meanOverModels, modelTimes } from "./model-time.js";

/** What the mix of models does to one station; times per unit in microseconds. */
export interface StationMix {
  readonly id: string;
  readonly workingTime: Ratio;
  /** Share-weighted mean over the models: the station time. */
  readonly average: Ratio;
  /** Average / working time. */
  readonly averageShare: Ratio;
  /** By model, in the order of the line. */
  readonly times: readonly Ratio[];
  /** null on a line without models. */
  readonly worst: WorstModel | null;
  /** For the sequence of the line file; null where it has none. */
  readonly givenDrift: DriftRoom | null;
  readonly proposedDrift: DriftRoom;
}

/** What the mix of models does to a plan. */
export interface MixMeasures {
  /** The sequence of the line file, as numbers of models; null where it has none. */
  readonly given: readonly number[] | null;
  readonly proposed: LevelledSequence;
  /** In order of flow. */
  readonly stations: readonly StationMix[];
}

/** The figures of every station of a plan under the given and the proposed sequence of models. */
export function measureMix(line: Line, pace: Pace, plan: Plan): MixMeasures {
  const proposed = levelledSequence(line, pace, plan);
  const proposedDrifts = driftRoom(line, pace, plan, proposed.sequence);
  const givenDrifts = line.sequence && driftRoom(line, pace, plan, line.sequence);
  const stations = plan.stations.map((station, at) => ({
    ...measureStation(line, pace, station),
    givenDrift: givenDrifts?.[at] ?? null,
    proposedDrift: proposedDrifts[at]!,
  }));
  return { given: line.sequence, proposed, stations };
}

function measureStation(
  line: Line,
  pace: Pace,
  station: Station,
): Omit<StationMix, "givenDrift" | "proposedDrift"> {
  const [working, times] = [
    workingTime(postOf(line, pace, station), pace.lineCycle),
    modelTimes(line, station),
  ];
  const average = meanOverModels(line, times);
  return {
    id: station.id,
    workingTime: working,
    average,
    averageShare: compare(working, ZERO) > 0 ? divide(average, working) : ZERO,
    times,
    worst: worstModel(line, pace, station),
  };
}
