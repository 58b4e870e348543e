import { countOf, thousands } from "../findings/count-of.js";
import { type Finding, finding, hasErrors, type Place } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import type { Before } from "../line/precedence.js";
import { addressOf, type Cell, findingAt } from "../table/table.js";
import { type AgreedOrder, againstKnown, agreeOn, MOST_ARROWS, type Pair } from "./agreed-order.js";
import type { BuiltUnit, NamedTask } from "./read-orders.js";

/** What is known of a task before orders are looked at. */
export interface KnownTask extends NamedTask {
  /** Where its file says so. */
  readonly file: string;
  readonly place: Place | null;
  /** Whether every unit has it, as far as its file says. */
  readonly isOnAll: boolean;
}

/** A unit that does one task of a pair before the other, and where. */
export interface Witness {
  readonly unit: string;
  readonly file: string;
  readonly first: Cell;
  readonly second: Cell;
}

/** Two tasks that were done both ways, with a unit for each. */
export interface FreePair {
  readonly tasks: Pair;
  readonly forth: Witness;
  readonly back: Witness;
  /** How many units do it each way. */
  readonly counts: readonly [forth: number, back: number];
}

/** A precedence of the result that nothing implies. */
export interface Arrow {
  readonly before: number;
  readonly after: number;
  /** Known before, itself or by longer ways. */
  readonly isKnown: boolean;
  /** Units that have both tasks. */
  readonly seenIn: number;
}

export interface LearntOrder extends AgreedOrder {
  readonly tasks: readonly KnownTask[];
  readonly units: readonly (BuiltUnit & {
    /** As it is called apart from all others. */
    readonly label: string;
    readonly lacks: readonly number[];
  })[];
  readonly arrows: readonly Arrow[];
  readonly freePairs: readonly FreePair[];
  /** Tasks that no unit has. */
  readonly unseenTasks: readonly number[];
}

/** Free pairs that are told with their units. */
const MOST_TOLD = 200;
/** Names in a sentence before the rest is counted. */
const NAMED = 6;

/** What the units of a line that were really built say; two tasks meet where one model has both of them. */
export function learnFromUnits(line: Line, units: readonly BuiltUnit[]) {
  const tasks = line.tasks.map(({ id, name, place, every, times }) => ({
    id,
    name,
    place,
    file: line.file,
    isOnAll: every === 1 && times.every((time) => time !== null),
  }));
  const models = line.models.map((_, model) =>
    [...line.tasks.keys()].filter((task) => line.tasks[task]!.times[model] !== null),
  );
  return learnOrder(tasks, line.before, models, units);
}

/** Precedences that only orders have shown come before those that the line itself says. */
export const inOrderOfDoubt = (arrows: readonly Arrow[]): Arrow[] => [
  ...arrows.filter(({ isKnown }) => !isKnown),
  ...arrows.filter(({ isKnown }) => isKnown),
];

/**
 * What units that were really built say of the order of work, besides what is known. A unit that does a task before one that is known to come
 * first, and units that contradict each other by way of tasks that they lack, are errors: nobody but people can say who is right.
 *
 * @param known for each task the tasks directly before it by its file
 * @param models the tasks of each model; empty where a unit may have any two tasks
 */
