import type { Line } from "../../line/line.js";
import { peopleAtRepairs, peopleOf } from "../../plan/figures/people.js";
import type { Plan, Station } from "../../plan/plan.js";
import { stationIds, stationNumbers } from "../../plan/station-numbers.js";
import { orderStation } from "../../plan/station-order.js";
import { dwellAt, equipmentTimes } from "../../plan/station-schedule.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import {
  ANY_COST,
  type Cost,
  type CostWithMoves,
  costOf,
  isCheaper,
  MOVES_FIRST,
  PEOPLE_FIRST,
} from "../../solve/cost.js";
import { type FewestMovesAnswer, fewestMoves } from "../../solve/fewest-moves.js";
import { fillStations } from "../../solve/fill-stations.js";
import { undoMoves } from "../../solve/improve/undo-moves.js";
import { layOutWork } from "../../solve/lay-out-work.js";
import { DEFAULT_NODES } from "../../solve/methods.js";
import { labelsOf, leastMovesTo } from "../../solve/moves-of-plan.js";
import { isCountedExactly } from "../../solve/parts.js";
import { toPlan } from "../../solve/to-plan.js";
import type { Watch } from "../../solve/watch-times.js";
import type { BlockPlan, Home, Today, Work } from "../../solve/work.js";
import type { Pace } from "../../time/pace.js";
import { compare, type Ratio } from "../../time/ratio.js";
import { type StandingTerms, stands } from "./as-checked.js";
import { type LostLearning, lostByMoves } from "./lost-learning.js";
import { type Move, moveCost, movesBetween, stationsByTask } from "./match-stations.js";
import { arrangedAs, asItStands } from "./plan-as-blocks.js";

/** A plan of so many people with the fewest moves from today's. */
export interface TradeOff {
  /** On the line, at a time. */
  readonly people: number;
  /** The same and who repairs beside the line. */
  readonly peopleInAll: number;
  readonly stations: number;
  readonly moves: readonly Move[];
  /** What the moves cost in points, by the costs of the tasks; their number where nothing was said. */
  readonly cost: number;
  /** Person-time that the moves lose of what people have learned, in microseconds; null where that was not asked for. */
  readonly lost: Ratio | null;
  /** No plan with no more people costs less. */
  readonly leastCost: number;
  /** No plan with no more people has fewer moves. */
  readonly leastMoves: number;
  /** "proved": the cost is the least. */
  readonly outcome: "proved" | "found";
  readonly plan: Plan;
  /** No plan with fewer people costs less than this; null where only the balance tells of fewer people. */
  readonly leastCostOfFewer: number | null;
}

/** What moves may come to; null, or nothing: anything. */
export interface MoveLimits {
  /** The most tasks whose station changes. */
  readonly maxMoves: number | null;
  /** The most that they cost, in points. */
  readonly maxMoveCost?: number | null;
}

export interface RebalancingOptions extends MoveLimits, StandingTerms {
  readonly nodes: number | null;
  /** Tasks that stay where they are. */
  readonly keep: readonly number[];
  /** What moves lose of what people have learned, which is what they cost; left out where that is not asked for. */
  readonly learning?: LostLearning;
  readonly checkpoint: Watch;
  /** The same for the fewest people, which are looked for first; it ends sooner where moves are to have a share of the time. */
  readonly peopleCheckpoint?: Watch;
}

/** The first row that keeps to the moves allowed, and what is known of fewer people; null where no plan does. */
export interface AllowedRow {
  readonly row: TradeOff | null;
  /** No plan with fewer people keeps to them, or, without a row, none at all. */
  readonly isProved: boolean;
}

