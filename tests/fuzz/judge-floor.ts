import fc from "fast-check";
import { rebalanceLine } from "../../src/answer/rebalance/rebalance-line.js";
import { peopleOf } from "../../src/plan/figures/people.js";
import { verifyPlan } from "../../src/plan/verify-plan.js";
import { costOf, PEOPLE_FIRST } from "../../src/solve/cost.js";
import { layOutWork } from "../../src/solve/lay-out-work.js";
import { runSearchBelow } from "../../src/solve/search/run-search.js";
import { toPlan } from "../../src/solve/to-plan.js";
import { EveryFloorPlan } from "../generated/floor/every-floor-plan.js";
import { bestOf, everyChange, type RebalanceCase, rebalanceCases } from "../tools/every-trade-off.js";
import { type FloorCase, floorCases } from "../tools/floor-random-line.js";
import {
  CYCLE,
  cheapestKeepingPace,
  type KeepPaceCase,
  keepPaceCases,
  keepPaceFile,
} from "../tools/keep-pace-cases.js";
import { passesCheck } from "../tools/passes-check.js";
import { scheduleCases } from "../tools/schedule-cases.js";
import { anyLine } from "./any-line.js";
import { Draw } from "./draw.js";
import { runInMemory } from "./memory-context.js";
import { rowsOfCompare, rowsOfOffLine, rowsOfOrder } from "./rows-alone.js";
import { yamlOf } from "./tree.js";

/** A small line that is asked a question with one right answer, and what is wrong with ours. */
interface Judged {
  readonly command: string;
  readonly failure: string | null;
}

/** The line of a number, against every plan of it or against another command; what fails is shrunk. */
export async function judgeFloor(number: number): Promise<Judged> {
  switch (number % 9) {
    case 0:
      return against(number, "balance", floorCases({ fewest: 2, most: 4 }), balanced);
    case 1:
      return against(number, "balance", scheduleCases({ fewest: 2, most: 4 }), balanced);
    case 2:
      return against(number, "balance", scheduleCases({ fewest: 2, most: 3, isShared: true }), balanced);
    case 3:
      return against(number, "rebalance", rebalanceCases(3, { hasPoints: true }), rebalanced);
    case 4:
      return against(number, "keep-pace", keepPaceCases, keepsPace);
    case 5:
      return { command: "off-line", failure: await rowsOfOffLine(new Draw(number)) };
    case 6:
      return { command: "compare", failure: await rowsOfCompare(new Draw(number)) };
    case 7:
      return { command: "order", failure: await rowsOfOrder(new Draw(number)) };
    default:
      return { command: "staff", failure: await rowsOfStaff(number) };
  }
}

async function against<Given>(
  seed: number,
  command: string,
  cases: fc.Arbitrary<Given>,
  judge: (given: Given) => Promise<string | null>,
): Promise<Judged> {
  const property = fc.asyncProperty(cases, async (given) => {
    const failure = await judge(given);
    if (failure !== null) throw new Error(failure);
  });
  const run = await fc.check(property, { seed, numRuns: 1, endOnFailure: false });
  if (!run.failed) return { command, failure: null };
  const [smallest] = run.counterexample ?? [];
  const error = run.errorInstance instanceof Error ? run.errorInstance.stack : "";
  return { command, failure: `${command} of a floor: ${error}\n${fc.stringify(smallest)}` };
}

const ANY = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
const LIMITS = { nodes: 1_000_000, memory: 100_000 };

/** The fewest people, then stations, of every plan; and the plan passes the verifier. */
async function balanced(given: FloorCase): Promise<string | null> {
  const { line, pace, strictLimit } = given;
  const work = layOutWork(line, { pace, strictLimit, slowest: null, free: false });
  const { plan, ended } = await runSearchBelow(work, ANY, PEOPLE_FIRST, LIMITS, () => null);
  if (ended !== "proved") return `the search ended with ${ended}`;
  const [found, best] = [plan && costOf(plan), new EveryFloorPlan(given).cheapest()];
  if (found?.people !== best?.people || found?.stations !== best?.stations)
    return `found ${JSON.stringify(found)}, best of all plans ${JSON.stringify(best)}`;
  if (plan === null) return null;
  const faults = verifyPlan(line, pace, toPlan(line, work, plan), strictLimit);
  return faults.length > 0 ? `the verifier refuses it: ${faults[0]!.message}` : null;
}