export function learnOrder(
  tasks: readonly KnownTask[],
  known: Before,
  models: readonly (readonly number[])[],
  built: readonly BuiltUnit[],
): { readonly learnt: LearntOrder | null; readonly findings: readonly Finding[] } {
  const orders = built.map(({ steps }) => steps.map(({ task }) => task));
  const witnesses = new Witnesses(tasks.length, built);
  const findings = findAgainst(tasks, known, orders, witnesses);
  if (hasErrors(findings)) return { learnt: null, findings };
  const agreed = agreeOn(tasks.length, orders, known, models);
  if (agreed.kind === "loops") {
    findings.push(...agreed.loops.map((loop) => tellLoop(tasks, loop, witnesses)));
    return { learnt: null, findings };
  }
  if (agreed.kind === "too-many") {
    const message = `these orders leave more than ${thousands(MOST_ARROWS)} direct precedences; orders of more units are needed`;
    findings.push(finding({ rule: "too-many-precedences", severity: "error", message }));
    return { learnt: null, findings };
  }
  const has = built.map(({ steps }) => new Set(steps.map(({ task }) => task)));
  const lacks = has.map((own) => [...tasks.keys()].filter((task) => !own.has(task)));
  const unseenTasks = [...tasks.keys()].filter((task) => has.every((own) => !own.has(task)));
  findings.push(...findLacking(tasks, unseenTasks, built, lacks, witnesses), ...findUnseen(tasks, agreed));
  const isKnown = knownPairs(known);
  const learnt: LearntOrder = {
    ...agreed,
    tasks,
    units: built.map((unit, at) => ({ ...unit, label: witnesses.labels[at]!, lacks: lacks[at]! })),
    arrows: agreed.before.flatMap((earlier, after) =>
      earlier.map((before) => ({
        before,
        after,
        isKnown: isKnown(before, after),
        seenIn: has.filter((own) => own.has(before) && own.has(after)).length,
      })),
    ),
    freePairs: agreed.free.first.slice(0, MOST_TOLD).map((pair) => witnesses.bothWays(pair)),
    unseenTasks,
  };
  return { learnt, findings };
}

/** Where units have what; asked for single pairs only. */
class Witnesses {
  readonly labels: readonly string[];
  readonly #at: readonly Int32Array[];

