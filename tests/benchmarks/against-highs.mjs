import loadHighs from "highs";
import { judgeRow } from "../../dist/benchmark/judge-row.js";
import { fillByTime } from "../../dist/solve/fill-stations.js";
import { orderOfWork, positionalWeights } from "../../dist/solve/order-of-work.js";
import { fewestStations } from "../../dist/solve/search/fewest-stations.js";
import { stationProgramme } from "../outside/station-programme.mjs";
import { readClassicLines, readOptima } from "./tools/classic-lines.mjs";
import { inThousands, markdownTable, threeDigits } from "./tools/markdown-table.mjs";
import { measureTime } from "./tools/measure-time.mjs";
import { readSeconds, runWithOptions, tellProgress } from "./tools/read-options.mjs";

// The exact search against HiGHS on the classic lines of 10 to 60 tasks, each at the middle one of its published cycles. Both
// get the same first plan: the search to improve on, the integer programme as the number of stations it may use.

const SIZES = { least: 10, most: 60 };
const HEADS = ["line", "tasks", "cycle", "stations", "linepoise ms", "HiGHS ms", "ratio"];

await runWithOptions(
  "against-highs.mjs [--seconds S]",
  { seconds: { type: "string", default: "30" } },
  async (given) => {
    const seconds = readSeconds(given.seconds);
    const highs = await loadHighs();
    const rows = [];
    for (const line of chooseLines()) rows.push(await compare(line, highs, seconds));
    process.stdout.write(
      markdownTable(
        HEADS,
        rows.map(({ cells }) => cells),
      ),
    );
    return rows.every(({ faults }) => faults.length === 0);
  },
);

function chooseLines() {
  const optima = readOptima();
  return [...readClassicLines()].flatMap(([name, { times, before }]) => {
    if (times.length < SIZES.least || times.length > SIZES.most) return [];
    const cycles = optima.filter(({ line }) => line === name);
    return [{ name, problem: { times, before, limit: cycles[cycles.length >> 1].limit } }];
  });
}

async function compare({ name, problem }, highs, seconds) {
  const ours = await measureTime(() => searchFromScratch(problem, seconds));
  const theirs = await measureTime(() => solveProgramme(problem, ours.result.first, highs, seconds));
  const faults = judgeBoth({ name, problem, published: null }, ours.result, theirs.result);
  const stations = ours.result.proved ? ours.result.stations.length : `<= ${ours.result.stations.length}`;
  const [mine, other] = [timeOf(ours, seconds), timeOf(theirs, seconds)];
  tellProgress([`${name}: ${mine} ms, HiGHS ${other} ms`, ...faults].join(", wrong: "));
  const ratio = `${theirs.result.proved ? "" : "> "}${threeDigits(theirs.ms / ours.ms)}`;
  return {
    cells: [name, problem.times.length, inThousands(problem.limit), stations, mine, other, ratio],
    faults,
  };
}

async function searchFromScratch(problem, seconds) {
  const end = performance.now() + seconds * 1000;
  const order = orderOfWork(problem, positionalWeights(problem), problem.times.keys());
  const first = fillByTime(problem, order);
  const answer = await fewestStations(problem, first, { nodes: Number.POSITIVE_INFINITY }, () =>
    performance.now() < end ? null : "time",
  );
  return { first, stations: answer.stations, proved: answer.ended === "proved" };
}

function solveProgramme(problem, first, highs, seconds) {
  const programme = stationProgramme(problem, first.length);
  const { Status, Columns } = highs.solve(programme, { random_seed: 1, time_limit: seconds });
  return { stations: readStations(problem, first.length, Columns), proved: Status === "Optimal" };
}

/** The plan in the columns x_i_k of a solution, in order of work; null where there is no solution yet. */
function readStations(problem, slots, columns) {
  const weights = positionalWeights(problem);
  const stations = Array.from({ length: slots }, () => []);
  for (const { Name, Primal } of Object.values(columns)) {
    const [kind, task, station] = Name.split("_");
    if (Primal === undefined) return null;
    if (kind === "x" && Math.round(Primal) === 1) stations[station - 1].push(Number(task));
  }
  return stations.filter((tasks) => tasks.length > 0).map((tasks) => orderOfWork(problem, weights, tasks));
}

/** Everything wrong with the two answers, in words. A plan of HiGHS that ran out of time may be none at all. */
function judgeBoth(row, ours, theirs) {
  const checked = theirs.proved ? [ours.stations, theirs.stations] : [ours.stations];
  const faults = checked.map((stations) => judgeRow(row, stations, false)).filter((fault) => fault !== null);
  if (ours.proved && theirs.proved && ours.stations.length !== theirs.stations.length)
    faults.push(`${ours.stations.length} stations, HiGHS ${theirs.stations.length}`);
  return faults;
}

function timeOf({ result, ms }, seconds) {
  return result.proved ? threeDigits(ms) : `> ${inThousands(seconds * 1000)}`;
}