/** The fewest people of every plan and every way to call its stations those of today. */
async function rebalanced(each: RebalanceCase): Promise<string | null> {
  const { given, today } = each;
  const { line, pace, strictLimit } = given;
  const stands = !strictLimit && passesCheck(line, pace, today);
  const own = { people: peopleOf(today), stations: today.stations.length, moves: 0, points: 0 };
  const all = [...everyChange(each), ...(stands ? [own] : [])];
  const options = {
    nodes: LIMITS.nodes,
    strictLimit,
    maxMoves: null,
    keep: [],
    checkpoint: () => null,
  };
  const { tradeOffs } = await rebalanceLine(line, pace, null, today, options);
  const best = bestOf(all, () => true);
  const [first] = tradeOffs;
  if (first?.people === best?.people && first?.cost === best?.points) return null;
  return `found ${first?.people} people for ${first?.cost} points, best of all changes ${JSON.stringify(best)}`;
}

/** Stations that keep the pace with a chance are as few as in the best of all plans, in `balance` and in a row of `staff`. */
async function keepsPace(given: KeepPaceCase): Promise<string | null> {
  const file = keepPaceFile(given);
  const files = { "line.yaml": file };
  const demand = Number(3_600n / CYCLE);
  const told = async (...args: string[]) => {
    const { stdout, thrown } = await runInMemory({
      args: [args[0]!, "line.yaml", ...args.slice(1), "--json"],
      files,
    });
    if (thrown !== null) throw thrown;
    return JSON.parse(stdout) as Told;
  };
  const { measures } = await told("balance", "--demand", `${demand} per hour`);
  const [row] = (await told("staff", "--demand", `${demand}..${demand}/1 per hour`)).rows ?? [];
  const best = cheapestKeepingPace(given);
  const found = [
    measures == null ? null : [measures.operators, measures.stations],
    row?.stations == null ? null : [row.peopleOnLine, row.stations],
  ];
  return found.every((each) => JSON.stringify(each) === JSON.stringify(best))
    ? null
    : `balance and staff found ${JSON.stringify(found)}, best of all plans ${JSON.stringify(best)}\n${file}`;
}

interface Told {
  readonly measures?: Readonly<Record<string, unknown>> | null;
  readonly rows?: readonly Readonly<Record<string, unknown>>[];
}

/** A row of `staff` says of a demand what `balance` says of it. */
async function rowsOfStaff(number: number): Promise<string | null> {
  const draw = new Draw(number);
  const { tree } = anyLine(draw, 5);
  const files = { "line.yaml": yamlOf(tree, draw) };
  const demand = draw.pick([40, 75, 110]);
  const ask = async (...args: string[]) => {
    const { stdout, thrown, status } = await runInMemory({
      args: [args[0]!, "line.yaml", ...args.slice(1), "--nodes", "2000", "--json"],
      files,
    });
    if (thrown !== null) throw thrown;
    return status === 2 || stdout === "" ? null : (JSON.parse(stdout) as Told);
  };
  const staff = await ask("staff", "--demand", `${demand}..${demand}/1 per hour`);
  const alone = await ask("balance", "--demand", `${demand} per hour`);
  const row = staff?.rows?.[0];
  if (row === undefined || alone === null) return null;
  const told = [row.peopleOnLine, row.stations, row.cycleOfPlanSeconds, row.outputPerShift];
  const { operators, stations, cycleOfPlanSeconds, outputPerShift } = alone.measures ?? {};
  const own = [operators, stations, cycleOfPlanSeconds, outputPerShift];
  const asText = (values: readonly unknown[]) => JSON.stringify(values.map((each) => each ?? null));
  if (asText(told) === asText(own)) return null;
  return `staff and balance differ at ${demand} per hour: ${asText(told)} and ${asText(own)}\n${files["line.yaml"]}`;
}
