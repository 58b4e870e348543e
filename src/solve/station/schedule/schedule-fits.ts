import type { Work } from "../../work.js";
import { ScheduleQuestion } from "./fit-schedule.js";
import type { PeopleOfTasks } from "./people-of-tasks.js";
import { tasksOf } from "./schedule-limits.js";
import type { ScheduleLimits, ScheduleProblem } from "./schedule-problem.js";
import { StationTasks } from "./station-tasks.js";

/** Limits with what is known of sets of blocks that are held against them. */
export interface Asked {
  readonly limits: ScheduleLimits;
  /** The people of the tasks of a station; null where they cannot share them so. */
  whoDoes(tasks: readonly number[]): PeopleOfTasks | null;
  /** Whether further blocks may join holds of one equipment. */
  readonly isOpen: boolean;
  readonly known: Map<number | string, boolean>;
}

/** Remembers which sets of blocks fit which limits, and stops asking where the steps allowed are used up. */
export class ScheduleFits {
  /** Tasks put so far. */
  steps = 0;
  isUndecided = false;
  private lastStep = Number.POSITIVE_INFINITY;
  private remembered = 0;
  private readonly all = new Set<Asked>();
  /** The question that is not answered yet. */
  private open: {
    readonly asked: Asked;
    readonly key: number | string;
    readonly question: ScheduleQuestion;
  } | null = null;

  constructor(
    private readonly work: Work,
    private readonly problem: ScheduleProblem,
  ) {}

  allow(most: number): void {
    this.lastStep = this.steps + most;
    this.isUndecided = false;
  }

  /**
   * Whether the blocks fit; false also where that is undecided.
   *
   * @param key the set of the blocks
   */
  fit(asked: Asked, key: number | string, blocks: readonly number[]): boolean {
    const before = asked.known.get(key);
    if (before !== undefined) return before;
    if (this.isUndecided || this.steps >= this.lastStep) {
      this.isUndecided = true;
      return false;
    }
    const question = this.askedBefore(asked, key) ?? this.ask(asked, blocks);
    if (question === null) return this.remember(asked, key, false);
    const { steps } = question;
    const isUnlimited = this.lastStep === Number.POSITIVE_INFINITY;
    question.advance(isUnlimited ? MOST_UNLIMITED : Math.min(this.lastStep - this.steps, MOST_STEPS));
    this.steps += question.steps - steps;
    // Who sets no limit takes what is long to see as not fitting.
    if (question.fits === null && isUnlimited) return this.remember(asked, key, false);
    if (question.fits === null) {
      this.open = { asked, key, question };
      this.isUndecided = true;
      return false;
    }
    return this.remember(asked, key, question.fits);
  }

  private askedBefore(asked: Asked, key: number | string): ScheduleQuestion | null {
    const { open } = this;
    return open !== null && open.asked === asked && open.key === key ? open.question : null;
  }

  private ask({ limits, whoDoes, isOpen }: Asked, blocks: readonly number[]): ScheduleQuestion | null {
    const tasks = tasksOf(this.work, blocks);
    const who = whoDoes(tasks);
    if (who === null) return null;
    const question = new ScheduleQuestion(new StationTasks(this.problem, tasks, isOpen), limits, who);
    this.steps += question.steps;
    return question;
  }

  private remember(asked: Asked, key: number | string, fits: boolean): boolean {
    if (this.remembered++ >= MOST_REMEMBERED) {
      for (const { known } of this.all) known.clear();
      this.remembered = 0;
    }
    this.all.add(asked);
    asked.known.set(key, fits);
    return fits;
  }
}

/** Tasks put for one question at a time, and where nothing else limits it. */
const MOST_STEPS = 20_000;
const MOST_UNLIMITED = 4000;
/** About 100 MB. */
const MOST_REMEMBERED = 1_000_000;