/** Why no plan is shown although there are plans at this pace: too few moves are allowed, or tasks that are to stay must move. */
export type NoPlanAllowed =
  | (Required<MoveLimits> & {
      readonly kind: "moves";
      /** No plan keeps to the moves allowed; else none was found. */
      readonly isProved: boolean;
      readonly fewest: TradeOff;
      readonly hasPoints: boolean;
    })
  | {
      readonly kind: "kept";
      /** No plan leaves them where they are; else none was found. */
      readonly isProved: boolean;
      /** Ids of the tasks that are to stay. */
      readonly kept: readonly string[];
      /** What is wrong with today's plan of these tasks alone, in words of the verifier; null where nothing is. */
      readonly fault: string | null;
      /** The plan that moves the fewest of them; null where none was found. */
      readonly wayOut: {
        readonly moved: readonly {
          readonly task: string;
          readonly from: string | null;
          readonly to: string;
        }[];
        /** Tasks beside those that move. */
        readonly others: number;
        readonly peopleInAll: number;
      } | null;
    };

/** Moves against people: for each number of people worth having, the plan with the fewest moves from today's, then the fewest stations. */
export class TradeOffs {
  nodes = 0;
  /** What it costs to move each task. */
  readonly costs: readonly number[];
  /** Numbers of people between those of the rows that were not looked at, on a line where there are many. */
  leftOut = 0;
  /** Some move costs more than one point. */
  readonly hasPoints: boolean;
  private readonly work: Work;
  /** With loads rounded down: what it has no plan for, true loads have none for. Null where nothing is rounded. */
  private readonly low: Work | null;
  private readonly today: Today;
  private readonly repairPeople: number;
  /** The balance at hand; null where it is today's plan, over a limit. */
  private readonly bestAsItStands: BlockPlan | null;
  /** Plans that were found on the way, each a start for the next search. */
  private readonly known: BlockPlan[] = [];
  private levels: Level[] = [];
  private isOver = false;

  constructor(
    private readonly line: Line,
    private readonly pace: Pace,
    private readonly from: Plan,
    private readonly best: Plan,
    private readonly options: RebalancingOptions,
  ) {
    this.repairPeople = peopleAtRepairs(line, pace);
    // Behind its last station of today, wherever that stands on a floor, every task may have a new one.
    const keptPositions = line.floor.length === 0 ? 0 : Math.max(...stationNumbers(line, from), -1) + 1;
    const limits = { pace, strictLimit: options.strictLimit, slowest: null, free: false, keptPositions };
    this.work = layOutWork(line, limits);
    this.low = isCountedExactly(line) ? null : layOutWork(line, limits, "down");
    const { keep, learning } = options;
    this.costs = line.tasks.map((task, at) =>
      keep.includes(at) ? KEPT : (learning?.points[at] ?? moveCost(line, task)),
    );
    this.hasPoints = this.costs.some((cost) => cost !== 1 && cost !== KEPT);
    this.today = this.lookAtToday();
    const isWithin = verifyPlan(line, pace, best, options.strictLimit).length === 0;
    this.bestAsItStands = isWithin ? asItStands(line, this.work, best) : null;
  }

  /** From the fewest people to the fewest moves: each row has more people than the one before, for a lower cost of moves. */
  async rows(): Promise<TradeOff[]> {
    const fewest = peopleOf(this.best);
    const most = Number.POSITIVE_INFINITY;
    this.isOver = (await this.watch(0, KEPT, 0)) !== null;
    this.levels = [{ most: fewest, ...(await this.look(atMost(fewest), this.today)) }];
    if (!this.isOver) this.levels.push({ most, ...(await this.look(ANY_COST, this.today)) });
    const standing = this.standing();
    if (standing !== null) this.levels.push({ most, row: standing, leastCost: 0 });
    const mostPeople = () => frontOf(this.levels).at(-1)?.people ?? 0;
    const isLong = mostPeople() - fewest > MOST_ROWS;
    for (let more = 1; fewest + more < mostPeople() && !this.isOver; more = isLong ? 2 * more : more + 1)
      await this.lookWith(fewest + more);
    if (isLong) await this.closeIn();
    const rows = frontOf(this.levels).map((row) => this.toldBy(row));
    const looked = new Set(this.levels.map(({ most }) => most));
    for (let most = fewest; most < (rows.at(-1)?.people ?? 0); most++) if (!looked.has(most)) this.leftOut++;
    return rows;
  }

