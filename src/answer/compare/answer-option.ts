import { jobFor, statedJobs } from "../../benches/bench-job.js";
import { countShares } from "../../benches/count-shares.js";
import { inOrderOfWork, joinsOf, marksBase } from "../../benches/find-blocks.js";
import { holdsOf } from "../../benches/held-on-line.js";
import { measureBench } from "../../benches/measure-bench.js";
import {
  peopleWith,
  type Shortage,
  shortageOf,
  skilledBenchPlaces,
} from "../../benches/people-at-benches.js";
import { restOfLine } from "../../benches/rest-of-line.js";
import { type Finding, finding } from "../../findings/finding.js";
import { listOf } from "../../findings/list-of.js";
import type { Bench, Line, Tables } from "../../line/line.js";
import { handlingAt } from "../../line/passes.js";
import { cycleOfPlan } from "../../plan/figures/cycle.js";
import { peopleAtRepairs } from "../../plan/figures/people.js";
import { workOfLine } from "../../plan/figures/person-time.js";
import { ONE_PERSON, type Plan } from "../../plan/plan.js";
import { type Post, postsOf, withTheLine } from "../../plan/post.js";
import { skilledPlaces } from "../../plan/verify/skilled-places.js";
import { whyWords } from "../../report/words/obstacle-words.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Pace } from "../../time/pace.js";
import { add, compare, ratio } from "../../time/ratio.js";
import { answerBalance, withPlan } from "../balance/answer-balance.js";
import { answerStations } from "../balance/answer-stations.js";
import { type BalanceAnswer, EMPTY_ANSWER } from "../balance/balance-answer.js";
import type { Obstacle } from "../balance/obstacle.js";
import { nodesOf, shortAtBenches, shortOnLine } from "../off-line/balance-rest.js";
import { findBenchNotes, refusalOf } from "../off-line/off-line-findings.js";
import { solveBeside } from "../off-line/staff-beside.js";
import { fewestMovesTo } from "./moves-to-plan.js";
import type { AskedOption, OptionAnswer, OptionBench, OptionMoves } from "./option-answer.js";

/** Works out one option by itself: the same answer whatever it is compared with. */
export async function answerOption(given: AskedOption, watch: Watch): Promise<OptionAnswer> {
  const asked = { ...given, line: countShares(given.line) };
  const { line, option, pace } = asked;
  const repairs = peopleAtRepairs(line, pace);
  const common = { asked, repairPeople: repairs, pays: null, moves: null };
  if (option !== null && option.tables !== null) {
    const posts = [tablesOfOption(line, pace, option.tables)];
    const unstaffed = findUnstaffedTables(line, option.tables);
    if (unstaffed !== null) {
      const findings = [unstaffed];
      const balance = withoutPlan(line, pace, asked.takt, "infeasible", findings);
      return { ...common, ...NOTHING_BUILT, outcome: "infeasible", balance, findings, isCut: false };
    }
    const findings = notesOnTables(line);
    return {
      ...common,
      outcome: "proved",
      balance: null,
      plan: null,
      posts,
      benches: [],
      findings,
      isCut: false,
    };
  }
  const held = findHeldBlocks(line, option?.offLine ?? []);
  if (held.length > 0) {
    const balance = withoutPlan(line, pace, asked.takt, "infeasible", held);
    return { ...common, ...NOTHING_BUILT, outcome: "infeasible", balance, findings: held, isCut: false };
  }
  const search = { nodes: asked.nodes, checkpoint: watch };
  const benches = await benchesOfOption(asked, pace, search);
  const { rest, kept } = restOfLine(line, benches);
  const answer = await balanceBeside(rest, benches, asked, watch);
  const isCut = answer.search.ended === "interrupted";
  const near = await nearToday(asked, answer, kept, benches, search);
  const balance = withRepairs(lean(near.answer), line, repairs);
  const findings = [
    ...balance.findings,
    ...benches.flatMap((bench) => findBenchNotes(line, bench)),
    ...noteGuess(line, benches),
  ];
  const { plan, outcome } = balance;
  if (plan === null) return { ...common, outcome, balance, plan, posts: [], benches, findings, isCut };
  const stations = postsOf(balance.line, pace, plan).map((post) => ({
    ...post,
    tasks: post.tasks.map((task) => kept[task]!),
  }));
  const whole = wholePlan(plan, kept, benches);
  const posts = [...stations, ...benches.flatMap((bench) => bench.posts)];
  return {
    ...common,
    outcome,
    balance,
    plan: whole,
    moves: near.moves,
    posts,
    benches,
    findings,
    isCut,
  };
}

