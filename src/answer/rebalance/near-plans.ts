import type { Line } from "../../line/line.js";
import type { Plan, Station } from "../../plan/plan.js";
import { stationNumbers } from "../../plan/station-numbers.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import { type Cost, costOf, isCheaper, PEOPLE_FIRST } from "../../solve/cost.js";
import { fewestMoves } from "../../solve/fewest-moves.js";
import { layOutWork } from "../../solve/lay-out-work.js";
import { labelsOf, leastMovesTo } from "../../solve/moves-of-plan.js";
import { toPlan } from "../../solve/to-plan.js";
import type { Watch } from "../../solve/watch-times.js";
import type { BlockPlan, Home, Today, Work } from "../../solve/work.js";
import type { Pace } from "../../time/pace.js";
import { matchStations, moveCost } from "./match-stations.js";
import { arrangedAs, asItStands } from "./plan-as-blocks.js";
import { keepOrder, orderOfWork } from "./trade-offs.js";

/** What to look for. */
export interface NearAsked {
  /** Moves to and from each of these count; one or more. */
  readonly neighbours: readonly Plan[];
  /** Plans that may keep the rules at this pace; those that do are where the search begins. */
  readonly known: readonly Plan[];
  readonly mostPeople: number;
  readonly nodes: number;
  readonly checkpoint: Watch;
}

export interface NearFound {
  /** Verified; null where none was found. */
  readonly plan: Plan | null;
  readonly nodes: number;
  /** Time is up, or the user stopped it. */
  readonly isOver: boolean;
}

/**
 * Plans of a line at one pace that are near to several others at once: what a task's move costs counts for each of the others in which
 * it stands elsewhere. A first guess by stations matched in one way for all of them; it proves nothing.
 */
export class NearPlans {
  private readonly work: Work;
  private readonly costs: readonly number[];

  constructor(
    private readonly line: Line,
    private readonly pace: Pace,
    private readonly strictLimit: boolean,
  ) {
    this.work = layOutWork(line, { pace, strictLimit, slowest: null, free: false });
    this.costs = line.tasks.map((task) => moveCost(line, task));
  }

  async find({ neighbours, known, mostPeople, nodes, checkpoint }: NearAsked): Promise<NearFound> {
    const { work } = this;
    const slots = this.isFloor ? this.slotsOfFloor(neighbours) : this.slotsInLine(neighbours);
    const today = this.homesAt(slots, neighbours);
    const ceiling: Cost = { people: mostPeople + 1, stations: 0 };
    const [start] = known
      .map((plan) => this.asBlocks(plan))
      .filter((plan): plan is BlockPlan => plan !== null && isCheaper(costOf(plan), ceiling, PEOPLE_FIRST))
      .toSorted((one, two) => leastMovesTo(today, one) - leastMovesTo(today, two));
    const most = this.costs.reduce((sum, cost) => sum + cost, 0) * neighbours.length;
    const answer = await fewestMoves(
      work,
      today,
      ceiling,
      start ?? null,
      { nodes, most },
      (looked, best, bound) =>
        checkpoint({
          nodes: looked,
          best: best <= most ? { moves: best } : "none",
          bound: { moves: bound },
          what: "moves",
        }),
    );
    const isOver = answer.ended === "time" || answer.ended === "interrupted";
    if (answer.plan === null) return { plan: null, nodes: answer.nodes, isOver };
    const plan = this.planOf(answer.plan, slots, today, neighbours);
    const faults = verifyPlan(this.line, this.pace, plan, this.strictLimit);
    if (faults.length > 0) throw new Error(`the verifier refused a plan: ${faults[0]!.message}`);
    return { plan, nodes: answer.nodes, isOver };
  }

  private get isFloor(): boolean {
    return this.work.isPositional && this.line.floor.length > 0;
  }

  /** Stations at the same place of the floor are one. */
  private slotsOfFloor(neighbours: readonly Plan[]): Slot[] {
    const numbers = neighbours.map((plan) => stationNumbers(this.line, plan));
    const positions = [...new Set(numbers.flat())].sort((one, two) => one - two);
    return positions.map((position) => ({
      position,
      stations: numbers.map((each) => each.indexOf(position)),
    }));
  }