  private async lookWith(most: number): Promise<void> {
    this.levels.push({ most, ...(await this.look(atMost(most), this.today)) });
  }

  /** Between the rows that were looked at, the fewest people that keep to the moves allowed: more people never cost more moves. */
  private async closeIn(): Promise<void> {
    const mostMoves = this.options.maxMoves ?? Number.POSITIVE_INFINITY;
    const mostCost = this.options.maxMoveCost ?? Number.POSITIVE_INFINITY;
    while (!this.isOver) {
      const rows = frontOf(this.levels);
      const at = rows.findIndex(({ moves, cost }) => moves.length <= mostMoves && cost <= mostCost);
      const most = rows[at]?.people ?? 0;
      const tooFew = Math.max(0, ...this.levels.map((level) => level.most).filter((each) => each < most));
      if (at < 0 || tooFew === 0 || most - tooFew < 2) return;
      await this.lookWith(Math.floor((most + tooFew) / 2));
    }
  }

  /** The row with the fewest people that keeps to the moves allowed; one that is not among the rows is looked for by itself. */
  async allowed(rows: readonly TradeOff[]): Promise<AllowedRow> {
    const { maxMoves, maxMoveCost } = this.options;
    const mostMoves = maxMoves ?? Number.POSITIVE_INFINITY;
    const mostCost = Math.min(maxMoveCost ?? Number.POSITIVE_INFINITY, KEPT - 1);
    const isRuledOut = (people: number) => {
      const least = this.leastWith(people);
      return least > mostCost || this.leastMovesOf(least) > mostMoves;
    };
    const row = rows.find(({ moves, cost }) => moves.length <= mostMoves && cost <= mostCost) ?? null;
    const end = row?.people ?? Number.POSITIVE_INFINITY;
    // By number alone, or by cost alone, the rows have the best there is.
    if (maxMoves === null || !this.hasPoints) return { row, isProved: isRuledOut(end - 1) };
    const today = { ...this.today, beside: { homes: this.homesBy(this.costs.map(() => 1)), mostMoves } };
    let isProved = true;
    for (let people = peopleOf(this.best); people < end; people++) {
      const isLast = rows.every((each) => each.people < people);
      if (!isRuledOut(isLast ? Number.POSITIVE_INFINITY : people)) {
        const found = await this.look(isLast ? ANY_COST : atMost(people), today, mostCost);
        if (found.row !== null) {
          const leastMoves = Math.min(found.row.moves.length, this.leastMovesOf(found.row.leastCost));
          return { row: { ...found.row, leastMoves }, isProved };
        }
        isProved &&= found.leastCost > mostCost;
      }
      if (isLast || this.isOver) break;
    }
    return { row, isProved };
  }

  /** The plan with the fewest moves that has no more people, and with as many people no more stations. */
  async withAtMost({ people, stations }: Cost): Promise<TradeOff | null> {
    const { row } = await this.look({ people, stations: stations + 1 }, this.today);
    return row;
  }

  /** The plan within the station limits with no more people than a known one, and the fewest moves; null where the moves allowed are fewer. */
  async withinLimits(known: Plan): Promise<TradeOff | null> {
    const { maxMoves, maxMoveCost } = this.options;
    const standing = asItStands(this.line, this.work, known);
    if (standing !== null) this.known.push(standing);
    const { row } = await this.look(atMost(peopleOf(known)), this.today);
    const isAllowed =
      row !== null &&
      row.moves.length <= (maxMoves ?? Number.POSITIVE_INFINITY) &&
      row.cost <= (maxMoveCost ?? Number.POSITIVE_INFINITY);
    return isAllowed ? row : null;
  }

