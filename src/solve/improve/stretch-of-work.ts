import { labelsOf } from "../moves-of-plan.js";
import { OpenStation } from "../station/open-station.js";
import type { BlockPlan, FilledStation, Home, Today, Work } from "../work.js";

/** Some stations of a plan that stand next to each other, as a work of their own: everything else stays where it stands. */
export interface StretchOfWork {
  /** With today's stations as far as those here may keep them. */
  readonly work: Work;
  readonly today: Today;
  /** The stations of the plan, in the block numbers and positions of the stretch. */
  readonly plan: BlockPlan;
  /** The whole plan with these stations in place of its own; null where not all blocks have one. */
  put(stations: BlockPlan): BlockPlan;
}

/**
 * What the stations from one index of a plan to another are asked. What people of other stations can do is not told: a plan put together
 * from it is to be held against the whole work.
 *
 * @param labels those that the stations of the plan keep
 */
export function stretchOfWork(
  work: Work,
  today: Today,
  plan: BlockPlan,
  from: number,
  to: number,
  labels: readonly number[] = labelsOf(today, plan),
): StretchOfWork {
  const own = plan.slice(from, to + 1);
  const blocks = own.flatMap((station) => station.blocks).sort((one, two) => one - two);
  const numberOf = new Map(blocks.map((block, at) => [block, at]));
  const low = work.isPositional && from > 0 ? plan[from - 1]!.position + 1 : 0;
  const high = work.isPositional ? (plan[to + 1]?.position ?? work.positions) - 1 : work.positions - 1;
  const last = work.kinds.length - 1;
  const firstKind = Math.min(low, last);
  const lastKind = Math.min(high, last) + 1;
  const pick = <Each>(all: readonly Each[]): Each[] => blocks.map((block) => all[block]!);
  const within = (others: readonly number[]) =>
    others.flatMap((block) => numberOf.get(block) ?? []).sort((one, two) => one - two);
  const windows = windowsOf(work, plan, blocks, low, high);
  const used = equipmentElsewhere(work, plan, from, to);
  const part: Work = {
    ...work,
    size: blocks.length,
    members: pick(work.members),
    before: pick(work.before).map(within),
    after: pick(work.after).map(within),
    loads: pick(work.loads),
    people: pick(work.people),
    work: pick(work.work),
    passes: pick(work.passes),
    mayStandAlone: pick(work.mayStandAlone),
    kinds: work.kinds.slice(firstKind, lastKind),
    first: windows.map((window) => window.first - low),
    last: windows.map((window) => window.last - low),
    allowed: pick(work.allowed).map((kinds) => kinds.slice(firstKind, lastKind)),
    zones: pick(work.zones),
    apart: pick(work.apart).map(within),
    equipment: work.equipment.map((each, at) => ({
      ...each,
      count: each.count - used[at]!,
      needs: pick(each.needs),
    })),
    limits: work.limits.map((each) => ({
      ...each,
      uses: pick(each.uses),
      most: each.most.slice(firstKind, lastKind),
    })),
    spread: work.spread && {
      ...work.spread,
      models: work.spread.models.map(({ means, variances }) => ({
        means: pick(means),
        variances: pick(variances),
      })),
      scores: work.spread.scores.slice(firstKind, lastKind),
    },
    waits: work.waits.flatMap((wait) => {
      const [one, two] = [numberOf.get(wait.from), numberOf.get(wait.to)];
      return one === undefined || two === undefined ? [] : [{ from: one, to: two, stations: wait.stations }];
    }),
    modelLoads: work.modelLoads.map(pick),
    skills: work.skills && { ...work.skills, needs: pick(work.skills.needs) },
    positions: high - low + 1,
  };
  const shift = work.isPositional ? low : from;
  return {
    work: part,
    today: todayOf(today, labels, { blocks, from, to, low, high }),
    plan: own.map((station) => ({
      ...station,
      position: station.position - shift,
      blocks: within(station.blocks),
    })),
    put: (stations) => {
      const here = stations.map((station): FilledStation => {
        const position = station.position + shift;
        return { ...station, position, blocks: station.blocks.map((block) => blocks[block]!) };
      });
      const whole = [...plan.slice(0, from), ...here, ...plan.slice(to + 1)];
      return work.isPositional ? whole : whole.map((station, position) => ({ ...station, position }));
    },
  };
}

/** Between the stretch and what stands elsewhere some stations must lie. */
function windowsOf(work: Work, plan: BlockPlan, blocks: readonly number[], low: number, high: number) {
  const elsewhere = new Map<number, number>();
  for (const { position, blocks: there } of plan) for (const block of there) elsewhere.set(block, position);
  for (const block of blocks) elsewhere.delete(block);
  return blocks.map((block) => {
    let first = Math.max(low, work.isPositional ? work.first[block]! : 0);
    let last = Math.min(high, work.isPositional ? work.last[block]! : high);
    for (const { from, to, stations } of work.waits) {
      if (to === block) first = Math.max(first, (elsewhere.get(from) ?? first - stations) + stations);
      if (from === block) last = Math.min(last, (elsewhere.get(to) ?? last + stations) - stations);
    }
    return { first, last };
  });
}

/** Units of each equipment that stand at other stations. */
function equipmentElsewhere(work: Work, plan: BlockPlan, from: number, to: number): number[] {
  const used = work.equipment.map(() => 0);
  if (used.length === 0) return used;
  const station = new OpenStation(work);
  for (const [at, { position, blocks, places, crew, equipment }] of plan.entries()) {
    if (at >= from && at <= to) continue;
    station.start(position, []);
    for (const block of blocks) station.take(block);
    const closed = station.closings().findLast((each) => each.places === places && each.crew <= crew);
    for (const [each, units] of (equipment ?? closed?.equipment ?? []).entries()) used[each]! += units;
  }
  return used;
}

/** The labels between those that the stations around the stretch keep, numbered anew; a home elsewhere is lost whatever is done here. */
function todayOf(
  today: Today,
  labels: readonly number[],
  {
    blocks,
    from,
    to,
    low,
    high,
  }: { blocks: readonly number[]; from: number; to: number; low: number; high: number },
): Today {
  const here = today.labelAt?.slice(low, high + 1) ?? null;
  const after = labels.slice(to + 1).find((label) => label >= 0) ?? today.labels;
  const before = labels.slice(0, from).findLast((label) => label >= 0) ?? -1;
  const own =
    here === null
      ? Array.from({ length: Math.max(0, after - before - 1) }, (_, at) => before + 1 + at)
      : here.filter((label) => label >= 0).sort((one, two) => one - two);
  const numberOf = new Map(own.map((label, at) => [label, at]));
  const within = (homes: readonly Home[]) =>
    homes.flatMap(({ label, cost }) => {
      const number = numberOf.get(label);
      return number === undefined ? [] : [{ label: number, cost }];
    });
  return {
    labels: own.length,
    homes: blocks.map((block) => within(today.homes[block]!)),
    labelAt: here?.map((label) => numberOf.get(label) ?? -1) ?? null,
    mostMoves: today.mostMoves,
  };
}
