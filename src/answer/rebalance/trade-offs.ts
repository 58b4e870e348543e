import type { Line } from "../../line/line.js";
import { peopleAtRepairs, peopleOf } from "../../plan/figures/people.js";
import type { Plan, Station } from "../../plan/plan.js";
import { stationNumbers } from "../../plan/station-numbers.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import { type Cost, costOf, isCheaper } from "../../solve/cost.js";
import { fillWork } from "../../solve/fill-work.js";
import { layOutWork } from "../../solve/lay-out-work.js";
import { DEFAULT_NODES } from "../../solve/methods.js";
import { isCountedExactly } from "../../solve/parts.js";
import { arrangeBlocks } from "../../solve/station/arrange-blocks.js";
import { toPlan } from "../../solve/to-plan.js";
import type { Watch } from "../../solve/watch-times.js";
import type { BlockPlan, Work } from "../../solve/work.js";
import type { Pace } from "../../time/pace.js";
import { fewMoves } from "./few-moves.js";
import type { FewestMovesAnswer } from "./fewest-moves.js";
import { type Move, matchStations, movesBetween } from "./match-stations.js";
import { type LabelledStation, type MoveProblem, moveCost } from "./move-problem.js";
import { runFewestMoves } from "./run-fewest-moves.js";
import { undoMoves } from "./undo-moves.js";

/** A plan of so many people with the fewest moves from today's. */
export interface TradeOff {
  /** On the line, at a time. */
  readonly people: number;
  /** The same and who repairs beside the line. */
  readonly peopleInAll: number;
  readonly stations: number;
  readonly moves: readonly Move[];
  /** What the moves cost, by the costs of the tasks; their number where nothing was said. */
  readonly cost: number;
  /** No plan with no more people costs fewer moves than this. */
  readonly leastCost: number;
  readonly outcome: "proved" | "found";
  readonly plan: Plan;
  /** No plan with fewer people costs fewer moves than this; null where only the balance tells of fewer people. */
  readonly leastCostOfFewer: number | null;
}

export interface RebalancingOptions {
  readonly nodes: number | null;
  readonly strictLimit: boolean;
  /** Only plans with no more moves, by cost, are taken; null: any. */
  readonly maxMoves: number | null;
  /** Tasks that stay where they are. */
  readonly keep: readonly number[];
  readonly checkpoint: Watch;
}

/** Moves against people: for each number of people worth having, the plan with the fewest moves from today's. */
export class TradeOffs {
  nodes = 0;
  private readonly floor: Work;
  private readonly problem: MoveProblem;
  /** With loads rounded down: what it has no plan for, true loads have none for. Null where nothing is rounded. */
  private readonly low: MoveProblem | null;
  private readonly repairPeople: number;

  constructor(
    private readonly line: Line,
    private readonly pace: Pace,
    private readonly from: Plan,
    private readonly best: Plan,
    private readonly options: RebalancingOptions,
  ) {
    this.repairPeople = peopleAtRepairs(line, pace);
    const limits = { pace, strictLimit: options.strictLimit, slowest: null, free: false };
    this.floor = layOutWork(line, limits);
    const stationOf = new Map(
      from.stations.flatMap(({ tasks }, at) => tasks.map((task) => [task, at] as const)),
    );
    const numbers = stationNumbers(line, from);
    this.problem = {
      floor: this.floor,
      labels: from.stations.length,
      today: line.tasks.map((_, task) => stationOf.get(task) ?? -1),
      costs: line.tasks.map((task, at) => (options.keep.includes(at) ? KEPT : moveCost(line, task))),
      labelAt: this.floor.isPositional
        ? Array.from({ length: this.floor.positions }, (_, position) => numbers.indexOf(position))
        : null,
    };
    this.low = isCountedExactly(line) ? null : { ...this.problem, floor: layOutWork(line, limits, "down") };
  }