  /** Where the tasks that are to stay must move: the plan that moves the fewest of them, then costs the least. */
  async breakingKept(): Promise<TradeOff | null> {
    const most = this.costs.reduce((sum, cost) => sum + cost, 0);
    return (await this.look(ANY_COST, this.today, most)).row;
  }

  /** No plan leaves the tasks where they are that are to stay. */
  get isKeptRuledOut(): boolean {
    return this.leastWith(Number.POSITIVE_INFINITY) >= KEPT;
  }

  /** No plan with so many people costs less: what holds with more people holds with fewer. */
  private leastWith(people: number): number {
    return Math.max(0, ...this.levels.filter(({ most }) => most >= people).map(({ leastCost }) => leastCost));
  }

  /** Moves that cost so much are so many at the least. */
  private leastMovesOf(cost: number): number {
    const dearest = this.costs.filter((each) => each < KEPT).toSorted((one, two) => two - one);
    let [sum, count] = [0, 0];
    while (sum < cost && count < dearest.length) sum += dearest[count++]!;
    return sum < cost ? Number.POSITIVE_INFINITY : count;
  }

  private toldBy(row: TradeOff): TradeOff {
    const leastCost = Math.min(row.cost, this.leastWith(row.people));
    const isFewest = row.people <= Math.min(...this.levels.map(({ most }) => most));
    return {
      ...row,
      leastCost,
      leastMoves: this.leastMovesOf(leastCost),
      outcome: leastCost === row.cost ? "proved" : "found",
      leastCostOfFewer: isFewest ? null : this.leastWith(row.people - 1),
    };
  }

  /** Today's plan, where it may stay as it is. */
  private standing(): TradeOff | null {
    const { line, pace, from, options } = this;
    return stands(line, pace, from, options) ? this.rowOf(from, [], 0, 0) : null;
  }

  private rowOf(plan: Plan, moves: readonly Move[], cost: number, leastCost: number): TradeOff {
    const people = peopleOf(plan);
    const { learning } = this.options;
    return {
      people,
      peopleInAll: people + this.repairPeople,
      stations: plan.stations.length,
      moves,
      cost,
      lost: learning === undefined ? null : lostByMoves(learning, moves),
      leastCost,
      leastMoves: 0,
      outcome: cost <= leastCost ? "proved" : "found",
      plan,
      leastCostOfFewer: null,
    };
  }

  /** The plan below a ceiling with the fewest moves that was found, and what such plans cost at the least. */
  private async look(ceiling: Cost, today: Today, most = KEPT - 1): Promise<Omit<Level, "most">> {
    const answer = await this.search(this.work, today, ceiling, this.start(ceiling, today), most);
    const { low } = this;
    if (answer.plan === null) {
      const { bound } = low === null ? answer : await this.search(low, today, ceiling, null, most);
      return { row: null, leastCost: bound };
    }
    this.known.push(answer.plan);
    const plan = this.planOf(answer.plan, today);
    const faults = verifyPlan(this.line, this.pace, plan, this.options.strictLimit);
    if (faults.length > 0) throw new Error(`the verifier refused a plan: ${faults[0]!.message}`);
    const moves = movesBetween(this.line, this.from, plan, this.costs, today.beside?.mostMoves);
    const cost = moves.reduce((sum, { task }) => sum + this.costs[task]!, 0);
    const { bound } = low === null ? answer : await this.search(low, today, ceiling, null, cost - 1);
    const proved = (low === null && answer.ended === "proved") || cost <= bound;
    const row = this.rowOf(plan, moves, cost, proved ? cost : Math.min(cost, bound));
    if (!isCheaper(row, ceiling, PEOPLE_FIRST)) throw new Error("a plan has more people than it was to have");
    return { row, leastCost: row.leastCost };
  }