  /** Stations matched by what they hold, in an order of flow that suits all plans. */
  private slotsInLine(neighbours: readonly Plan[]): Slot[] {
    const [first, ...others] = neighbours;
    const none = neighbours.map(() => -1);
    let slots = first!.stations.map((_, at): Slot => ({ position: -1, stations: none.with(0, at) }));
    for (const [index, plan] of others.entries()) {
      const held = slots.map((slot): Station => {
        const own = neighbours.flatMap((each, at) => each.stations[slot.stations[at]!] ?? []);
        return { ...own[0]!, tasks: [...new Set(own.flatMap(({ tasks }) => tasks))] };
      });
      const matched = matchStations(this.line, { stations: held }, plan, this.costs);
      const merged: Slot[] = [];
      let next = 0;
      for (const [station, slot] of matched.entries()) {
        if (slot < 0) merged.push({ position: -1, stations: none.with(index + 1, station) });
        else {
          merged.push(...slots.slice(next, slot));
          merged.push({ position: -1, stations: slots[slot]!.stations.with(index + 1, station) });
          next = slot + 1;
        }
      }
      slots = [...merged, ...slots.slice(next)];
    }
    return slots;
  }

  private homesAt(slots: readonly Slot[], neighbours: readonly Plan[]): Today {
    const slotOf = neighbours.map((plan, at) => {
      const labels = new Map(slots.map(({ stations }, label) => [stations[at]!, label]));
      return new Map(
        plan.stations.flatMap(({ tasks }, station) =>
          tasks.map((task) => [task, labels.get(station)!] as const),
        ),
      );
    });
    const homes = this.work.members.map((tasks) => {
      const costAt = new Map<number, number>();
      for (const labels of slotOf)
        for (const task of tasks) {
          const label = labels.get(task);
          if (label !== undefined) costAt.set(label, (costAt.get(label) ?? 0) + this.costs[task]!);
        }
      return [...costAt].map(([label, cost]): Home => ({ label, cost }));
    });
    const labelAt = this.isFloor
      ? Array.from({ length: this.work.positions }, (_, at) =>
          slots.findIndex((slot) => slot.position === at),
        )
      : null;
    const mostMoves = homes.flat().reduce((sum, { cost }) => sum + cost, 0);
    return { labels: slots.length, homes, labelAt, mostMoves };
  }

  /** The plan as the search sees it, or null where it does not keep the rules at this pace. */
  private asBlocks(plan: Plan): BlockPlan | null {
    const { line, pace, work } = this;
    if (verifyPlan(line, pace, plan, this.strictLimit).length > 0) return null;
    return arrangedAs(line, work, plan) ?? asItStands(line, work, plan);
  }

  /** Stations that keep those of a neighbour have its id; others are told apart. */
  private planOf(blocks: BlockPlan, slots: readonly Slot[], today: Today, neighbours: readonly Plan[]): Plan {
    const order = orderOfWork(neighbours[0]!);
    const stations = toPlan(this.line, this.work, blocks).stations.map((station) =>
      keepOrder(this.line, order, station),
    );
    if (this.work.isPositional) return { stations };
    const idOf = ({ stations: own }: Slot) =>
      neighbours.flatMap((plan, at) => plan.stations[own[at]!]?.id ?? [])[0]!;
    const taken = new Set(neighbours.flatMap((plan) => plan.stations.map(({ id }) => id)));
    const used = new Set<string>();
    const labels = labelsOf(today, blocks);
    return {
      stations: stations.map((station, at) => {
        const own = labels[at]! < 0 ? null : idOf(slots[labels[at]!]!);
        const id = own !== null && !used.has(own) ? own : freshId(taken);
        used.add(id);
        taken.add(id);
        return { ...station, id };
      }),
    };
  }
}

/** A station as several plans have it: its index in each of them, -1 where one does not have it. */
interface Slot {
  /** Along the floor; -1 where there is none. */
  readonly position: number;
  readonly stations: readonly number[];
}

/** The next of S1, S2, ... that no station has. */
export function freshId(taken: ReadonlySet<string>): string {
  let next = 1;
  while (taken.has(`S${next}`)) next++;
  return `S${next}`;
}