  /**
   * From the fewest people to the fewest moves: each row has more people, or with the same people more stations, for a lower cost of
   * moves than the one before.
   */
  async rows(): Promise<TradeOff[]> {
    const people = peopleOf(this.best);
    const first = await this.look({ people, stations: this.best.stations.length + 1 });
    const rows = first.row === null ? [] : [first.row];
    const { row: free } = await this.look(FREE);
    if (free === null) return rows;
    const isOpen = () => (rows.at(-1)?.cost ?? Number.POSITIVE_INFINITY) > free.cost;
    let leastCostOfFewer: number | null = null;
    for (let most = people; most < free.people && isOpen(); most++) {
      const { row, leastCost } = await this.look({ people: most + 1, stations: 0 });
      if (row !== null) rows.push({ ...row, leastCostOfFewer });
      leastCostOfFewer = leastCost;
    }
    if (isOpen()) rows.push({ ...free, leastCostOfFewer });
    return frontOf(rows);
  }

  /** The plan with the fewest moves that has no more people, and with as many people no more stations. */
  async withAtMost({ people, stations }: Cost): Promise<TradeOff | null> {
    return (await this.look({ people, stations: stations + 1 })).row;
  }

  /** The plan below a ceiling with the fewest moves that was found, and what such plans cost at the least. */
  private async look(ceiling: Cost): Promise<{ readonly row: TradeOff | null; readonly leastCost: number }> {
    const start = this.start(ceiling);
    const startCost = start === null ? Number.POSITIVE_INFINITY : this.costOf(start);
    const most = Math.min(startCost, KEPT) - 1;
    const answer = await this.search(this.problem, ceiling, most, startCost);
    const isOpen = answer.plan === null && answer.ended === "nodes";
    const better = isOpen ? this.fewer(ceiling, Math.min(startCost, KEPT)) : null;
    const stations = answer.plan ?? better ?? start;
    if (stations === null || this.costOf(stations) >= KEPT) {
      const { bound } =
        this.low === null ? answer : await this.search(this.low, ceiling, KEPT - 1, startCost);
      return { row: null, leastCost: bound };
    }
    const plan = this.planOf(stations);
    const faults = verifyPlan(this.line, this.pace, plan, this.options.strictLimit);
    if (faults.length > 0) throw new Error(`the verifier refused a plan: ${faults[0]!.message}`);
    const moves = movesBetween(this.line, this.from, plan);
    const cost = moves.reduce((sum, { task }) => sum + this.problem.costs[task]!, 0);
    const { low } = this;
    const { bound } = low === null ? answer : await this.search(low, ceiling, Math.min(cost, KEPT) - 1, cost);
    const proved = (low === null && answer.ended === "proved") || cost <= bound;
    const leastCost = proved ? cost : Math.min(cost, bound);
    const outcome: TradeOff["outcome"] = proved ? "proved" : "found";
    const size = { people: peopleOf(plan), stations: plan.stations.length };
    if (!isCheaper(size, ceiling, "people")) throw new Error("a plan has more people than it was to have");
    const peopleInAll = size.people + this.repairPeople;
    const row = { ...size, peopleInAll, moves, cost, leastCost, outcome, plan, leastCostOfFewer: null };
    return { row, leastCost };
  }

  private async search(
    problem: MoveProblem,
    ceiling: Cost,
    moves: number,
    best: number,
  ): Promise<FewestMovesAnswer> {
    const nodes = Math.max(1, Math.floor((this.options.nodes ?? DEFAULT_NODES) / ROWS));
    const answer = await runFewestMoves(problem, ceiling, { nodes, moves }, (looked, allowed) =>
      this.options.checkpoint({
        nodes: this.nodes + looked,
        best: `${best} moves`,
        bound: `${allowed} moves`,
        what: "moves",
      }),
    );
    this.nodes += answer.nodes;
    return answer;
  }

  /** A plan below the ceiling with few moves: the balance at hand, or today's order filled anew, each with its moves undone. */
  private start(ceiling: Cost): readonly LabelledStation[] | null {
    const { line, floor, problem, from } = this;
    const order = [...line.tasks.keys()].sort(
      (one, two) => rankOf(problem, one) - rankOf(problem, two) || one - two,
    );
    const candidates = [this.balanceAsFloorPlan(), this.asFloorPlan(from), fillWork(floor, order)];
    let best: readonly LabelledStation[] | null = null;
    for (const plan of candidates) {
      if (plan === null || !isCheaper(costOf(plan), ceiling, "people")) continue;
      const labels = matchStations(line, from, toPlan(line, floor, plan));
      const undone = undoMoves(problem, plan, labels, ceiling);
      if (this.costOf(undone) < (best === null ? Number.POSITIVE_INFINITY : this.costOf(best))) best = undone;
    }
    return best;
  }

