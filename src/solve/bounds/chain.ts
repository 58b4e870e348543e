import type { StationProblem } from "../problem.js";
import { layOut, turnRound } from "../search/instance.js";
import type { ChainBound } from "./certificate.js";
import { stationsAfterEach } from "./tails.js";

/** For the most tightly placed task: stations before its own, its own, and stations after it (Johnson 1988). */
export function chainBound(problem: StationProblem): ChainBound {
  const after = byOriginalNumber(problem);
  const before = byOriginalNumber(turnRound(problem));
  let best: ChainBound = { kind: "chain", stations: 0, tasks: [], stationsBefore: 0, stationsAfter: 0 };
  for (let task = 0; task < problem.times.length; task++) {
    const [stationsBefore, stationsAfter] = [before[task]!, after[task]!];
    const stations = stationsBefore + 1 + stationsAfter;
    if (stations > best.stations)
      best = { kind: "chain", stations, tasks: [task], stationsBefore, stationsAfter };
  }
  return best;
}

function byOriginalNumber(problem: StationProblem): Int32Array {
  const instance = layOut(problem);
  const stations = new Int32Array(instance.size);
  for (const [at, least] of stationsAfterEach(instance).entries()) stations[instance.original[at]!] = least;
  return stations;
}
