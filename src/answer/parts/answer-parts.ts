import { hoursAtBench, lineBeside } from "../../benches/bench-of-plan.js";
import { countShares, findCountedShares } from "../../benches/count-shares.js";
import { addTo } from "../../findings/add-to.js";
import { type Finding, finding } from "../../findings/finding.js";
import { listOf } from "../../findings/list-of.js";
import { compareNaturally } from "../../findings/natural-order.js";
import { nearestWordsAmong } from "../../findings/nearest.js";
import { idKey } from "../../line/ids.js";
import type { Line, LineOption, ListedPart } from "../../line/line.js";
import { listedPart } from "../../line/parts/part-list.js";
import { type LimitUse, limitsUsed } from "../../plan/figures/limits-used.js";
import {
  containersAtLine,
  containersToRun,
  type PartUsed,
  partsOfKit,
  partsUsed,
  type RoundedUp,
  roundUp,
} from "../../plan/figures/parts.js";
import { fingerprintOf } from "../../plan/fingerprint.js";
import type { Plan, Station } from "../../plan/plan.js";
import { availableTime } from "../../time/calendar.js";
import { quoted } from "../../time/quoted.js";
import {
  add,
  compare,
  divide,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";
import { accept, type Reading, refuse } from "../../time/reading.js";
import { decimal } from "../../time/show-values.js";
import { findUnstaffedTables } from "../compare/answer-option.js";
import { type MovedPart, movedParts } from "./moved-parts.js";

/** The units that parts are brought for; times in microseconds. */
export interface Batch {
  readonly goodUnits: Ratio;
  /** Good units / yield of the line. */
  readonly started: Ratio;
  /** The shift that makes them; null for a number of units of the user's own. */
  readonly shift: string | null;
  /** Available time in which they are made; null where no demand says how long. */
  readonly time: Ratio | null;
  /** The model of all of them; null: the mix of the line. */
  readonly model: number | null;
}

/** A part at one station, bench or table. */
export interface PartAtPost {
  readonly part: ListedPart;
  readonly perUnit: Ratio;
  readonly quantity: RoundedUp;
  /** Null where the part list does not say what a pack holds. */
  readonly packs: RoundedUp | null;
  /** How long a pack lasts, of available time; null where that is not known. */
  readonly packLasts: Ratio | null;
  /** Null where something that they are counted by is not stated. */
  readonly containers: RoundedUp | null;
  /** So many `simulate` has there, where something of that is not stated or where it has others than `containers`; else null, and where it has none. */
  readonly containersToRun: number | null;
}

/** What one whole unit takes. */
export interface Kit {
  /** Null on a line that builds one. */
  readonly model: number | null;
  /** Kits in the batch, for the units started. */
  readonly count: RoundedUp;
  readonly parts: readonly (PartUsed & { readonly part: ListedPart })[];
}

export interface PartsAtPost {
  readonly id: string;
  /** Tables build whole units, all tasks of them. */
  readonly kind: "station" | "bench" | "tables";
  readonly places: number;
  readonly parts: readonly PartAtPost[];
  /** What its tasks take of the limits that the user set, such as shelf length. */
  readonly limits: readonly LimitUse[];
  /** One for each model; none where no whole units are built here. */
  readonly kits: readonly Kit[];
}

/** A part over all stations and benches. */
export interface PartInAll {
  readonly part: ListedPart;
  readonly quantity: RoundedUp;
  /** Those of all lists, each rounded up by itself. */
  readonly packs: bigint | null;
}

/** What the material handler does; null where the file does not state what it is counted by. */
export interface HandlerWork {
  /** Packs of all lists together; null where nothing has a pack. */
  readonly packs: bigint | null;
  /** Parts of which no pack is stated. */
  readonly withoutPack: number;
  readonly trips: RoundedUp | null;
  /** Whether the packs or the interval set their number. */
  readonly tripsBy: "packs" | "interval" | null;
  readonly time: Ratio | null;
  /** Time of all trips / available time. */
  readonly people: RoundedUp | null;
}

/** What the material handler brings to each place for a batch. */
export interface PartsAnswer {
  readonly line: Line;
  /** Null where whole units are built at the tables of an option. */
  readonly plan: Plan | null;
  /** Where the plan comes from, and the fingerprint that it was made for; null where it does not say. */
  readonly planFile: string | null;
  readonly fingerprint: { readonly ofPlan: string | null; readonly ofLine: string };
  readonly batch: Batch;
  readonly posts: readonly PartsAtPost[];
  readonly totals: readonly PartInAll[];
  readonly handler: HandlerWork;
  /** The parts that another plan has elsewhere; null where none is given. */
  readonly against: {
    readonly file: string;
    readonly moved: readonly MovedPart[];
    readonly isAlike: boolean;
  } | null;
  readonly findings: readonly Finding[];
}

/** A number of good units of the user's own, at the pace of the demand where there is one. */
export const batchOfUnits = (
  line: Line,
  takt: Ratio | null,
  goodUnits: Ratio,
  model: number | null,
): Batch => ({
  goodUnits,
  started: divide(goodUnits, line.yield),
  shift: null,
  time: takt === null ? null : multiply(goodUnits, takt),
  model,
});

/** What the longest shift makes at the demand; null without a calendar or a demand. */
export function batchOfShift(line: Line, takt: Ratio | null, model: number | null): Batch | null {
  const [first, ...others] = line.calendar?.shifts ?? [];
  if (first === undefined || takt === null) return null;
  const shift = others.reduce((one, two) => (availableTime(two) > availableTime(one) ? two : one), first);
  const time = ratio(availableTime(shift));
  const goodUnits = divide(time, takt);
  return { goodUnits, started: divide(goodUnits, line.yield), shift: shift.name, time, model };
}

/** So many units, or else what the longest shift makes; refused where nothing says how many that are. */
export function batchFor(
  line: Line,
  takt: Ratio | null,
  units: number | null,
  model: number | null,
): Reading<Batch> {
  const batch =
    units === null ? batchOfShift(line, takt, model) : batchOfUnits(line, takt, ratio(units), model);
  if (batch !== null) return accept(batch);
  const missing = [
    ...(takt === null ? ["`demand:`"] : []),
    ...(line.calendar === null ? ["`calendar:`"] : []),
  ];
  return refuse(
    `how many units a shift is to make is not known: ${line.file} has no ${missing.join(" and no ")}`,
  );
}

/** The option of the line that builds whole units at tables; or what is near. */
export function optionWithTables({ file, options }: Line, name: string): Reading<TablesOption> {
  const found = options.find((each) => idKey(each.name) === idKey(name));
  if (found !== undefined && hasTables(found)) return accept(found);
  const able = options.filter(hasTables).map((each) => each.name);
  const known =
    able.length === 0 ? `; no option of ${file} has tables` : `; options with tables: ${able.join(", ")}`;
  return refuse(
    found === undefined
      ? `no option is called ${quoted(name)}${nearestWordsAmong(able)(name) || known}`
      : `${quoted(found.name)} has no \`tables\`: give a plan of the line instead${known}`,
  );
}

type TablesOption = LineOption & { readonly tables: NonNullable<LineOption["tables"]> };

const hasTables = (option: LineOption): option is TablesOption => option.tables !== null;

/** A plan with the file that it stands in. */
export interface PlanInFile {
  readonly file: string;
  readonly plan: Plan;
  readonly fingerprint: string | null;
}

/** Parts at the stations and benches of a plan, or at tables where each person builds whole units. */
export function answerParts(
  asked: Line,
  batch: Batch,
  at: PlanInFile | { readonly tables: { readonly id: string; readonly people: number } },
  against: PlanInFile | null,
): PartsAnswer {
  const line = countShares(asked);
  const plan = "plan" in at ? at.plan : null;
  const posts = "plan" in at ? postsOfPlan(line, batch, at.plan) : [tablesOf(line, batch, at.tables)];
  const totals = totalsOf(posts);
  const before = against === null ? null : postsOfPlan(line, batch, against.plan);
  const moved = before === null ? null : movedParts(before, posts);
  const unstaffed = "plan" in at ? null : findUnstaffedTables(asked, at.tables);
  const missing = plan === null ? [] : findMissing(line, plan, "plan" in at ? at.file : "");
  const missed = against === null ? [] : findMissing(line, against.plan, against.file);
  return {
    line,
    plan,
    planFile: "plan" in at ? at.file : null,
    fingerprint: { ofPlan: "plan" in at ? at.fingerprint : null, ofLine: fingerprintOf(asked) },
    batch,
    posts,
    totals,
    handler: handlerWork(line, batch, posts),
    against:
      against === null || moved === null
        ? null
        : { file: against.file, moved, isAlike: moved.every(({ isAlike }) => isAlike) },
    findings: [
      ...findCountedShares(asked),
      ...missing,
      ...missed,
      ...findFullPlaces(posts),
      ...(unstaffed === null ? [] : [unstaffed]),
    ],
  };
}

function postsOfPlan(line: Line, batch: Batch, plan: Plan): PartsAtPost[] {
  const beside = lineBeside(line, plan);
  const { stations, benches = [] } = plan;
  const isWhole = ({ tasks }: Station) => line.tasks.length > 1 && new Set(tasks).size === line.tasks.length;
  const kindOf = (station: Station) => (isWhole(station) ? "tables" : "station");
  return [
    ...stations.map((each) => postOf(beside, batch, each, kindOf(each))),
    ...benches.map((each) => postOf(line, inHours(batch, hoursAtBench(line, benches, each)), each, "bench")),
  ].filter(({ parts, limits }) => parts.length > 0 || limits.length > 0);
}

function tablesOf(
  line: Line,
  batch: Batch,
  { id, people }: { readonly id: string; readonly people: number },
): PartsAtPost {
  const tasks = [...line.tasks.keys()];
  const station = { id, tasks, sides: null, persons: null, places: people, crew: 1 };
  return { ...postOf(line, batch, station, "tables"), limits: [] };
}

function postOf(line: Line, batch: Batch, station: Station, kind: PartsAtPost["kind"]): PartsAtPost {
  const { id, tasks, places } = station;
  return {
    id,
    kind,
    places,
    parts: partsAt(line, batch, tasks, kind === "station"),
    limits: limitsUsed(line, station),
    kits: kind === "tables" ? kitsOf(line, batch, tasks) : [],
  };
}

/** The same units where they are worked in other hours than those of the line. */
export const inHours = (batch: Batch, hours: Ratio): Batch => ({
  ...batch,
  time: batch.time && multiply(batch.time, hours),
});

/** The parts of these tasks for a batch; those of stations of the line are simulated, of the mix. */
export const partsAt = (
  line: Line,
  batch: Batch,
  tasks: readonly number[],
  isSimulated = false,
): PartAtPost[] =>
  partsUsed(line, tasks, batch.model).map((each) =>
    partAtPost(line, batch, each, isSimulated && batch.model === null),
  );

function partAtPost(
  line: Line,
  { started, time }: Batch,
  { id, perUnit }: PartUsed,
  isSimulated: boolean,
): PartAtPost {
  const part = listedPart(line, id);
  const { pack, replenish, safety } = part;
  const quantity = multiply(started, perUnit);
  const rate = time === null || time.num <= 0n ? null : divide(quantity, time);
  const containers =
    pack === null || rate === null || replenish === null || safety === null
      ? null
      : containersAtLine(rate, { replenish: ratio(replenish), safety, pack });
  const toRun =
    rate === null || !isSimulated ? null : containersToRun(divide(rate, line.uptime), part, line.delivery);
  return {
    part,
    perUnit,
    quantity: roundUp(quantity),
    packs: pack === null ? null : roundUp(divide(quantity, ratio(pack))),
    packLasts: pack === null || rate === null ? null : divide(ratio(pack), rate),
    containers,
    containersToRun: containers !== null && toRun === Number(containers.whole) ? null : toRun,
  };
}

function kitsOf(line: Line, { started, model: only }: Batch, tasks: readonly number[]): Kit[] {
  const models = line.models.length === 0 ? [null] : [...line.models.keys()];
  return models
    .filter((model) => only === null || model === only)
    .map((model) => {
      const share = model === null || only !== null ? ONE : line.models[model]!.share;
      const parts = partsOfKit(line, tasks, model ?? 0);
      return {
        model,
        count: roundUp(multiply(started, share)),
        parts: parts.map((each) => ({ ...each, part: listedPart(line, each.id) })),
      };
    });
}

function totalsOf(posts: readonly PartsAtPost[]): PartInAll[] {
  const rows = new Map<string, PartAtPost[]>();
  for (const row of posts.flatMap(({ parts }) => parts)) addTo(rows, row.part.id, row);
  return [...rows]
    .sort(([one], [two]) => compareNaturally(one, two))
    .map(([, all]) => {
      const packs = all.flatMap((row) => row.packs?.whole ?? []);
      return {
        part: all[0]!.part,
        quantity: roundUp(all.map(({ quantity }) => quantity.exact).reduce(add, ZERO)),
        packs: packs.length < all.length ? null : packs.reduce((sum, each) => sum + each, 0n),
      };
    });
}

function handlerWork({ delivery }: Line, { time }: Batch, posts: readonly PartsAtPost[]): HandlerWork {
  const all = posts.flatMap(({ parts }) => parts);
  const packed = all.filter(({ packs }) => packs !== null);
  const withoutPack = new Set(all.filter(({ packs }) => packs === null).map(({ part }) => part.id)).size;
  const packs = packed.length === 0 ? null : packed.reduce((sum, each) => sum + each.packs!.whole, 0n);
  const byPacks = packs === null || delivery.packs === null ? null : ratio(packs, delivery.packs);
  const byInterval = time === null || delivery.every === null ? null : divide(time, ratio(delivery.every));
  const most =
    byPacks === null || byInterval === null ? (byPacks ?? byInterval) : larger(byPacks, byInterval);
  const trips = most === null ? null : roundUp(most);
  const spent = trips === null || delivery.trip === null ? null : ratio(trips.whole * BigInt(delivery.trip));
  return {
    packs,
    withoutPack,
    trips,
    tripsBy:
      trips === null
        ? null
        : byInterval === null || (byPacks !== null && compare(byPacks, byInterval) >= 0)
          ? "packs"
          : "interval",
    time: spent,
    people: spent === null || time === null || time.num <= 0n ? null : roundUp(divide(spent, time)),
  };
}

/** Places that take more of a limit than it allows, such as shelf for their containers. */
function findFullPlaces(posts: readonly PartsAtPost[]): Finding[] {
  return posts.flatMap(({ id, limits }) =>
    limits.flatMap(({ name, used, most, unit }) => {
      const over = subtract(used, most);
      if (over.num <= 0n) return [];
      const amount = (value: Ratio) => `${decimal(value, 6)}${unit === "" ? "" : ` ${unit}`}`;
      const message = `${id} takes ${amount(used)} of ${name}, ${amount(over)} more than the limit of ${amount(most)}; bring less at a time, or move work with its parts`;
      return [finding({ rule: "limit", severity: "warning", message, station: id })];
    }),
  );
}

/** Tasks that stand nowhere: their parts are in no list. */
function findMissing(line: Line, { stations, benches = [] }: Plan, file: string): Finding[] {
  const placed = new Set([...stations, ...benches].flatMap(({ tasks }) => tasks));
  const missing = line.tasks.filter(({ parts }, task) => !placed.has(task) && parts.length > 0);
  if (missing.length === 0) return [];
  const [are, their] = missing.length === 1 ? ["is", "its"] : ["are", "their"];
  const message = `${listOf(missing.map(({ id }) => id))} ${are} at no station; ${their} parts are in no list`;
  return [finding({ rule: "missing-task", severity: "error", message, file, task: missing[0]!.id })];
}