/** The balance with the plan of its people and stations that takes the fewest moves from today's, so that all figures are of one plan. */
async function nearToday(
  { line, today }: AskedOption,
  answer: BalanceAnswer,
  kept: readonly number[],
  benches: readonly OptionBench[],
  search: { readonly nodes: number; readonly checkpoint: Watch },
): Promise<{ readonly answer: BalanceAnswer; readonly moves: OptionMoves | null }> {
  const { plan, pace } = answer;
  if (today === null || plan === null) return { answer, moves: null };
  const built = { line: answer.line, pace, plan, kept };
  const { moves, plan: nearest } = await fewestMovesTo(
    line,
    today,
    wholePlan(plan, kept, benches),
    built,
    search,
  );
  return { answer: nearest === plan ? answer : withPlan(answer, nearest), moves };
}

/** What stays on the line, with the equipment and the people that the benches leave. */
async function balanceBeside(
  rest: Line,
  benches: readonly OptionBench[],
  asked: AskedOption,
  watch: Watch,
): Promise<BalanceAnswer> {
  const { line, pace, takt, nodes } = asked;
  const short = [...shortAtBenches(line, benches), ...shortOnLine(line, rest)];
  if (short.length > 0)
    return withoutPlan(rest, pace, takt, "infeasible", besideBenches(rest, "infeasible", short));
  const places = skilledBenchPlaces(line, benches);
  const solve = (one: Line, shares: number) =>
    balanceRest(one, { ...asked, nodes: nodesOf(nodes, shares) }, watch);
  const shortest = (one: Plan, two: Plan) =>
    compare(cycleOfPlan(postsOf(rest, pace, one)), cycleOfPlan(postsOf(rest, pace, two)));
  const order = asked.option?.stations == null ? undefined : shortest;
  const { answer, outcome, obstacle } = await solveBeside(rest, places, solve, order);
  if (obstacle !== null)
    return withoutPlan(rest, pace, takt, outcome, besideBenches(rest, outcome, [obstacle]));
  return { ...answer, outcome };
}

/** The benches of an option, each with as many places as the pace of the line asks for in the shifts that it works. */
export async function benchesOfOption(
  { line, option }: Pick<AskedOption, "line" | "option">,
  pace: Pace,
  search: { readonly nodes: number; readonly checkpoint: Watch },
): Promise<OptionBench[]> {
  const benches: OptionBench[] = [];
  for (const job of statedJobs(line, option?.offLine ?? []))
    benches.push({ ...(await measureBench(line, pace, job, search)), id: job.id });
  return benches;
}

/**
 * Whole units at tables: each person builds complete units at a place of their own, as a station of so many places would. One unit
 * keeps a table busy for its whole work content (a task of two people counts twice), the walking of the tasks and of the tables;
 * handling is paid for each pass of a unit. What a machine runs by itself and what waits keeps nobody.
 */
export function tablesOfOption(line: Line, pace: Pace, { people, walking }: Tables): Post {
  const tasks = inOrderOfWork(line, [...line.tasks.keys()]);
  const work = add(workOfLine(line), ratio(walking));
  return {
    id: "tables",
    kind: "tables",
    tasks,
    places: people,
    crew: 1,
    busy: work,
    personTime: work,
    handling: handlingAt(line, pace, tasks),
    planTo: pace.planTo,
    dwell: work,
    holds: 1,
    equipment: [],
    ...withTheLine(line),
  };
}

const ofOnePerson = ({ tasks, places }: Pick<Post, "tasks" | "places">) => ({ ...ONE_PERSON, tasks, places });

/** So many of the people listed have every skill of whole units, each for a table; null where skills set no limit. */
export function mostTables(line: Line): number | null {
  const [place] = skilledPlaces(line, [ofOnePerson({ tasks: [...line.tasks.keys()], places: 1 })]);
  const skills = place?.ways.flat().flatMap((each) => each.skills);
  return skills === undefined ? null : peopleWith(line.people, skills).length;
}

/** An error where the people listed cannot staff the tables of an option; null where they can. */
export function findUnstaffedTables(line: Line, tables: Pick<Tables, "people">): Finding | null {
  const post = ofOnePerson({ tasks: [...line.tasks.keys()], places: tables.people });
  const short = shortageOf(line.people, skilledPlaces(line, [post]));
  return short === null ? null : unstaffedTables(line, tables, short);
}