  /** @param most plans whose moves cost more are not looked for */
  private async search(
    work: Work,
    today: Today,
    ceiling: Cost,
    start: BlockPlan | null,
    most: number,
  ): Promise<FewestMovesAnswer> {
    const limits = { nodes: this.options.nodes ?? DEFAULT_NODES, most };
    const answer = await fewestMoves(work, today, ceiling, start, limits, (nodes, best, bound) =>
      this.watch(nodes, best, bound),
    );
    this.nodes += answer.nodes;
    this.isOver ||= answer.ended === "time" || answer.ended === "interrupted";
    return answer;
  }

  private watch(nodes: number, best: number, bound: number): ReturnType<Watch> {
    return this.options.checkpoint({
      nodes: this.nodes + nodes,
      best: best < KEPT ? { moves: best } : "none",
      bound: { moves: bound },
      what: "moves",
    });
  }

  /** A plan below the ceiling: today's, the balance at hand, or today's order filled anew, the one with the fewest moves. */
  private start(ceiling: Cost, today: Today): BlockPlan | null {
    const { line, work, from } = this;
    const stationOf = stationsByTask(from);
    const rankOf = (task: number) => stationOf.get(task) ?? today.labels;
    const order = [...line.tasks.keys()].sort((one, two) => rankOf(one) - rankOf(two) || one - two);
    const isBelow = (plan: BlockPlan | null): plan is BlockPlan =>
      plan !== null && isCheaper(costOf(plan), ceiling, PEOPLE_FIRST);
    // Once the command is to end, the plan at hand does.
    if (this.isOver && isBelow(this.bestAsItStands)) return this.bestAsItStands;
    const others = [this.bestAsItStands, arrangedAs(line, work, from), fillStations(work, order)]
      .filter(isBelow)
      // The one that is taken has its moves undone in any case.
      .map((plan) => (this.isOver ? plan : undoMoves(work, today, plan, ceiling)));
    const plans = [...this.known.filter(isBelow), ...others];
    return (
      cheapest(plans.map((plan) => ({ ...costOf(plan), moves: leastMovesTo(today, plan), plan })))?.plan ??
      null
    );
  }

  private lookAtToday(): Today {
    const { line, from, work, costs } = this;
    const numbers = stationNumbers(line, from);
    const isFloor = work.isPositional && line.floor.length > 0;
    return {
      labels: from.stations.length,
      homes: this.homesBy(costs),
      labelAt: isFloor
        ? Array.from({ length: work.positions }, (_, position) => numbers.indexOf(position))
        : null,
      mostMoves: KEPT - 1,
    };
  }

  private homesBy(costs: readonly number[]): Home[][] {
    const { from, work } = this;
    const stationOf = stationsByTask(from);
    return work.members.map((tasks) =>
      [...new Set(tasks.map((task) => stationOf.get(task)).filter((label) => label !== undefined))].map(
        (label): Home => {
          const own = tasks.filter((task) => stationOf.get(task) === label);
          return { label, cost: own.reduce((sum, task) => sum + costs[task]!, 0) };
        },
      ),
    );
  }

