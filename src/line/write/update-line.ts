import type { Document } from "yaml";
import { type Finding, finding, hasErrors } from "../../findings/finding.js";
import { idKey } from "../ids.js";
import type { Line, Task } from "../line.js";
import { readLine } from "../read-line.js";
import type { ChangedLines } from "./source-edits.js";
import { type ChangedTask, type WrittenTask, writeTasks } from "./write-tasks.js";

/** A line file with something new in it. */
export interface UpdatedLine<Change = ChangedTask> {
  readonly text: string;
  readonly lines: readonly ChangedLines[];
  readonly tasks: readonly Change[];
}

/** A file that takes an update, or would take it. */
export interface LineInto<Change> {
  readonly file: string;
  readonly isWritten: boolean;
  readonly line: UpdatedLine<Change>;
}

/** A line file that is to be changed, as it was read. */
export interface LineSource {
  readonly line: Line;
  readonly source: string;
  /** What was read of the source, every value as text. */
  readonly document: Document;
}

/**
 * Puts tasks into a line file, and has a look at what became of it: nothing is written where a task would change of which nothing was
 * said, or where one would not be as it was said.
 */
export class LineUpdate {
  readonly findings: Finding[] = [];
  /** The text that the findings are about: that of the file, or what it would have become. */
  source: string;
  /** What the reader of line files says of the file as it would become; nothing before it is written. */
  told: readonly Finding[] = [];
  readonly #file: LineSource;
  readonly #tasks: ReadonlyMap<string, Task>;

  constructor(file: LineSource) {
    this.#file = file;
    this.source = file.source;
    this.#tasks = new Map(file.line.tasks.map((task) => [idKey(task.id), task]));
  }

  /** The task of the line that is called so. */
  find(id: string): Task | undefined {
    return this.#tasks.get(idKey(id));
  }

  /** A finding about the line, at the task of that id where it has one. */
  tell(severity: Finding["severity"], rule: string, message: string, id: string | null = null): void {
    const place = id === null ? null : (this.find(id)?.place ?? null);
    this.findings.push(finding({ rule, severity, message, file: this.#file.line.file, place, task: id }));
  }

  /**
   * The file with these tasks; null where errors keep it from being written, of which findings tell.
   *
   * @param isWanted whether a task that was written is as it was said, given the ids of the tasks before it
   */
  write(
    tasks: readonly WrittenTask[],
    isWanted: (task: Task, before: readonly string[]) => boolean,
  ): (UpdatedLine & { readonly after: Line }) | null {
    const { line, source, document } = this.#file;
    if (hasErrors(this.findings)) return null;
    const { text, lines, tasks: changed, refused } = writeTasks(source, document, line.unit, tasks);
    for (const { id, key } of refused) {
      const why = "it is by model, over several lines, or an alias (*name)";
      const message = `\`${key}\` of ${id} cannot be replaced, as ${why}; write it there by hand`;
      this.tell("error", "not-written", message, id);
    }
    if (refused.length > 0) return null;
    const isSame = text === source;
    const { line: after, findings } = isSame ? { line, findings: [] } : readLine(line.file, text);
    this.told = findings;
    if (after === null) {
      this.findings.push(...findings);
      this.source = text;
      return null;
    }
    const spoilt = spoiltTask(line, after, new Set(tasks.map(({ id }) => idKey(id))), isWanted);
    if (spoilt === null) return { text, lines, tasks: changed, after };
    const message = `nothing is written: ${spoilt} would not be as it should; aliases (*name) may stand for it`;
    this.tell("error", "not-written", message);
    return null;
  }
}

/** A task that changed without being asked for, or that did not become what was said; null where all is right. */
function spoiltTask(
  before: Line,
  after: Line,
  written: ReadonlySet<string>,
  isWanted: (task: Task, before: readonly string[]) => boolean,
): string | null {
  const [was, now] = [inOrder(before), inOrder(after)];
  for (const [key, { task, names }] of was) {
    const present = now.get(key);
    if (present === undefined) return task.id;
    if (written.has(key)) continue;
    if (bareText(task) !== bareText(present.task) || names.join("\n") !== present.names.join("\n"))
      return task.id;
  }
  for (const key of written) {
    const present = now.get(key);
    if (present === undefined || !isWanted(present.task, present.names)) return present?.task.id ?? key;
  }
  return null;
}

/** Each task with the ids of those before it, by the key of its own. */
const inOrder = ({ tasks, before }: Line) =>
  new Map(
    tasks.map((task, number) => {
      const names = before[number]!.map((each) => tasks[each]!.id);
      return [idKey(task.id), { task, names }] as const;
    }),
  );

/** All that a task says itself. */
function bareText({ place: _place, visits: _visits, load: _load, test: _test, ...rest }: Task): string {
  return JSON.stringify(rest, (_, value: unknown) => (typeof value === "bigint" ? String(value) : value));
}
