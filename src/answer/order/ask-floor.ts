import type { Line } from "../../line/line.js";
import { type Before, directFollowers } from "../../line/precedence.js";
import { allFollowers, allPredecessors } from "../../line/reach.js";
import { withOrder } from "../../line/with-order.js";
import { peopleAtRepairs, peopleOfPlan } from "../../plan/figures/people.js";
import type { Plan } from "../../plan/plan.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import { type BalancingOptions, balance } from "../../solve/balance.js";
import { type Cost, isCheaper, PEOPLE_FIRST } from "../../solve/cost.js";
import { leastCost } from "../../solve/time-alone.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Pace } from "../../time/pace.js";
import { toNumber } from "../../time/ratio.js";

/** A precedence by the numbers of its tasks. */
export interface Precedence {
  readonly before: number;
  readonly after: number;
}

/** What a line needs: people at a time, those who repair beside it among them, and stations. */
export interface LineSize extends Cost {
  /** No plan needs less. */
  readonly isProved: boolean;
}

/** One precedence, or two at once, without which the line needs less. */
export interface FloorQuestion {
  readonly precedences: readonly Precedence[];
  readonly without: LineSize;
}

export interface FloorQuestions {
  /** What the line needs with all precedences; null where it has no plan. */
  readonly size: LineSize | null;
  /** The most useful first: fewest people, then fewest stations. */
  readonly questions: readonly FloorQuestion[];
  /** Precedences that may be asked about. */
  readonly candidates: number;
  /** Of these, proved to save nothing by themselves. */
  readonly ruledOut: number;
  /** Of these, not settled: nothing better was found without it, and nothing ruled it out. */
  readonly open: number;
  /** Of these, not looked at: the limit came first. */
  readonly notLookedAt: number;
  /** Whether it is proved that all of them at once save nothing. */
  readonly noneHelps: boolean;
  /** Whether two at once were looked at, as none alone helps; and whether all of them were. */
  readonly pairs: "not-asked" | "all" | "some";
  /** Lines that were balanced, and partial plans that all of them took. */
  readonly balances: number;
  readonly nodes: number;
  /** Partial plans that questions about a line of so many tasks take at least: none is balanced for fewer. */
  readonly nodesToAsk: number;
  readonly isInterrupted: boolean;
}

/** Least partial plans for a line, however many share the limit. */
const LEAST_NODES = 1_000;
/** Few questions have such a part of the partial plans each. */
const LEAST_SHARES = 16;
/** A line that is balanced counts as so many partial plans a task at least, so that large lines come to an end. */
const NODES_PER_TASK = 20;
/** Fewer balances than that would tell nothing of a line, and each of them is long where only so few fit. */
const LEAST_BALANCES = 8;

const nodesToAsk = (tasks: number): number => LEAST_BALANCES * NODES_PER_TASK * tasks;

/**
 * The precedences without which a line does with fewer people or stations: found by balancing it with and without each. Only those that
 * nothing implies can matter by themselves. A precedence that is taken out takes nothing with it that it implies together with others.
 * Groups are taken out at once first: where that is proved to save nothing, none of them does. What gives its tasks most room comes first, as
 * the limit may come before the rest. Where it is too low for even a few balances, none is made.
 *
 * @param before the order of work without what longer ways imply
 * @param asked precedences of it that may be asked about, those first that are told first where they save as much
 */
export async function askFloor(
  line: Line,
  pace: Pace,
  before: Before,
  asked: readonly Precedence[],
  options: FloorOptions,
): Promise<FloorQuestions> {
  const floor = new Floor(line, pace, before, options);
  const kept = askable(line, asked);
  if (options.nodes < nodesToAsk(line.tasks.length)) return floor.answer(kept);
  await floor.begin(kept.length);
  await floor.askEach(byRoom(line, pace, before, kept));
  return floor.answer(kept);
}

/**
 * Precedences that take room from their tasks before all others: without them the later task could be at a station sooner by the work that must
 * come before it, or the earlier one later. Only that pair is free without a precedence, all others stay.
 */
