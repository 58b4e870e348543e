import { finding } from "../../findings/finding.js";
import { LearnedLine, learningKey } from "../../line/learned-line.js";
import type { Line } from "../../line/line.js";
import type { HeldBy } from "../../plan/figures/cycle.js";
import { availableTimeFor, startedFor, timeForGoodUnits, wantedPerDay } from "../../plan/figures/output.js";
import { peopleAt, peopleAtAll } from "../../plan/figures/people.js";
import { workContent } from "../../plan/figures/work-content.js";
import type { Plan } from "../../plan/plan.js";
import { verifyRules } from "../../plan/verify-plan.js";
import { availableTimeOfDay } from "../../time/calendar.js";
import type { Pace } from "../../time/pace.js";
import {
  add,
  ceiling,
  compare,
  divide,
  floor,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";
import { lineFacts } from "../balance/shown-balance.js";
import type { LearnedTasks, RampAnswer, RampDay, RampUnit, UnitAndDay } from "./ramp-answer.js";
import { allPosts, cyclesOf, type StretchOfUnits, stretchesOfBatch } from "./ramp-units.js";

export interface RampOptions {
  /** Good units of the batch, a whole number from 1. */
  readonly units: number;
  /** A row for each unit, not for some. */
  readonly each: boolean;
  /** Asked now and then, with the unit that is next: false ends the work. */
  goesOn(unit: number): Promise<boolean>;
}

/**
 * A plan unit by unit while its people learn. The line takes the cycle of the plan for each unit, as it is for that unit; it is never
 * slowed to the pace, and a unit is made on the day on which it is finished.
 */
export async function rampLine(
  line: Line,
  pace: Pace,
  takt: TaktSum | null,
  plan: Plan,
  { units: unitsAsked, each, goesOn }: RampOptions,
): Promise<RampAnswer> {
  const learned = new LearnedLine(line);
  const stated = allPosts(line, pace, plan);
  const batch = new Batch(
    line,
    pace,
    takt,
    unitsAsked,
    stated.length,
    each ? null : new Set(shownUnits(unitsAsked)),
  );
  let units = 0;
  for (const stretch of stretchesOfBatch(learned, pace, plan, unitsAsked)) {
    if (stretch.from % BETWEEN_LOOKS === 0 && !(await goesOn(stretch.from))) break;
    batch.build(stretch);
    units = stretch.to;
  }
  const tasks = tasksByLearning(line);
  const faults = verifyRules(line, pace, plan);
  const { settlesAt } = learned;
  const settled = settlesAt === null ? null : settledAt(settlesAt, learned.at(settlesAt), pace, plan);
  const all = ratio(units);
  return {
    line,
    pace,
    takt,
    plan,
    shown: lineFacts(line),
    units,
    unitsAsked,
    unitsStarted: compare(line.yield, ONE) === 0 ? null : startedFor(line, all),
    learned: tasks,
    posts: stated.map((post, at) => ({
      id: post.id,
      people: peopleAt(post),
      paceFrom: batch.paceFromOf[at]!,
    })),
    people: peopleAtAll(stated),
    rows: batch.allRows(),
    heldUp: batch.heldUp.flatMap((spans, at) => spans.map((span) => ({ id: stated[at]!.id, ...span }))),
    days: batch.days(),
    paceFrom: batch.paceFrom,
    settled,
    batch: { line: availableTimeFor(line, batch.cycles), work: startedFor(line, batch.work) },
    atStatedTimes: {
      line: availableTimeFor(line, multiply(all, cyclesOf(line, plan, stated).outputCycle)),
      work: startedFor(line, multiply(all, workContent(stated))),
    },
    extraHandsTime: availableTimeFor(line, batch.extraHands),
    brokenRules: faults.length,
    findings: [
      ...faults.map((each) => ({ ...each, file: null, place: null })),
      ...(tasks.length > 0 ? [] : [nothingLearned(line)]),
    ],
  };
}

/** The plan once its times are settled. */
const settledAt = (unit: number, line: Line, pace: Pace, plan: Plan): NonNullable<RampAnswer["settled"]> => ({
  unit,
  ...cyclesOf(line, plan, allPosts(line, pace, plan)),
});

/** Units of the batch between two looks at whether the work goes on. */
const BETWEEN_LOOKS = 64;

/** A batch as far as it is built. */
class Batch {
  /** Line cycles of all units so far, and what the units and the hands they lack take of people; in microseconds. */
  cycles = ZERO;
  work = ZERO;
  extraHands = ZERO;
  /** From which unit on each post keeps the pace, as far as it does. */
  readonly paceFromOf: (UnitAndDay | null)[];
  paceFrom: UnitAndDay | null = null;
  /** For each post the stretches of units in which it is held up. */
  readonly heldUp: { readonly by: HeldBy; readonly from: number; to: number }[][];
  private readonly rows: RampUnit[] = [];
  private last: RampUnit | null = null;
  private readonly done: RampDay[] = [];
  private today: { readonly first: RampUnit; made: number; hands: Ratio; lacks: readonly Ratio[] } | null =
    null;
  private made = 0;
  /** What of a day goes into good units; null without a calendar. */
  private readonly timeOfDay: Ratio | null;

  /** @param shown units that have a row; null: each */
  constructor(
    private readonly line: Line,
    private readonly pace: Pace,
    private readonly takt: TaktSum | null,
    private readonly units: number,
    posts: number,
    private readonly shown: ReadonlySet<number> | null,
  ) {
    this.paceFromOf = Array.from({ length: posts }, () => null);
    this.heldUp = Array.from({ length: posts }, () => []);
    const { calendar } = line;
    this.timeOfDay = calendar === null ? null : timeForGoodUnits(line, ratio(availableTimeOfDay(calendar)));
  }

  build(stretch: StretchOfUnits): void {
    const { from, to, outputCycle, cycles } = stretch;
    const { lineCycle } = this.pace;
    const first = { unit: from, day: this.dayOf(stretch, from) };
    const keptFrom = (known: UnitAndDay | null, own: Ratio) =>
      compare(own, lineCycle) > 0 ? null : (known ?? first);
    for (const [at, own] of cycles.entries()) this.paceFromOf[at] = keptFrom(this.paceFromOf[at]!, own);
    for (const [at, by] of stretch.heldBy.entries()) if (by !== null) this.holdUp(at, by, stretch);
    const before = this.paceFrom;
    this.paceFrom = keptFrom(before, outputCycle);
    const isNews = (before === null) !== (this.paceFrom === null);
    for (let unit = from; unit <= to; unit++)
      if (this.shown === null || this.shown.has(unit) || (unit === from && isNews))
        this.rows.push(this.rowOf(stretch, unit));
    this.last = this.rowOf(stretch, to);
    this.spreadOverDays(stretch);
    const count = ratio(to - from + 1);
    this.cycles = add(this.cycles, multiply(count, outputCycle));
    this.work = add(this.work, multiply(count, stretch.work));
    this.extraHands = add(this.extraHands, multiply(count, multiply(stretch.extraHands, lineCycle)));
  }

  /** Of the units that are shown, and of the last one so far. */
  allRows(): RampUnit[] {
    const isLastShown = this.last === null || this.rows.at(-1)?.unit === this.last.unit;
    return isLastShown ? this.rows : [...this.rows, this.last!];
  }

  /** Every day of the batch, the last one as far as it takes; null without a calendar. */
  days(): RampDay[] | null {
    if (this.timeOfDay === null) return null;
    return this.today === null ? this.done : [...this.done, this.closed(this.today, true)];
  }

  private holdUp(post: number, by: HeldBy, { from, to }: StretchOfUnits): void {
    const last = this.heldUp[post]!.at(-1);
    if (last !== undefined && last.to === from - 1 && isSame(last.by, by)) last.to = to;
    else this.heldUp[post]!.push({ by, from, to });
  }

  private spreadOverDays(stretch: StretchOfUnits): void {
    if (this.timeOfDay === null) return;
    const { from, to, outputCycle: cycle } = stretch;
    for (let unit = from; unit <= to; ) {
      const none = stretch.lacks.map(() => ZERO);
      this.today ??= { first: this.rowOf(stretch, unit), made: 0, hands: ZERO, lacks: none };
      const left = subtract(multiply(ratio(this.done.length + 1), this.timeOfDay), this.cycles);
      const byNight = cycle.num === 0n ? to : from - 1 + Number(floor(divide(left, cycle)));
      const last = Math.min(to, byNight);
      const count = last - unit + 1;
      this.today.made += count;
      this.today.hands = add(this.today.hands, multiply(ratio(count), stretch.extraHands));
      this.today.lacks = this.today.lacks.map((own, at) =>
        add(own, multiply(ratio(count), stretch.lacks[at]!)),
      );
      this.made += count;
      unit = last + 1;
      // What is left of the day may be enough for the next unit, which takes less.
      if (byNight >= to) return;
      this.done.push(this.closed(this.today, false));
      this.today = null;
    }
  }

  private closed({ first, made, hands, lacks }: NonNullable<Batch["today"]>, isLast: boolean): RampDay {
    const extraHands = made === 0 ? first.extraHands : divide(hands, ratio(made));
    // What a station is late by with some units it makes up for with others of the day.
    const overDay = lacks.map((own) => larger(ZERO, own)).reduce(add, ZERO);
    const needed = made === 0 ? extraHands : divide(overDay, ratio(made));
    const day = this.done.length + 1;
    const wanted = isLast ? null : wantedPerDay(this.line, this.takt);
    return {
      day,
      made,
      madeInAll: this.made,
      first,
      behind: wanted && larger(ZERO, subtract(this.wantedBy(day, wanted), ratio(this.made))),
      extraHands,
      hands: Number(ceiling(needed)),
    };
  }

  /** Good units wanted until the end of a day: nobody wants more than the batch. */
  private wantedBy(day: number, perDay: Ratio): Ratio {
    const [wanted, all] = [multiply(ratio(day), perDay), ratio(this.units)];
    return compare(wanted, all) < 0 ? wanted : all;
  }

  private rowOf(stretch: StretchOfUnits, unit: number): RampUnit {
    const { cycle, outputCycle, slowest, times, cycles, overPace, extraHands } = stretch;
    const day = this.dayOf(stretch, unit);
    return { unit, day, cycle, outputCycle, slowest, times, cycles, overPace, extraHands };
  }

  /** The day on which a unit of the stretch is finished, all before it being built. */
  private dayOf({ from, outputCycle: cycle }: StretchOfUnits, unit: number): number | null {
    if (this.timeOfDay === null) return null;
    const until = add(this.cycles, multiply(ratio(unit - from + 1), cycle));
    return Math.max(1, Number(ceiling(divide(until, this.timeOfDay))));
  }
}

const isSame = (one: HeldBy, other: HeldBy): boolean =>
  one.kind === "equipment" ? other.kind === "equipment" && one.name === other.name : one.kind === other.kind;

/** 1, 2, 5, 10, 20, 50, ... and the last. */
function shownUnits(units: number): number[] {
  const shown: number[] = [];
  for (let ten = 1; ten <= units; ten *= 10) shown.push(ten, 2 * ten, 5 * ten);
  return [...shown.filter((unit) => unit < units), units];
}

/** In the order of the first task of each kind. */
function tasksByLearning({ tasks }: Line): LearnedTasks[] {
  const found = new Map<string, { readonly learning: LearnedTasks["learning"]; readonly tasks: number[] }>();
  for (const [task, { learning }] of tasks.entries()) {
    if (learning === null) continue;
    const key = learningKey(learning);
    const known = found.get(key) ?? { learning, tasks: [] };
    known.tasks.push(task);
    found.set(key, known);
  }
  return [...found.values()];
}

function nothingLearned({ file }: Line) {
  const message =
    "no task has `learning`, so every unit takes the times of the file; write `learning: 85 %` for the line or a task";
  return finding({ rule: "nothing-learned", severity: "warning", message, file });
}
