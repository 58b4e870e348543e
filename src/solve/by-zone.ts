import { topologicalOrder } from "../line/precedence.js";
import { fillByTime } from "./fill-stations.js";
import type { StationProblem, Stations } from "./problem.js";
import { type Checkpoint, fewestStations } from "./search/fewest-stations.js";
import { type BlockPlan, mostOfStation, type Work } from "./work.js";

/** The fewest stations of each zone by itself. */
export interface ByZone {
  readonly zones: readonly { readonly zone: string; readonly stations: number }[];
  /** All of them: no plan has fewer. */
  readonly stations: number;
  /** The zones one after the other, where that keeps the precedence; whatever else is asked of stations may forbid it. */
  readonly plan: BlockPlan | null;
  readonly nodes: number;
}

/**
 * Stations never hold blocks of two zones, so a line falls into lines of their own: whatever a plan of the whole line does, the blocks of
 * one zone keep their time and precedence among themselves at stations that nobody else uses. Supports works whose stations have one place
 * and one side; null where fewer than two zones are named.
 */
export async function balanceByZone(
  work: Work,
  nodes: number,
  checkpoint: Checkpoint,
): Promise<ByZone | null> {
  const names = [...new Set(work.zones.filter((zone) => zone !== null))].sort();
  if (names.length < 2) return null;
  const earlier = ancestorsOf(work);
  const zones: { zone: string; stations: number }[] = [];
  const parts = new Map<string, Stations>();
  let used = 0;
  for (const zone of names) {
    const blocks = [...work.members.keys()].filter((block) => work.zones[block] === zone);
    const part = partOf(work, blocks, earlier);
    const first = fillByTime(part, [...part.times.keys()]);
    const answer = await fewestStations(part, first, { nodes: Math.ceil(nodes / names.length) }, checkpoint);
    used += answer.nodes;
    zones.push({ zone, stations: answer.bound.stations });
    parts.set(
      zone,
      answer.stations.map((own) => own.map((at) => blocks[at]!)),
    );
  }
  return {
    zones,
    stations: zones.reduce((sum, each) => sum + each.stations, 0),
    plan: work.zones.includes(null) ? null : inRow(work, names, parts),
    nodes: used,
  };
}

function ancestorsOf({ before }: Work): ReadonlySet<number>[] {
  const all: Set<number>[] = [];
  for (const earlier of before) {
    const own = new Set(earlier);
    for (const each of earlier) for (const further of all[each]!) own.add(further);
    all.push(own);
  }
  return all;
}

/** The blocks of a zone by themselves: what comes between them elsewhere keeps their order. */
function partOf(
  work: Work,
  blocks: readonly number[],
  earlier: readonly ReadonlySet<number>[],
): StationProblem {
  const limit = mostOfStation(work);
  return {
    times: blocks.map((block) => Math.min(work.loads[block]!, limit)),
    limit,
    before: blocks.map((block) => [...blocks.keys()].filter((other) => earlier[block]!.has(blocks[other]!))),
  };
}

/** Null where zones wait for each other. */
function inRow(work: Work, names: readonly string[], parts: ReadonlyMap<string, Stations>): BlockPlan | null {
  const before = names.map(() => new Set<number>());
  for (const [block, earlier] of work.before.entries()) {
    const own = names.indexOf(work.zones[block]!);
    for (const each of earlier)
      if (work.zones[each] !== work.zones[block]) before[own]!.add(names.indexOf(work.zones[each]!));
  }
  const order = topologicalOrder(before.map((set) => [...set]));
  if (order.length < names.length) return null;
  return order
    .flatMap((at) => parts.get(names[at]!)!)
    .map((blocks, position) => ({ position, blocks, places: 1, crew: 1 }));
}