  constructor(
    size: number,
    readonly built: readonly BuiltUnit[],
  ) {
    const [once, twice]: Set<string>[] = [new Set(), new Set()];
    for (const { name } of built) (once!.has(name) ? twice : once)!.add(name);
    this.labels = built.map(({ name, table }) => (twice!.has(name) ? `${name} (${table.file})` : name));
    this.#at = built.map(({ steps }) => {
      const at = new Int32Array(size).fill(-1);
      for (const [place, { task }] of steps.entries()) at[task] = place;
      return at;
    });
  }

  /** What a unit shows of two tasks that it has. */
  of(unit: number, first: number, second: number): Witness {
    const { steps, table } = this.built[unit]!;
    const cell = (task: number) => steps[this.#at[unit]![task]!]!.cell;
    return { unit: this.labels[unit]!, file: table.file, first: cell(first), second: cell(second) };
  }

  /** Units that do one task before another. */
  having([one, two]: Pair): number[] {
    return [...this.#at.keys()].filter((unit) => {
      const at = this.#at[unit]!;
      return at[one]! >= 0 && at[two]! >= 0 && at[one]! < at[two]!;
    });
  }

  /** The first unit that has all of these tasks. */
  withAll(tasks: readonly number[]): string | null {
    return this.labels.find((_, unit) => tasks.every((task) => this.#at[unit]![task]! >= 0)) ?? null;
  }

  /** With the way first that more units go. */
  bothWays(pair: Pair): FreePair {
    const turned: Pair = [pair[1], pair[0]];
    const [forth, back] = [this.having(pair), this.having(turned)];
    const [way, other] = forth.length >= back.length ? [pair, turned] : [turned, pair];
    const [most, least] = forth.length >= back.length ? [forth, back] : [back, forth];
    return {
      tasks: way,
      forth: this.of(most[0]!, ...way),
      back: this.of(least[0]!, ...other),
      counts: [most.length, least.length],
    };
  }
}

function knownPairs(known: Before): (before: number, after: number) => boolean {
  const direct = known.map((earlier) => new Set(earlier));
  return (before, after) => direct[after]!.has(before);
}

function findAgainst(
  tasks: readonly KnownTask[],
  known: Before,
  orders: readonly (readonly number[])[],
  witnesses: Witnesses,
): Finding[] {
  const isDirect = knownPairs(known);
  return againstKnown(orders, known).flatMap((broken, unit) =>
    broken.map(({ before, after }) => {
      const { table } = witnesses.built[unit]!;
      const { first, second } = witnesses.of(unit, after, before);
      const [early, late] = [tasks[before]!, tasks[after]!];
      const where = late.place === null ? late.file : `${late.file}:${late.place.line}`;
      const says = `${where} has ${early.id} before ${late.id}${isDirect(before, after) ? "" : ", by way of others"}`;
      const message = `${witnesses.labels[unit]}: ${late.id} is done before ${early.id} (${addressOf(second)}), but ${says}; take that precedence out if the unit came out right, else leave the unit out`;
      const told = findingAt(table, first, { rule: "against-precedence", severity: "error", message });
      return { ...told, task: late.id };
    }),
  );
}

function tellLoop(tasks: readonly KnownTask[], loop: readonly number[], witnesses: Witnesses): Finding {
  const idOf = (task: number) => tasks[task]!.id;
  const shown = loop.map((task, at) => {
    const pair: Pair = [task, loop[(at + 1) % loop.length]!];
    const [unit] = witnesses.having(pair);
    return { pair, seen: unit === undefined ? null : { at: unit, ...witnesses.of(unit, ...pair) } };
  });
  const said = shown.map(({ pair: [one, two], seen }) => {
    const who =
      seen === null
        ? "known before"
        : `${witnesses.built[seen.at]!.name} in ${seen.file}, rows ${seen.first.row} and ${seen.second.row}`;
    return `${idOf(one)} before ${idOf(two)} (${who})`;
  });
  const ring = [...loop, loop[0]!].map(idOf).join(" -> ");
  const message = `units contradict each other: ${ring}. ${said.join(", ")}; ${whatToAsk(tasks, loop, witnesses)}`;
  const seen = shown.find((each) => each.seen !== null)?.seen;
  const told = { rule: "orders-contradict", severity: "error", message } as const;
  return seen ? findingAt(witnesses.built[seen.at]!.table, seen.second, told) : finding(told);
}

/** A unit that has all tasks of a loop is against the first pair of it: who does that pair so lacks some of the others. */
function whatToAsk(tasks: readonly KnownTask[], loop: readonly number[], witnesses: Witnesses): string {
  const whole = witnesses.withAll(loop);
  if (whole === null)
    return "no unit has all of these tasks, so ask in which order one that has them is built";
  const [first, second] = loop.map((task) => tasks[task]!.id);
  return `${whole} has all of these tasks; leave out the unit that did not come out right, or if all did, add one that has all of them and ${first} before ${second}`;
}

/** Tasks that a unit should have and lacks; that some models lack them, or that they are done on every so many units only, is no slip. */
function findLacking(
  tasks: readonly KnownTask[],
  unseen: readonly number[],
  built: readonly BuiltUnit[],
  lacks: readonly (readonly number[])[],
  { labels }: Witnesses,
): Finding[] {
  const none = unseen.map((task) => {
    const { id, file, place } = tasks[task]!;
    const message = `no order has ${id}: nothing is learnt of what comes before or after it`;
    return finding({ rule: "task-in-no-order", severity: "warning", message, file, place, task: id });
  });
  const isSeen = new Set(unseen);
  const some = built.flatMap(({ table, steps }, at) => {
    const missed = lacks[at]!.filter((task) => tasks[task]!.isOnAll && !isSeen.has(task));
    if (missed.length === 0 || steps.length === 0) return [];
    const message = `${labels[at]} lacks ${named(tasks, missed)}; it says nothing of ${missed.length === 1 ? "that task" : "those tasks"}`;
    return [findingAt(table, steps[0]!.cell, { rule: "order-lacks-tasks", severity: "warning", message })];
  });
  return [...none, ...some];
}

/** Pairs of which nothing is known are no freedom that anybody has seen. */
function findUnseen(tasks: readonly KnownTask[], { unseen }: AgreedOrder): Finding[] {
  const [first] = unseen.first;
  if (first === undefined) return [];
  const [one, two] = first.map((task) => tasks[task]!.id);
  const pairs = countOf(unseen.count, "pair");
  const message = `${pairs} of tasks ${unseen.count === 1 ? "was" : "were"} never seen on one unit, such as ${one} and ${two}: nothing shows that their order is free, and they get no precedence; look at a unit that has both before a plan relies on it${unseen.count === 1 ? "" : " (--json lists them)"}`;
  return [finding({ rule: "never-seen-together", severity: "warning", message, file: tasks[0]!.file })];
}

function named(tasks: readonly KnownTask[], numbers: readonly number[]): string {
  const ids = numbers.slice(0, NAMED).map((task) => tasks[task]!.id);
  return numbers.length > NAMED ? `${ids.join(", ")} and ${numbers.length - NAMED} more` : ids.join(", ");
}
