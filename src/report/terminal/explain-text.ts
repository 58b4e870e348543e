import { countOf } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import { endTasks, startTasks } from "../../line/precedence.js";
import type { BalanceAnswer, HowBalanced } from "../../off-line/balance-answer.js";
import { stationIds } from "../../plan/station-numbers.js";
import type { FillingStep } from "../../solve/fill-stations.js";
import { loadsInParts, showPartsOf } from "../../solve/parts.js";
import type { ShowTime } from "../../time/show-in-unit.js";
import { proofStepsText } from "./proof-steps-text.js";
import { ruledTasksText } from "./ruled-tasks-text.js";
import { headed, paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { formatTable } from "./table.js";
import { wrapText } from "./wrap-text.js";

/** What a rule did, in the order in which somebody checks it by hand: the tasks, the ranking, every assignment. */
export function explainText(answer: BalanceAnswer, look: Look): string {
  const { line } = answer;
  const balance = answer.balance ?? answer.tried;
  if (balance === null) return "";
  const names = new Names(answer);
  const ends = paragraph(
    `Starts with ${names.list(startTasks(line.before))}; ends with ${names.list(endTasks(line.before))}.`,
    look,
  );
  const tasks = headed("tasks and their followers", `${tasksTable(balance, names, look)}${ends}`, look);
  const rules = ruledTasksText(answer, look);
  const runs = balance.rules.map((run) => ruleText(run, balance, names, look));
  const exact =
    balance.search === null ? [] : [headed("exact", paragraph(searchWords(balance, answer), look), look)];
  const title = wrapText(`${visibleText(line.name)}: how the stations were filled`, look.width);
  return [`${title.join("\n")}\n`, tasks, ...rules, ...runs, ...exact, ...proofStepsText(answer, look)].join(
    "\n",
  );
}

class Names {
  readonly show: ShowTime;
  private readonly loads: readonly number[];

  constructor(private readonly answer: BalanceAnswer) {
    this.show = showPartsOf(answer.line);
    this.loads = loadsInParts(answer.line);
  }

  of(task: number): string {
    return visibleText(this.answer.line.tasks[task]!.id);
  }

  station(number: number): string {
    return visibleText(stationIds(this.answer.line, [number])[0]!);
  }

  list(tasks: readonly number[]): string {
    return tasks.length === 0 ? "-" : tasks.map((task) => this.of(task)).join(", ");
  }

  /** Whether a task is longer than what its empty station may hold. */
  isOver(task: number, limit: number): boolean {
    return this.loads[task]! > limit;
  }

  /** What keeps a task out of a station: on a line with shop-floor rules not only its time. */
  get keptOut(): string {
    return this.answer.rules === null ? "too long" : "not possible here";
  }

  /** How a ranking that runs into a rule ends: the tasks that found no station, or what else no station keeps. */
  unplaced(steps: readonly FillingStep[]): string {
    const placed = new Set(steps.flatMap((step) => (step.step === "place" ? this.blockOf(step.task) : [])));
    const left = [...this.loads.keys()].filter((task) => !placed.has(task));
    if (left.length === 0) return "Ends here without a plan: the people listed cannot staff these stations.";
    return `Ends here without a plan; not placed: ${this.list(left)}.`;
  }

  timed(tasks: readonly number[]): string {
    return tasks.map((task) => this.timedBlock(task)).join(", ");
  }

  private blockOf(task: number): readonly number[] {
    return this.answer.rules?.blocks.find((tasks) => tasks.includes(task)) ?? [task];
  }

  /** A task with its time; with it those that must share its station. */
  private timedBlock(task: number): string {
    const block = this.blockOf(task);
    const total = block.reduce((sum, each) => sum + this.loads[each]!, 0);
    return `${block.map((each) => this.of(each)).join(" + ")} (${this.show(total)})`;
  }
}

function tasksTable({ ranked }: HowBalanced, names: Names, look: Look): string {
  const rows = ranked.times.map((time, task) => [
    names.of(task),
    names.show(time),
    String(ranked.followers[task]!.length),
    names.list(ranked.followers[task]!),
  ]);
  return formatTable(
    [
      { head: "task", givesWay: true },
      { head: "time", align: "right" },
      { head: "followers", align: "right" },
      { head: "all that come after it, each once", wraps: true },
    ],
    rows,
    look.width,
  );
}

function ruleText(
  run: HowBalanced["rules"][number],
  { ranked }: HowBalanced,
  names: Names,
  look: Look,
): string {
  const { as, lowFirst } = run.rule.reads;
  const score = (task: number) => {
    const value = run.scores[task]!;
    return as === "time" ? names.show(value) : String(lowFirst ? -value : value);
  };
  const ranking = formatTable(
    [
      { head: "rank", align: "right" },
      { head: "task", givesWay: true },
      { head: "time", align: "right" },
      { head: run.rule.name, align: "right" },
    ],
    run.order.map((task, at) => [
      String(at + 1),
      names.of(task),
      names.show(ranked.times[task]!),
      score(task),
    ]),
    look.width,
  );
  const about = paragraph(
    `Ranks by ${run.rule.ranks}; ties: longer task time, then natural order of ids. ${run.rule.source}.`,
    look,
  );
  const steps = run.steps.map((step) => paragraph(stepWords(step, names), look)).join("");
  if (run.stations === null) {
    const end = paragraph(names.unplaced(run.steps), look);
    return headed(
      `by ${run.rule.name}: runs into a rule of the line`,
      `${about}${ranking}\n${steps}${end}`,
      look,
    );
  }
  const got = countOf(run.stations.length, "station");
  return headed(`by ${run.rule.name}: ${got}`, `${about}${ranking}\n${steps}`, look);
}

function stepWords(step: FillingStep, names: Names): string {
  const station = names.station(step.station);
  if (step.step === "close") {
    const left =
      step.left.length === 0 ? "no task is left available" : `${names.keptOut}: ${names.timed(step.left)}`;
    return `${station} closes with ${names.show(step.free)} free; ${left}.`;
  }
  if (names.isOver(step.task, step.freeBefore)) {
    return `${station} ${names.timed([step.task])}: over the station limit, so alone at a station of its own`;
  }
  const passed =
    step.passedOver.length === 0 ? "" : `; passed over as ${names.keptOut}: ${names.timed(step.passedOver)}`;
  return `${station} ${names.timed([step.task])}: ${names.show(step.freeBefore)} free before, ${names.show(step.freeAfter)} after${passed}`;
}

function searchWords({ search }: HowBalanced, { bound }: BalanceAnswer): string {
  if (search === null || search.nodes === 0) {
    if (bound === null) return "No search was needed to see that there is no plan.";
    if (bound.people != null)
      return "No search was needed: the rules reach the least people and stations that are proved.";
    return `No search was needed: the rules reach the bound of ${countOf(bound.stations ?? 0, "station")}.`;
  }
  return `${search.nodes} partial plans were looked at; ended: ${search.ended}.`;
}