function byRoom(line: Line, pace: Pace, before: Before, asked: readonly Precedence[]): Precedence[] {
  const works = line.tasks.map(({ load }) => toNumber(load));
  const limit = toNumber(pace.stationLimit);
  const sumOf = (sets: ReturnType<typeof allPredecessors>) =>
    works.map((own, task) => sets.list(task).reduce((sum, each) => sum + works[each]!, own));
  const [ahead, behind] = [sumOf(allPredecessors(before)), sumOf(allFollowers(before))];
  const isNearer = (work: number, without: number) =>
    Math.ceil((work - without) / limit) < Math.ceil(work / limit);
  const takesRoom = ({ before: one, after: two }: Precedence) =>
    isNearer(ahead[two]!, works[one]!) || isNearer(behind[one]!, works[two]!);
  const [first, then] = [asked.filter(takesRoom), asked.filter((each) => !takesRoom(each))];
  return [...first, ...then];
}

/**
 * A wait says itself that it is needed, a test comes behind what it returns to, and a unit is hooked up before what is done on the same
 * equipment: tasks that hold it one after another are one hold, which no question is to take apart.
 */
function askable(line: Line, asked: readonly Precedence[]): Precedence[] {
  const isWaited = ({ before, after }: Precedence) =>
    line.waits.some(({ from, to }) => from === before && to === after);
  const isOfTest = ({ before, after }: Precedence) => {
    const { test } = line.tasks[after]!;
    return test?.failures === "repaired" && test.returnTo === before;
  };
  const isHold = ({ before, after }: Precedence) => {
    const { equipment } = line.tasks[after]!;
    return line.tasks[before]!.equipment.some((each) => equipment.includes(each));
  };
  return asked.filter((each) => !isWaited(each) && !isOfTest(each) && !isHold(each));
}

/**
 * The order of work without these precedences, none of which is implied: what they imply together with others stays. Ways of two steps, one
 * of which is taken out, and ways of three, the first and the last of which are, carry every longer way.
 */
export function withoutPrecedences(before: Before, taken: readonly Precedence[]): Before {
  const gone = new Set(taken.map((each) => each.before * before.length + each.after));
  const isGone = (from: number, to: number) => gone.has(from * before.length + to);
  const wanted = new Set<number>();
  const after = directFollowers(before);
  for (const each of taken) for (const task of [each.after, ...after[each.after]!]) wanted.add(task);
  return before.map((earlier, task) => {
    if (!wanted.has(task)) return earlier;
    const found = new Set(earlier.filter((each) => !isGone(each, task)));
    for (const one of earlier)
      for (const two of before[one]!) {
        if (isGone(one, task) || isGone(two, one)) found.add(two);
        if (isGone(one, task)) for (const three of before[two]!) if (isGone(three, two)) found.add(three);
      }
    return [...found].sort((one, two) => one - two);
  });
}

interface FloorOptions {
  /** Partial plans of the line as it is, and of all questions together. */
  readonly nodes: number;
  /** How often those of the line as it is may double until it has a plan. */
  readonly doublings: number;
  readonly strictLimit: boolean;
  readonly checkpoint: Watch;
}

interface Trial {
  /** Proved to be no better than with all precedences. */
  readonly isRuledOut: boolean;
  /** What the line needs, where that is less, and a plan that shows it. */
  readonly better: { readonly size: LineSize; readonly plan: Plan } | null;
}

class Floor {
  #plan: Plan | null = null;
  #size: LineSize | null = null;
  #each = 0;
  #used = 0;
  #nodes = 0;
  #balances = 0;
  #isOver = false;
  #isInterrupted = false;
  #questions: FloorQuestion[] = [];
  #ruledOut = 0;
  #open = 0;
  #settled = 0;
  #noneHelps = false;
  #pairs: FloorQuestions["pairs"] = "not-asked";
  readonly #whole: Line;

  constructor(
    readonly line: Line,
    readonly pace: Pace,
    readonly before: Before,
    readonly options: FloorOptions,
  ) {
    this.#whole = withOrder(line, before);
  }

