/** What a balancing rule may look at: plain numbers of the tasks, in natural order of ids. */
export interface RankedTasks {
  /** Task times in whole units. */
  readonly times: readonly number[];
  /** Direct predecessors of each task. */
  readonly before: readonly (readonly number[])[];
}

/**
 * A balancing rule: it only ranks. Filling stations is the same for every rule; ties go to the longer task time, then to
 * natural order of ids.
 */
export interface Rule {
  /** The name on the command line and in results. */
  readonly name: string;
  /** What is ranked, in a few words, such as "own task time". */
  readonly ranks: string;
  /** Where the rule was first published. */
  readonly source: string;
  /** One score a task; the higher is placed first. */
  score(tasks: RankedTasks): number[];
  /** How a score reads: "time" for times, "count" for plain numbers; `lowFirst` where people count upwards. */
  readonly reads: { readonly as: "time" | "count"; readonly lowFirst: boolean };
}
