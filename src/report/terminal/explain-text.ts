import type { TaskWindow } from "../../answer/balance/answer-rules.js";
import type { BalanceAnswer, HowBalanced } from "../../answer/balance/balance-answer.js";
import type {
  ExplainedRule,
  ExplainedStep,
  Explanation,
  Score,
  TimedBlock,
} from "../../answer/balance/explanation.js";
import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import { countOf } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import { type ShowTime, showTimesIn } from "../../time/show-in-unit.js";
import { decimal } from "../../time/show-values.js";
import { methodWords } from "../words/method-words.js";
import { headed, paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { type Column, formatTable } from "./table.js";
import { wrapText } from "./wrap-text.js";

/** What a method did, in the order in which somebody checks it by hand: the tasks, the ranking, every assignment. */
export function explainText(answer: ShownBalance, explanation: Explanation | null, look: Look): string {
  const { line, shown } = answer;
  const balance = answer.balance ?? answer.tried;
  if (balance === null || explanation === null) return "";
  const names = new Names(answer);
  const ends = paragraph(
    `Starts with ${names.list(shown.starts)}; ends with ${names.list(shown.ends)}.`,
    look,
  );
  const tasks = headed("tasks and their followers", `${tasksTable(explanation, names, look)}${ends}`, look);
  const rules = ruledTasksText(answer, explanation, look);
  const runs = explanation.rules.map((run) => ruleText(run, explanation, names, look));
  const exact =
    balance.search === null
      ? []
      : [headed("exact search", paragraph(searchWords(balance, answer), look), look)];
  const title = wrapText(`${visibleText(line.name)}: how the stations were filled`, look.width);
  return [`${title.join("\n")}\n`, tasks, ...rules, ...runs, ...exact].join("\n");
}

class Names {
  readonly show: ShowTime;

  constructor(private readonly answer: BalanceAnswer) {
    this.show = showTimesIn(answer.line.unit);
  }

  of(task: number): string {
    return visibleText(this.answer.line.tasks[task]!.id);
  }

  list(tasks: readonly number[]): string {
    return tasks.length === 0 ? "-" : tasks.map((task) => this.of(task)).join(", ");
  }

  /** How a ranking that fails ends: the tasks that found no station, or what else no station keeps. */
  unplaced(tasks: readonly number[]): string {
    return tasks.length === 0
      ? "Ends here without a plan: the people listed cannot staff these stations."
      : `Ends here without a plan; not placed: ${this.list(tasks)}.`;
  }

  /** Tasks with their times; with each those that must share its station. */
  timed(blocks: readonly TimedBlock[]): string {
    return blocks
      .map(({ tasks, time }) => `${tasks.map((task) => this.of(task)).join(" + ")} (${this.show(time)})`)
      .join(", ");
  }

  score(score: Score): string {
    return score.kind === "time" ? this.show(score.time) : String(score.count);
  }
}

function tasksTable({ tasks }: Explanation, names: Names, look: Look): string {
  const rows = tasks.map(({ time, followers }, task) => [
    names.of(task),
    names.show(time),
    String(followers.length),
    names.list(followers),
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

function ruleText(run: ExplainedRule, { tasks }: Explanation, names: Names, look: Look): string {
  const ranking = formatTable(
    [
      { head: "rank", align: "right" },
      { head: "task", givesWay: true },
      { head: "time", align: "right" },
      { head: methodWords(run.name), align: "right" },
    ],
    run.order.map((task, at) => [
      String(at + 1),
      names.of(task),
      names.show(tasks[task]!.time),
      names.score(run.scores[task]!),
    ]),
    look.width,
  );
  const about = paragraph(
    `Ranks by ${run.ranks}; ties: longer task time, then natural order of ids. After ${run.source}.`,
    look,
  );
  const steps = run.steps.map((step) => paragraph(stepWords(step, names), look)).join("");
  if (run.stations === null) {
    const end = paragraph(names.unplaced(run.unplaced), look);
    return headed(`by ${methodWords(run.name)}: fails`, `${about}${ranking}\n${steps}${end}`, look);
  }
  return headed(
    `by ${methodWords(run.name)}: ${countOf(run.stations, "station")}`,
    `${about}${ranking}\n${steps}`,
    look,
  );
}

function stepWords(step: ExplainedStep, names: Names): string {
  const station = visibleText(step.station);
  if (step.kind === "close") {
    const left =
      step.left.length === 0 ? "no task is left available" : `${keptOut(step)}: ${names.timed(step.left)}`;
    return `${station} closes with ${names.show(step.free)} free; ${left}.`;
  }
  const placed = `${station} ${names.timed([step.block])}`;
  if (step.isOver) return `${placed}: over the station limit, so alone at a station of its own`;
  const passed =
    step.passedOver.length === 0 ? "" : `; passed over as ${keptOut(step)}: ${names.timed(step.passedOver)}`;
  return `${placed}: ${names.show(step.freeBefore)} free before, ${names.show(step.freeAfter)} after${passed}`;
}

/** What keeps tasks out of a station. */
const keptOut = ({ isTooLong }: ExplainedStep): string => (isTooLong ? "too long" : "not possible here");

function searchWords({ search }: HowBalanced, { bound }: BalanceAnswer): string {
  if (search === null || search.nodes === 0) {
    if (bound === null) return "No search was needed to see that there is no plan.";
    if (bound.isOfPeople)
      return "No search was needed: the methods reach the least people and stations that are proved.";
    return `No search was needed: the methods reach the bound of ${countOf(bound.stations ?? 0, "station")}.`;
  }
  return `${countOf(search.nodes, "partial plan")} ${search.nodes === 1 ? "was" : "were"} examined; ended: ${search.ended}.`;
}

/** What the line says of single tasks beyond times and arrows: people, visits, where they may stand. A part or none. */
function ruledTasksText({ line, rules }: BalanceAnswer, { visits }: Explanation, look: Look): string[] {
  const windows = rules?.windows ?? null;
  const columns: (Column & { readonly of: (task: number) => string })[] = [
    { head: "task", givesWay: true, of: (task) => visibleText(line.tasks[task]!.id) },
  ];
  if (line.tasks.some(({ people }) => people > 1)) {
    columns.push({ head: "people", align: "right", of: (task) => String(line.tasks[task]!.people) });
  }
  if (visits !== null) {
    columns.push({
      head: "times performed",
      align: "right",
      of: (task) => decimal(visits[task]!, 4),
    });
  }
  if (windows !== null) {
    const words = (task: number) => visibleText(windowWords(windows[task]!, line.floor.length));
    columns.push({ head: "may stand at", wraps: true, narrowest: 8, of: words });
  }
  if (columns.length === 1) return [];
  const rows = line.tasks.map((_, task) => columns.map((column) => column.of(task)));
  const about = windows === null ? "" : paragraph(WINDOWS, look);
  const table = formatTable(columns, rows, look.width);
  return [headed("what else is said of the tasks", `${table}${about}`, look)];
}

const WINDOWS =
  "May stand at: by fixed stations, zones, skills, equipment, together, waits and the order of work. Apart counts where that order or a fixed station settles it. The time that stations have is not counted.";

function windowWords({ stations, behind }: TaskWindow, onFloor: number): string {
  if (stations.length === 0 && behind === null) return "no station";
  const floor = stations.length === onFloor && onFloor > 0 ? "the whole floor" : stations.join(", ");
  if (behind === null) return floor;
  return `${floor === "" ? "" : `${floor}, `}${behind} and later`;
}