  async begin(candidates: number): Promise<void> {
    const found = await this.#balance(this.#whole, this.options.nodes, this.options.doublings, null);
    this.#plan = found.plan;
    this.#size = found.plan && this.#sizeOf(this.#whole, found.plan, found.proved);
    this.#each = Math.max(LEAST_NODES, Math.floor(this.options.nodes / Math.max(LEAST_SHARES, candidates)));
    this.#used = 0;
    if (found.plan === null && found.outcome === "stopped") this.#isOver = true;
  }

  async askEach(candidates: readonly Precedence[]): Promise<void> {
    if (candidates.length === 0) return;
    // A plan that needs less and keeps all precedences is the one that all is held against from then on.
    for (let size: LineSize | null | undefined; size !== this.#size; ) {
      size = this.#size;
      this.#questions = [];
      [this.#ruledOut, this.#open, this.#settled] = [0, 0, 0];
      [this.#noneHelps, this.#pairs] = [false, "not-asked"];
      const first = await this.#without(candidates);
      this.#noneHelps = first?.isRuledOut === true;
      if (this.#noneHelps) this.#settle(candidates, first);
      else if (candidates.length === 1) this.#settle(candidates, first);
      else for (const { group, from } of partsOf(candidates, first)) await this.#askGroup(group, from);
      if (size === this.#size && this.#questions.length === 0 && !this.#noneHelps) {
        this.#pairs = "all";
        await this.#askWithin(candidates);
      }
    }
  }

  answer(candidates: readonly Precedence[]): FloorQuestions {
    const saved = ({ without }: FloorQuestion) => without;
    const turn = ({ precedences: [first] }: FloorQuestion) => candidates.indexOf(first!);
    return {
      size: this.#size,
      questions: this.#questions.toSorted(
        (one, two) =>
          saved(one).people - saved(two).people ||
          saved(one).stations - saved(two).stations ||
          turn(one) - turn(two),
      ),
      candidates: candidates.length,
      ruledOut: this.#ruledOut,
      open: this.#open,
      notLookedAt: candidates.length - this.#settled,
      noneHelps: this.#noneHelps,
      pairs: this.#pairs,
      balances: this.#balances,
      nodes: this.#nodes,
      nodesToAsk: nodesToAsk(this.line.tasks.length),
      isInterrupted: this.#isInterrupted,
    };
  }

  async #askGroup(group: readonly Precedence[], from: Plan | null): Promise<void> {
    const trial = await this.#without(group, from);
    if (group.length === 1 || trial === null || trial.isRuledOut) this.#settle(group, trial);
    else for (const part of partsOf(group, trial)) await this.#askGroup(part.group, part.from);
  }

  #settle(group: readonly Precedence[], trial: Trial | null): void {
    if (trial === null) return;
    this.#settled += group.length;
    if (trial.isRuledOut) this.#ruledOut += group.length;
    else if (trial.better) this.#questions.push({ precedences: group, without: trial.better.size });
    else this.#open += group.length;
  }

