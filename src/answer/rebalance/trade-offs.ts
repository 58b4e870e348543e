import type { Line } from "../../line/line.js";
import { peopleAtRepairs, peopleOf } from "../../plan/figures/people.js";
import type { Plan, Station } from "../../plan/plan.js";
import { stationNumbers } from "../../plan/station-numbers.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import { type Cost, costOf, isCheaper, PEOPLE_FIRST } from "../../solve/cost.js";
import { type FewestMovesAnswer, fewestMoves } from "../../solve/fewest-moves.js";
import { fillWork } from "../../solve/fill-work.js";
import { undoMoves } from "../../solve/improve/undo-moves.js";
import { layOutWork } from "../../solve/lay-out-work.js";
import { DEFAULT_NODES } from "../../solve/methods.js";
import { labelsOf, leastMovesTo } from "../../solve/moves-of-plan.js";
import { isCountedExactly } from "../../solve/parts.js";
import { arrangeBlocks } from "../../solve/station/arrange-blocks.js";
import { toPlan } from "../../solve/to-plan.js";
import type { Watch } from "../../solve/watch-times.js";
import type { BlockPlan, Home, Today, Work } from "../../solve/work.js";
import type { Pace } from "../../time/pace.js";
import { type Move, moveCost, movesBetween } from "./match-stations.js";

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
  private readonly work: Work;
  /** With loads rounded down: what it has no plan for, true loads have none for. Null where nothing is rounded. */
  private readonly low: Work | null;
  private readonly today: Today;
  /** What it costs to move each task. */
  readonly costs: readonly number[];
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
    this.work = layOutWork(line, limits);
    this.low = isCountedExactly(line) ? null : layOutWork(line, limits, "down");
    this.costs = line.tasks.map((task, at) => (options.keep.includes(at) ? KEPT : moveCost(line, task)));
    this.today = this.lookAtToday();
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
    const answer = await this.search(this.work, ceiling, this.start(ceiling), KEPT - 1);
    const { low } = this;
    if (answer.plan === null) {
      const { bound } = low === null ? answer : await this.search(low, ceiling, null, KEPT - 1);
      return { row: null, leastCost: bound };
    }
    const plan = this.planOf(answer.plan);
    const faults = verifyPlan(this.line, this.pace, plan, this.options.strictLimit);
    if (faults.length > 0) throw new Error(`the verifier refused a plan: ${faults[0]!.message}`);
    const moves = movesBetween(this.line, this.from, plan, this.costs);
    const cost = moves.reduce((sum, { task }) => sum + this.costs[task]!, 0);
    const { bound } = low === null ? answer : await this.search(low, ceiling, null, cost - 1);
    const proved = (low === null && answer.ended === "proved") || cost <= bound;
    const leastCost = proved ? cost : Math.min(cost, bound);
    const outcome: TradeOff["outcome"] = proved ? "proved" : "found";
    const size = { people: peopleOf(plan), stations: plan.stations.length };
    if (!isCheaper(size, ceiling, PEOPLE_FIRST))
      throw new Error("a plan has more people than it was to have");
    const peopleInAll = size.people + this.repairPeople;
    const row = { ...size, peopleInAll, moves, cost, leastCost, outcome, plan, leastCostOfFewer: null };
    return { row, leastCost };
  }

  /** @param most plans whose moves cost more are not looked for */
  private async search(
    work: Work,
    ceiling: Cost,
    start: BlockPlan | null,
    most: number,
  ): Promise<FewestMovesAnswer> {
    const limits = { nodes: this.options.nodes ?? DEFAULT_NODES, most };
    const answer = await fewestMoves(work, this.today, ceiling, start, limits, (nodes, best, bound) =>
      this.options.checkpoint({
        nodes: this.nodes + nodes,
        best: best < KEPT ? `${best} moves` : "none",
        bound: `${bound} moves`,
        what: "moves",
      }),
    );
    this.nodes += answer.nodes;
    return answer;
  }

  /** A plan below the ceiling: today's, the balance at hand, or today's order filled anew, the one with the fewest moves. */
  private start(ceiling: Cost): BlockPlan | null {
    const { line, work, today, from } = this;
    const order = [...line.tasks.keys()].sort((one, two) => this.rankOf(one) - this.rankOf(two) || one - two);
    const plans = [this.balanceAsFloorPlan(), this.asFloorPlan(from), fillWork(work, order)]
      .filter((plan) => plan !== null && isCheaper(costOf(plan), ceiling, PEOPLE_FIRST))
      .map((plan) => undoMoves(work, today, plan!, ceiling));
    const [best] = plans.toSorted((one, two) => leastMovesTo(today, one) - leastMovesTo(today, two));
    return best ?? null;
  }

  private rankOf(task: number): number {
    const at = this.from.stations.findIndex(({ tasks }) => tasks.includes(task));
    return at < 0 ? this.today.labels : at;
  }

  private lookAtToday(): Today {
    const { line, from, work, costs } = this;
    const numbers = stationNumbers(line, from);
    const stationOf = new Map(
      from.stations.flatMap(({ tasks }, at) => tasks.map((task) => [task, at] as const)),
    );
    const isFloor = work.isPositional && line.floor.length > 0;
    return {
      labels: from.stations.length,
      homes: work.members.map((tasks) =>
        [...new Set(tasks.map((task) => stationOf.get(task)).filter((label) => label !== undefined))].map(
          (label): Home => {
            const own = tasks.filter((task) => stationOf.get(task) === label);
            return { label, cost: own.reduce((sum, task) => sum + costs[task]!, 0) };
          },
        ),
      ),
      labelAt: isFloor
        ? Array.from({ length: work.positions }, (_, position) => numbers.indexOf(position))
        : null,
      mostMoves: KEPT - 1,
    };
  }

  /** The plan as the search sees it, or null where it does not keep the rules or misses a task. */
  private asFloorPlan(plan: Plan): BlockPlan | null {
    const numbers = this.work.isPositional ? stationNumbers(this.line, plan) : [...plan.stations.keys()];
    const positionOf = this.work.members.map(([first]) => {
      const at = plan.stations.findIndex(({ tasks }) => tasks.includes(first!));
      return at < 0 ? -1 : numbers[at]!;
    });
    return positionOf.includes(-1) ? null : arrangeBlocks(this.work, positionOf);
  }

  /** The balance at hand, station by station with its own places and crews. */
  private balanceAsFloorPlan(): BlockPlan {
    const numbers = stationNumbers(this.line, this.best);
    return this.best.stations.map(({ tasks, places, crew }, at) => ({
      position: this.work.isPositional ? numbers[at]! : at,
      blocks: [...this.work.members.keys()].filter((block) => tasks.includes(this.work.members[block]![0]!)),
      places,
      crew,
    }));
  }

  /** Stations that keep a label keep its id; new ones take the next numbers that no station has. */
  private planOf(stations: BlockPlan): Plan {
    const made = toPlan(this.line, this.work, stations);
    const plan = { stations: made.stations.map((station) => keepOrder(this.line, this.from, station)) };
    if (this.work.isPositional) return plan;
    const labels = labelsOf(this.today, stations);
    const taken = new Set(this.from.stations.map(({ id }) => id));
    let next = 1;
    return {
      stations: plan.stations.map((station, at): Station => {
        const label = labels[at]!;
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

const FREE: Cost = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
/** What the move of a task that must stay costs: more than all others together. */
export const KEPT = 1_000_000_000;
