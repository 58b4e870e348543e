import type { StationProblem } from "../problem.js";
import { commonDivisor } from "../search/exact-sums.js";
import { type Instance, layOut, turnRound } from "../search/instance.js";
import type { ChainBound } from "./certificate.js";
import { chainSteps } from "./chain-steps.js";
import { tailsAfterEach } from "./tails.js";

/** For the most tightly placed task: stations before its own, its own, and stations after it (Johnson 1988). */
export function chainBound(problem: StationProblem): ChainBound {
  const after = new Side(problem);
  const before = new Side(turnRound(problem));
  let [tightest, most] = [-1, 0];
  for (let task = 0; task < problem.times.length; task++) {
    const stations = before.stationsBehind(task) + 1 + after.stationsBehind(task);
    if (stations > most) [tightest, most] = [task, stations];
  }
  const limit = after.instance.limit * commonDivisor(problem.times);
  const common = { kind: "chain", stations: most, limit } as const;
  if (tightest < 0)
    return { ...common, tasks: [], stationsBefore: 0, stationsAfter: 0, before: [], after: [] };
  return {
    ...common,
    tasks: [tightest],
    stationsBefore: before.stationsBehind(tightest),
    stationsAfter: after.stationsBehind(tightest),
    before: before.stepsFor(tightest),
    after: after.stepsFor(tightest),
  };
}

/** One way along the line, with tasks by their numbers in the problem. */
class Side {
  readonly instance: Instance;
  private readonly behind: ReturnType<typeof tailsAfterEach>;
  private readonly places: Int32Array;

  constructor(private readonly problem: StationProblem) {
    this.instance = layOut(problem);
    this.behind = tailsAfterEach(this.instance);
    this.places = new Int32Array(this.instance.size);
    for (const [at, task] of this.instance.original.entries()) this.places[task] = at;
  }

  stationsBehind(task: number): number {
    return this.behind.stations[this.places[task]!]!;
  }

  stepsFor(task: number) {
    return chainSteps(this.problem, this.instance, this.behind.tails, this.places[task]!);
  }
}