  /** Every two of a group, which are more than one alone. */
  async #askWithin(group: readonly Precedence[]): Promise<void> {
    if (group.length < 2) return;
    const [one, two] = halves(group);
    for (const half of [one, two]) {
      if (half.length < 2) continue;
      const trial = await this.#without(half);
      if (trial?.isRuledOut) continue;
      if (half.length === 2) this.#settlePair(half, trial);
      else await this.#askWithin(half);
    }
    await this.#askAcross(one, two);
  }

  /** Every two of which one is in each group. */
  async #askAcross(one: readonly Precedence[], two: readonly Precedence[]): Promise<void> {
    const trial = await this.#without([...one, ...two]);
    if (trial?.isRuledOut) return;
    if (trial === null || one.length * two.length === 1) this.#settlePair([...one, ...two], trial);
    else if (one.length >= two.length) for (const half of halves(one)) await this.#askAcross(half, two);
    else for (const half of halves(two)) await this.#askAcross(one, half);
  }

  #settlePair(group: readonly Precedence[], trial: Trial | null): void {
    if (trial?.better) this.#questions.push({ precedences: group, without: trial.better.size });
    else this.#pairs = "some";
  }

  /** The line without these precedences; null where the limit came first. */
  async #without(taken: readonly Precedence[], from: Plan | null = null): Promise<Trial | null> {
    if (this.#isOver || this.#used >= this.options.nodes) return null;
    const line = withOrder(this.line, withoutPrecedences(this.before, taken));
    const now = this.#plan === null ? null : this.#costOf(this.#whole, this.#plan);
    const least = leastCost(line, this.pace, this.options.strictLimit);
    if (now !== null && least !== null && !isCheaper(this.#withRepairs(line, least), now, PEOPLE_FIRST)) {
      this.#used += line.tasks.length;
      return { isRuledOut: true, better: null };
    }
    const nodes = Math.min(this.#each, Math.max(LEAST_NODES, this.options.nodes - this.#used));
    const { plan, proved, outcome } = await this.#balance(line, nodes, 0, from ?? this.#plan);
    if (plan === null) return { isRuledOut: outcome === "infeasible", better: null };
    const size = this.#sizeOf(line, plan, proved);
    if (now !== null && !isCheaper(size, now, PEOPLE_FIRST)) return { isRuledOut: proved, better: null };
    if (verifyPlan(this.#whole, this.pace, plan, this.options.strictLimit).length > 0)
      return { isRuledOut: false, better: { size, plan } };
    this.#plan = plan;
    this.#size = this.#sizeOf(this.#whole, plan, proved);
    return { isRuledOut: proved, better: null };
  }

  async #balance(line: Line, nodes: number, doublings: number, from: Plan | null) {
    const asked: BalancingOptions = {
      method: "best",
      nodes,
      doublings,
      level: false,
      explain: false,
      strictLimit: this.options.strictLimit,
      checkpoint: (progress) => this.options.checkpoint({ ...progress, what: "questions" }),
      from,
    };
    const found = await balance(line, this.pace, asked);
    const used = found.search?.nodes ?? 0;
    this.#balances += 1;
    this.#nodes += used;
    this.#used += Math.max(used, NODES_PER_TASK * line.tasks.length);
    const ended = found.search?.ended;
    if (ended === "interrupted" || ended === "time") this.#isOver = true;
    if (ended === "interrupted") this.#isInterrupted = true;
    return found;
  }

  #costOf(line: Line, plan: Plan): Cost {
    return { people: peopleOfPlan(line, this.pace, plan).atATime, stations: plan.stations.length };
  }

  #sizeOf(line: Line, plan: Plan, isProved: boolean): LineSize {
    return { ...this.#costOf(line, plan), isProved };
  }

  #withRepairs(line: Line, { people, stations }: Cost): Cost {
    return { people: people + peopleAtRepairs(line, this.pace), stations };
  }
}

interface Part {
  readonly group: readonly Precedence[];
  /** A plan that keeps all but these and needs less; null where none is known. */
  readonly from: Plan | null;
}

/** A group in two parts: those that a better plan does without come first, as some of them help; where all do, or none is known, halves. */
function partsOf(group: readonly Precedence[], trial: Trial | null): Part[] {
  const plan = trial?.better?.plan ?? null;
  const rank = new Map(plan?.stations.flatMap(({ tasks }) => tasks).map((task, at) => [task, at]));
  const isBroken = ({ before, after }: Precedence) => rank.get(after)! < rank.get(before)!;
  const broken = plan === null ? [] : group.filter(isBroken);
  if (broken.length === 0 || broken.length === group.length)
    return halves(group).map((half) => ({ group: half, from: null }));
  const kept = group.filter((each) => !isBroken(each));
  return [
    { group: broken, from: plan },
    { group: kept, from: null },
  ];
}

function halves(group: readonly Precedence[]): [Precedence[], Precedence[]] {
  const middle = Math.ceil(group.length / 2);
  return [group.slice(0, middle), group.slice(middle)];
}
