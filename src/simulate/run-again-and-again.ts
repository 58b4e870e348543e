import type { Flow } from "../line/line.js";
import { streamsOf } from "./draw-times.js";
import { runPaced } from "./run-paced.js";
import { runUnpaced } from "./run-unpaced.js";
import type { SimulationLength } from "./simulation-answer.js";
import type { Run, RunLine } from "./watched-line.js";

/**
 * Each replication of a line in turn, with random numbers of its own for the work, the breakdowns and the tests of each station. Lines with as many
 * stations get the same ones from a seed, so that what differs between them is no chance of the draw (common random numbers).
 */
export function* runAgainAndAgain(
  run: RunLine,
  pacing: Flow["pacing"],
  { seed, replications, hours, warmUp }: SimulationLength,
): Generator<Run> {
  const streams = streamsOf(seed);
  const next = () => streams.next().value;
  const runLine = pacing === "unpaced" ? runUnpaced : runPaced;
  for (let count = 0; count < replications; count++)
    yield runLine(
      run,
      run.stations.map(() => ({
        work: next(),
        breakdowns: next(),
        tests: run.tested === null ? null : next(),
      })),
      { from: warmUp, to: warmUp + hours },
    );
}
