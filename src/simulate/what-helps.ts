import { idKey } from "../line/ids.js";
import type { Line } from "../line/line.js";
import type { Plan } from "../plan/plan.js";
import { compare, divide, type Ratio, ratio, subtract, toNumber, ZERO } from "../time/ratio.js";
import type { BenchesBeside } from "./bench-of-run.js";
import { type Interval, isShown, meanOf, scaled } from "./intervals.js";
import type { OneMore } from "./part-containers.js";
import { type AskedRuns, collectRuns, type RunsBeside } from "./run-again-and-again.js";
import type { Help, SimulatedPart, WhatHelps } from "./simulation-answer.js";
import { highestLoad } from "./station-work.js";

interface AsItIs {
  readonly asked: AskedRuns;
  readonly beside: RunsBeside | null;
  /** Stations that limit the line, or may. */
  readonly bottlenecks: readonly string[];
  readonly parts: readonly SimulatedPart[];
  /** Benches that stop now and then because their room is full. */
  readonly fullBenches: readonly string[];
  /** Units that left the line in each replication. */
  readonly lefts: readonly number[];
  /** Whether anything varies; else every rerun is exact. */
  readonly varies: boolean;
  /** Good units an hour = units that left x this / hours watched, in microseconds. */
  readonly perHour: Ratio;
}

/** Reruns of a line with one thing changed at a time; what was not rerun to its end is left out. */
export async function findWhatHelps(
  asItIs: AsItIs,
  confidence: Ratio,
  goesOn: (replication: number, rerun: number) => Promise<boolean>,
): Promise<WhatHelps> {
  const { asked, beside, lefts, varies, perHour } = asItIs;
  const { line, plan, hours, lineCycle } = asked;
  let reruns = 0;
  const rerun = async (changed: Partial<AskedRuns>): Promise<number[] | null> => {
    const number = ++reruns;
    const runs = await collectRuns({ ...asked, ...changed }, beside, (each) => goesOn(each, number));
    return runs.length < asked.replications ? null : runs.map(({ left }) => left);
  };
  const inHour = (counts: readonly number[]) => {
    const mean = meanOf(counts, confidence);
    return scaled(varies ? mean : { ...mean, halfWidth: ZERO }, divide(perHour, ratio(hours)));
  };
  const helps: Help[] = [];
  const changes = changesOf(asItIs);
  let isEnded = false;
  for (const { line: other, plan: with_, benches, oneMore = null, ...change } of changes) {
    const counts = await rerun({ line: other, plan: with_, benches, oneMore });
    isEnded = counts === null;
    if (counts === null) break;
    const more = inHour(counts.map((count, at) => count - lefts[at]!));
    helps.push({ ...change, perHour: inHour(counts), more, isShown: isShown(more) });
  }
  // Those that show no difference keep the order of their names: workplaces, then room, along the line.
  const shown = ({ isShown: is, more }: Help) => (is ? more.mean : ZERO);
  helps.sort((one, two) => compare(shown(two), shown(one)));
  const found = { helps, changes: changes.length, isEnded, planTo: null };
  if (isEnded || lineCycle === null || line.flow.pacing !== "unpaced") return found;
  const now = highestLoad(line, plan, lineCycle);
  if (now.num === 0n) return found;
  const wanted = divide(perHour, ratio(lineCycle));
  let best: { readonly percents: number; readonly perHour: Interval } | null = null;
  let [low, high] = [LEAST_PERCENTS, 101];
  // Whether the demand is met falls with the load, so the last share that meets it is found by halving.
  while (low < high) {
    const percents = Math.floor((low + high) / 2);
    const counts = await rerun({ timesAsLong: toNumber(divide(ratio(percents, 100), now), 12) });
    if (counts === null) return { ...found, isEnded: true };
    const made = inHour(counts);
    if (compare(subtract(made.mean, made.halfWidth ?? ZERO), wanted) >= 0) {
      best = { percents, perHour: made };
      low = percents + 1;
    } else high = percents;
  }
  const planTo = best && ratio(best.percents, 100);
  return { ...found, planTo: { now, planTo, perHour: best?.perHour ?? null, wanted } };
}

const LEAST_PERCENTS = 50;

interface Change extends Pick<Help, "kind" | "station" | "part" | "people" | "sets"> {
  readonly line: Line;
  readonly plan: Plan;
  readonly benches: BenchesBeside | null;
  readonly oneMore?: OneMore;
}

/**
 * Room for a unit more after each station but the last, for a tenth more sets after each bench that is full now and then, and where the line is
 * limited a workplace more at each station, or of each bench, and a container more of each part that units wait for.
 */
function changesOf({
  asked: { line, plan, benches = null },
  bottlenecks,
  parts,
  fullBenches,
}: AsItIs): Change[] {
  const { flow } = line;
  const buffers = plan.stations.slice(0, -1).map(({ id }): Change => {
    const own = flow.buffers.find(({ station }) => idKey(station) === idKey(id));
    const place = own?.place ?? { line: 1, column: 1, endColumn: 2 };
    const larger = { station: id, size: (own?.size ?? flow.buffer) + 1, place };
    const others = flow.buffers.filter((each) => each !== own);
    const changed = { ...line, flow: { ...flow, buffers: [...others, larger] } };
    return { kind: "buffer", station: id, part: null, people: 0, line: changed, plan, benches };
  });
  const workplaces = plan.stations
    .filter(({ id }) => bottlenecks.includes(id))
    .map((more): Change => {
      const stations = plan.stations.map((each) =>
        each === more ? { ...each, places: each.places + 1 } : each,
      );
      return {
        kind: "workplace",
        station: more.id,
        part: null,
        people: more.crew,
        line,
        plan: { ...plan, stations },
        benches,
      };
    });
  const limiting = (benches?.benches ?? []).filter(({ id }) => bottlenecks.includes(id));
  const atBenches = limiting.map((more): Change => {
    const stations = more.stations.map((each) => ({ ...each, places: each.places + 1 }));
    const others = benches!.benches.map((each) => (each === more ? { ...more, stations } : each));
    return {
      kind: "workplace",
      station: more.id,
      part: null,
      people: stations.reduce((sum, { crew }) => sum + crew, 0),
      line,
      plan,
      benches: { ...benches!, benches: others },
    };
  });
  const rooms = (benches?.benches ?? [])
    .filter(({ id }) => fullBenches.includes(id))
    .map((more): Change => {
      const sets = Math.ceil(more.room / 10);
      const others = benches!.benches.map((each) =>
        each === more ? { ...more, room: more.room + sets } : each,
      );
      const with_ = { ...benches!, benches: others };
      return { kind: "room", station: more.id, part: null, people: 0, sets, line, plan, benches: with_ };
    });
  const containers = parts
    .filter(({ station, waiting }) => waiting.num > 0n && bottlenecks.includes(station))
    .map(({ station, id }): Change => {
      const oneMore = { station, part: id };
      return { kind: "container", ...oneMore, people: 0, line, plan, benches, oneMore };
    });
  return [
    ...workplaces,
    ...atBenches,
    ...rooms,
    ...containers,
    ...(flow.pacing === "unpaced" ? buffers : []),
  ];
}