  /** Stations that keep a label keep its id; new ones take the next numbers that no station has. */
  private planOf(stations: BlockPlan, today: Today): Plan {
    const made = toPlan(this.line, this.work, stations);
    const order = orderOfWork(this.from);
    const plan = { stations: made.stations.map((station) => keepOrder(this.line, order, station)) };
    const labels = labelsOf(today, stations);
    if (this.work.isPositional)
      return today.labelAt === null ? this.withIdsOfToday(plan, labels) : this.namedAsToday(plan, labels);
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

  /**
   * Where ids tell how far apart stations stand: those of today keep theirs, and new ones count on from the station before them; as
   * the search has them where that leaves too few in between.
   */
  private withIdsOfToday(plan: Plan, labels: readonly number[]): Plan {
    const { line, pace, from, options } = this;
    const [own, today] = [stationNumbers(line, plan), stationNumbers(line, from)];
    const taken = new Set(from.stations.map(({ id }) => id));
    let [last, before] = [-1, -1];
    const stations = plan.stations.map((station, at): Station => {
      const label = labels[at]!;
      let number = label >= 0 ? Math.max(today[label]!, last + 1) : last + own[at]! - before;
      const idThere = () => stationIds(line, [number])[0]!;
      while (label < 0 && taken.has(idThere())) number++;
      const id = label >= 0 ? from.stations[label]!.id : idThere();
      taken.add(id);
      [last, before] = [number, own[at]!];
      return { ...station, id };
    });
    return verifyPlan(line, pace, { stations }, options.strictLimit).length === 0 ? { stations } : plan;
  }

  /** Stations behind the floor keep names of their own, unless others would then count on from a number that breaks a rule. */
  private namedAsToday(plan: Plan, labels: readonly number[]): Plan {
    const { line, pace, from, options } = this;
    const stations = plan.stations.map((station, at) =>
      labels[at]! < 0 ? station : { ...station, id: from.stations[labels[at]!]!.id },
    );
    return verifyPlan(line, pace, { stations }, options.strictLimit).length === 0 ? { stations } : plan;
  }
}

/** What was looked for with so many people at the most. */
interface Level {
  readonly most: number;
  readonly row: TradeOff | null;
  readonly leastCost: number;
}

/** Where more numbers of people than this are worth a row, only one, two, four, ... more than the fewest are looked at. */
const MOST_ROWS = 12;
/** So many people, whatever the stations. */
const atMost = (people: number): Cost => ({ people: people + 1, stations: 0 });

/** Moves come before stations; of equals the first. */
function cheapest<Each extends CostWithMoves>(all: readonly Each[]): Each | undefined {
  return all.reduce<Each | undefined>(
    (best, each) => (best === undefined || isCheaper(each, best, MOVES_FIRST) ? each : best),
    undefined,
  );
}

/** By people, without rows that another one makes needless: no more people for no higher cost. */
function frontOf(levels: readonly Level[]): TradeOff[] {
  const front: TradeOff[] = [];
  // Of equals today's plan as it stands, which is known last.
  const rows = levels.flatMap(({ row }) => (row === null ? [] : [row])).toReversed();
  const order = (one: TradeOff, two: TradeOff) =>
    one.people - two.people || one.cost - two.cost || one.stations - two.stations;
  for (const row of rows.toSorted(order))
    if (front.length === 0 || row.cost < front.at(-1)!.cost) front.push(row);
  return front;
}

/** The place of each task in the order of work of a plan. */
export const orderOfWork = ({ stations }: Plan): ReadonlyMap<number, number> =>
  new Map(stations.flatMap(({ tasks }) => tasks).map((task, at) => [task, at]));

/**
 * Tasks that stay keep the order in which they are worked today; what is taken over comes as soon as the arrows allow after that. Not where
 * a unit would stand longer, or equipment be held longer, than in the order that was found for the station.
 */
export function keepOrder(line: Line, today: ReadonlyMap<number, number>, station: Station): Station {
  // Who does a task, and on which side, hangs on their order.
  if (station.sides !== null || station.persons !== null) return station;
  const rank = (task: number) => today.get(task) ?? today.size + task;
  const left = [...station.tasks].sort((one, two) => rank(one) - rank(two));
  const tasks: number[] = [];
  while (left.length > 0) {
    const at = left.findIndex((task) => !line.before[task]!.some((each) => left.includes(each)));
    tasks.push(...left.splice(at, 1));
  }
  const kept = { ...station, tasks };
  const holds = orderStation(line, kept).holds.map(({ name }) => name);
  if (new Set(holds).size < holds.length) return station;
  const takesMore = (of: (at: Station) => Ratio) => compare(of(kept), of(station)) > 0;
  const held = (name: string) => (at: Station) => equipmentTimes(line, at).get(name)!;
  const names = [...equipmentTimes(line, kept).keys()];
  return takesMore((at) => dwellAt(line, at)) || names.some((name) => takesMore(held(name))) ? station : kept;
}

/** What the move of a task that must stay costs: more than all others together. */
export const KEPT = 1_000_000_000;