/** Whoever builds whole units has all skills that the tasks ask for. */
function unstaffedTables(
  { file }: Line,
  { people }: Pick<Tables, "people">,
  { skills, able }: Shortage,
): Finding {
  const needs = people === 1 ? "table needs a person" : "tables need a person each";
  const who = able.length === 0 ? "nobody listed has that" : `only ${listOf(able)} can`;
  const message = `the tables cannot be staffed: ${people} ${needs} with ${listOf(skills)}, as each builds whole units; ${who}`;
  return finding({ rule: "no-plan", severity: "error", message, file });
}

const NOTHING_BUILT = { plan: null, posts: [], benches: [] } as const;

/** What an option takes off the line and a rule of the line keeps there, as `off-line` says it. */
function findHeldBlocks(line: Line, benches: readonly Bench[]): Finding[] {
  return benches.flatMap(({ tasks }) => {
    const job = jobFor(line, { tasks, joinsAt: joinsOf(line, tasks) });
    return holdsOf(line, tasks).map((hold) => refusalOf(line, job, { ...hold, arrow: null }, "error"));
  });
}

function besideBenches(
  line: Line,
  outcome: BalanceAnswer["outcome"],
  obstacles: readonly Obstacle[],
): Finding[] {
  const message = `no plan keeps the rules of the line beside the benches${whyWords(line.unit, obstacles)}`;
  const rule = outcome === "infeasible" ? "no-plan" : "no-plan-found";
  return [finding({ rule, severity: "error", message, file: line.file })];
}

function withoutPlan(
  line: Line,
  pace: AskedOption["pace"],
  takt: AskedOption["takt"],
  outcome: BalanceAnswer["outcome"],
  findings: readonly Finding[],
): BalanceAnswer {
  const search = { nodes: 0, nodeLimit: null, ended: null };
  return { ...EMPTY_ANSWER, line, pace, takt, outcome, search, findings };
}

function balanceRest(rest: Line, asked: AskedOption, checkpoint: Watch): Promise<BalanceAnswer> {
  const { option, pace, takt, nodes, doublings = 0 } = asked;
  if (option !== null && option.stations !== null) {
    return answerStations(rest, option.stations, takt, { nodes, checkpoint });
  }
  const common = { method: "best", level: true, strictLimit: false, explain: false } as const;
  return answerBalance(rest, pace, takt, { ...common, nodes, doublings, checkpoint });
}

/** Without the rankings, which nobody asks for here and which no thread can hand over. */
function lean(answer: BalanceAnswer): BalanceAnswer {
  return answer.balance === null ? answer : { ...answer, balance: { ...answer.balance, rules: [] } };
}

/** With who repairs beside the line: a part of it may not know the tests of the whole, or where these send units back to. */
function withRepairs(answer: BalanceAnswer, { tasks }: Line, repairPeople: number): BalanceAnswer {
  const { measures } = answer;
  const isRepaired = tasks.some(({ test }) => test?.failures === "repaired");
  return measures === null || !isRepaired ? answer : { ...answer, measures: { ...measures, repairPeople } };
}

function wholePlan(plan: Plan, kept: readonly number[], benches: readonly OptionBench[]): Plan {
  const stations = plan.stations.map((station) => ({
    ...station,
    tasks: station.tasks.map((task) => kept[task]!),
  }));
  if (benches.length === 0) return { stations };
  const atBenches = benches.flatMap(({ posts }) =>
    posts.map(({ id, tasks, places, crew }) => ({ ...ONE_PERSON, id, tasks, places, crew })),
  );
  return { stations, benches: atBenches };
}

function noteGuess(line: Line, benches: readonly OptionBench[]): Finding[] {
  if (benches.length === 0 || marksBase(line)) return [];
  const message = "that these tasks can leave the line is a guess, as no task says `on-base: true`";
  return [finding({ rule: "off-line-guess", severity: "note", message, file: line.file })];
}

/** What whole units at tables may run into; not reckoned with, since nothing in the file tells how it would be done. */
function notesOnTables(line: Line): Finding[] {
  const note = (rule: string, message: string, tasks: readonly string[]) =>
    tasks.length === 0
      ? []
      : [finding({ rule, severity: "warning", message: `${message}: ${tasks.join(", ")}`, file: line.file })];
  const idsOf = (has: (task: Line["tasks"][number]) => boolean) => line.tasks.filter(has).map(({ id }) => id);
  return [
    ...note(
      "tables-people",
      "at tables these tasks of several people need a second person now and then; their person-time is counted, waiting for each other is not",
      idsOf(({ people }) => people > 1),
    ),
    ...note(
      "tables-equipment",
      "at tables these tasks share their equipment, or each table needs its own; waiting for it is not counted",
      idsOf(({ equipment, machineTime }) => equipment.length > 0 || machineTime > 0),
    ),
  ];
}