  /** A plan below the ceiling that costs less than `most`; null where none is found. */
  private fewer(ceiling: Cost, most: number): readonly LabelledStation[] | null {
    const found = fewMoves(this.problem, ceiling, most);
    if (found === null) return null;
    const labels = found.map(({ label }) => label);
    const undone = undoMoves(this.problem, found, labels, ceiling);
    return this.costOf(undone) < this.costOf(found) ? undone : found;
  }

  /** The plan as the search sees it, or null where it does not keep the rules or misses a task. */
  private asFloorPlan(plan: Plan): BlockPlan | null {
    const numbers = this.floor.isPositional ? stationNumbers(this.line, plan) : [...plan.stations.keys()];
    const positionOf = this.floor.members.map(([first]) => {
      const at = plan.stations.findIndex(({ tasks }) => tasks.includes(first!));
      return at < 0 ? -1 : numbers[at]!;
    });
    return positionOf.includes(-1) ? null : arrangeBlocks(this.floor, positionOf);
  }

  /** The balance at hand, station by station with its own places and crews. */
  private balanceAsFloorPlan(): BlockPlan {
    const numbers = stationNumbers(this.line, this.best);
    return this.best.stations.map(({ tasks, places, crew }, at) => ({
      position: this.floor.isPositional ? numbers[at]! : at,
      blocks: [...this.floor.members.keys()].filter((block) =>
        tasks.includes(this.floor.members[block]![0]!),
      ),
      places,
      crew,
    }));
  }

  private costOf(stations: readonly LabelledStation[]): number {
    const { problem, floor } = this;
    let cost = 0;
    for (const { label, blocks } of stations) {
      for (const task of blocks.flatMap((block) => floor.members[block]!)) {
        if (problem.today[task]! >= 0 && problem.today[task] !== label) cost += problem.costs[task]!;
      }
    }
    return cost;
  }

  /** Stations that keep a label keep its id; new ones take the next numbers that no station has. */
  private planOf(stations: readonly LabelledStation[]): Plan {
    const made = toPlan(this.line, this.floor, stations);
    const plan = { stations: made.stations.map((station) => keepOrder(this.line, this.from, station)) };
    if (this.floor.isPositional) return plan;
    const taken = new Set(this.from.stations.map(({ id }) => id));
    let next = 1;
    return {
      stations: plan.stations.map((station, at): Station => {
        const { label } = stations[at]!;
        if (label >= 0) return { ...station, id: this.from.stations[label]!.id };
        while (taken.has(`S${next}`)) next++;
        taken.add(`S${next}`);
        return { ...station, id: `S${next}` };
      }),
    };
  }
}

/** Without rows that another one makes needless: no more people and stations for no higher cost. */
function frontOf(rows: readonly TradeOff[]): TradeOff[] {
  const front: TradeOff[] = [];
  for (const row of rows.toSorted((one, two) => one.people - two.people || one.stations - two.stations)) {
    if (front.length === 0 || row.cost < front.at(-1)!.cost) front.push(row);
  }
  return front;
}

/** Tasks that stay keep the order in which they are worked today; what is taken over comes as soon as the arrows allow after that. */
function keepOrder(line: Line, from: Plan, station: Station): Station {
  // The starts of a wide product's tasks hang on their order.
  if (station.sides !== null) return station;
  const today = from.stations.flatMap(({ tasks }) => tasks);
  const rank = (task: number) => (today.includes(task) ? today.indexOf(task) : today.length + task);
  const left = [...station.tasks].sort((one, two) => rank(one) - rank(two));
  const tasks: number[] = [];
  while (left.length > 0) {
    const at = left.findIndex((task) => !line.before[task]!.some((each) => left.includes(each)));
    tasks.push(...left.splice(at, 1));
  }
  return { ...station, tasks };
}

function rankOf({ today, labels }: MoveProblem, task: number): number {
  return today[task]! < 0 ? labels : today[task]!;
}

const FREE: Cost = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
/** What the move of a task that must stay costs: more than all others together. */
export const KEPT = 1_000_000_000;
/** The partial plans allowed are shared by about so many rows. */
const ROWS = 2;
