import type { AnswerBound, BalanceAnswer, BoundReason } from "../../answer/balance/balance-answer.js";
import { countOf, countPeople } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import type { Line } from "../../line/line.js";
import type {
  BoundFacts,
  ChainFacts,
  LargeTasksFacts,
  PackingFacts,
  StepFacts,
  ThirdsFacts,
  TimedTask,
  WorkFacts,
} from "../../solve/explain/bound-facts.js";
import type { AtOnce, CycleReason } from "../../solve/explain/cycle-facts.js";
import type { Ratio } from "../../time/ratio.js";
import { type ShowTime, showTimesIn } from "../../time/show-in-unit.js";
import { signOf } from "../../time/show-numbers.js";
import { beforeRounding, percent } from "../../time/show-values.js";
import { existWords } from "./obstacle-words.js";

/** Why nothing less is possible, without a full stop; where the work content would need fewer stations, that too. */
export function becauseWords(
  { line, gap }: Pick<BalanceAnswer, "line" | "gap">,
  { reason }: AnswerBound,
): string {
  const more = gap === null ? "" : `. The work content alone would fill only ${gap}`;
  return `${reasonWords(line, reason)}${more}`;
}

/** Why no plan has fewer people or stations, or a shorter cycle where the number of stations is given. */
export function reasonWords(line: Line, reason: BoundReason): string {
  switch (reason.kind) {
    case "by-time":
      return `${boundWords(line, reason.bound)}${reason.leavesOut ? ". The rules of the line can only add to that" : ""}`;
    case "ruled-out":
      return `every plan with fewer was ruled out, ${inPlans(reason.nodes)}`;
    case "zones": {
      const each = reason.zones.map(({ zone, stations }) => `${zone} ${stations}`).join(", ");
      return `no station holds work of two zones, and by time and precedence alone each zone needs stations of its own: ${each}`;
    }
    case "people":
      return peopleWords(line, reason);
    case "cycle":
      return cycleReasonWords(line, reason.cycle);
  }
}

/** The sums behind it, a sentence each; none where the reason says all. */
export function reasonStepWords(line: Line, reason: BoundReason): string[] {
  if (reason.kind === "by-time") return boundStepWords(line, reason.bound);
  return [];
}

function peopleWords(line: Line, reason: Extract<BoundReason, { kind: "people" }>): string {
  const { work, perPerson, share, countsSeveral, isEnough, people, team, stations } = reason;
  const show = showTimesIn(line.unit);
  const ofStations = stations === null ? "" : `. For the stations: ${stationsWords(line, stations)}`;
  if (team !== null) return `${team.task} needs ${countPeople(people)} at once${ofStations}`;
  const counted = countsSeveral ? ", tasks of several people counted for each," : "";
  const sum = `${show(work)} of work${counted} / ${show(perPerson)} a person = ${beforeRounding(share)}, rounded up`;
  return `${sum}${isEnough ? "" : wholeWords(people)}${ofStations}`;
}

const wholeWords = (count: number): string =>
  `. Indivisible tasks and the rules of the floor make it ${count}`;

/** Why the work needs so many stations, however many people stand at each. */
function stationsWords(
  line: Line,
  reason: NonNullable<Extract<BoundReason, { kind: "people" }>["stations"]>,
): string {
  if (reason.kind === "by-time") return boundWords(line, reason.bound);
  const { work, limit, atOnce, share, isEnough, least } = reason;
  const show = showTimesIn(line.unit);
  const sum = `${show(work)} of work / ${show(limit)} a station${atOnceWords(atOnce)} = ${beforeRounding(share)}, rounded up`;
  return `${sum}${isEnough ? "" : wholeWords(least)}`;
}

/** " with both sides", " with 2 people". */
function atOnceWords(atOnce: AtOnce | null): string {
  if (atOnce === null) return "";
  return atOnce.by === "sides" ? " with both sides" : ` with ${atOnce.people} people`;
}

/** How much was looked at to rule something out. */
export function inPlans(nodes: number): string {
  if (nodes === 0) return "by bounds alone";
  return `after examining ${countOf(nodes, "partial plan")}`;
}

/** Why no balance has fewer stations, by time and precedence alone. */
export function boundWords(line: Line, bound: BoundFacts): string {
  const words = new Words(line);
  switch (bound.kind) {
    case "work-content":
      return words.work(bound);
    case "large-tasks":
      return words.largeTasks(bound);
    case "thirds":
      return words.thirds(bound);
    case "bin-packing":
      return words.packing(bound);
    case "chain":
      return words.chain(bound);
    case "search":
      return `every way to fill ${bound.stations - 1} stations was ruled out, ${inPlans(bound.nodes)}`;
  }
}

/** The sums behind a bound that rests on sums of its own, a sentence each; none where the reason says all, as it says the last of either side. */
export function boundStepWords(line: Line, bound: BoundFacts): string[] {
  if (bound.kind !== "chain") return [];
  const words = new Words(line);
  return [
    ...bound.before.slice(0, -1).map((step) => words.step(step, "before")),
    ...bound.after.slice(0, -1).map((step) => words.step(step, "after")),
  ];
}

/** Why no plan with as many stations has a shorter cycle. */
export function cycleReasonWords(line: Line, reason: CycleReason): string {
  const show = showTimesIn(line.unit);
  // Where station times lie closer together than what is shown, a number would contradict the one before it.
  const shorter = ({ shorter: time, least }: { readonly shorter: Ratio; readonly least: Ratio }) =>
    show(time) === show(least) ? "anything shorter" : `${show(time)} (the next shorter station time)`;
  switch (reason.kind) {
    case "longest-task":
      return `${line.tasks[reason.task.task]!.id} alone takes ${show(reason.task.time)}`;
    case "work-content": {
      const { workContent, stations, share, least } = reason;
      const next =
        show(share) === show(least) ? "" : `. The next station time from there on is ${show(least)}`;
      return `${show(workContent)} of work / ${countOf(stations, "station")} = ${show(share)} a station${next}`;
    }
    case "stations":
      return `at ${shorter(reason)}, ${reason.bound.stations} stations are needed: ${boundWords(line, reason.bound)}`;
    case "search":
      return `every way to keep ${countOf(reason.stations, "station")} at ${shorter(reason)} was ruled out, ${inPlans(reason.nodes)}`;
    case "rules-search":
      return `every shorter cycle was ruled out, ${inPlans(reason.nodes)}`;
    case "work-of-people":
      return "the work content shared among as many people, and the longest task, allow nothing shorter";
    case "model":
      return modelCycleWords(line, reason, show);
    case "machine": {
      const { equipment, busy, count } = reason;
      return `${equipment} is loaded and runs ${show(busy)} for a unit, and ${existWords(count)}`;
    }
  }
}

function modelCycleWords(
  line: Line,
  reason: Extract<CycleReason, { kind: "model" }>,
  show: ShowTime,
): string {
  const { model, time, of, atOnce, overload } = reason;
  const above =
    signOf(overload) === 0
      ? "may not be above the working time"
      : `may be ${percent(overload, 4)} above the working time`;
  const together = atOnceWords(atOnce);
  const where =
    "tasks" in of
      ? ` for ${of.tasks.map((task) => line.tasks[task]!.id).join(" + ")}${together}`
      : of.stations === 1 && atOnce === null
        ? ""
        : ` at ${countOf(of.stations, "station")}${together}`;
  return `${line.models[model]!.id} takes ${show(time)}${where}, and ${above}`;
}

/** The sums behind it, where it rests on sums of its own. */
export const cycleStepWords = (line: Line, reason: CycleReason): string[] =>
  reason.kind === "stations" ? boundStepWords(line, reason.bound) : [];

/** More names than this make a sentence unreadable; the rest is counted. */
const NAMES = 24;

type Side = "before" | "after";

class Words {
  private readonly show: ShowTime;

  constructor(private readonly line: Line) {
    this.show = showTimesIn(line.unit);
  }

  work({ workContent, limit, share, cut }: WorkFacts): string {
    const counted = `, ${countOf(cut, "task")} over the limit counted as ${cut === 1 ? "a full station" : "full stations"},`;
    return `${this.show(workContent)} of work${cut > 0 ? counted : ""} / ${this.show(limit)} a station = ${beforeRounding(share)}, rounded up`;
  }

  largeTasks({ limit, overHalf, exactlyHalf }: LargeTasksFacts): string {
    const over = this.overHalf(overHalf, this.show(limit));
    if (exactlyHalf.length === 0) return over;
    const half = `at most two of ${this.names(exactlyHalf)}, each exactly half of ${this.show(limit)}, share a station`;
    if (overHalf.length === 0) return half;
    if (exactlyHalf.length > 1) return `${over}; and ${half}, with none of those`;
    return `${over}; and ${this.names(exactlyHalf)}, exactly half of it, fits beside none of those`;
  }

  thirds(bound: ThirdsFacts): string {
    const parts: [readonly TimedTask[], string][] = [
      [bound.overTwoThirds, "over two thirds, so beside none of the others (6 sixths each)"],
      [bound.exactlyTwoThirds, "exactly two thirds (4 sixths each)"],
      [bound.betweenThirds, "between one and two thirds, at most two together (3 sixths each)"],
      [bound.exactlyOneThird, "exactly one third (2 sixths each)"],
    ];
    const list = parts
      .filter(([tasks]) => tasks.length > 0)
      .map(([tasks, what]) => `${this.names(tasks)}: ${what}`)
      .join("; ");
    const stations = beforeRounding(bound.share);
    return `tasks of a third of ${this.show(bound.limit)} and more take ${bound.sixths} sixths of a station together, ${stations} stations, rounded up (${list})`;
  }

  packing({
    limit,
    stations,
    threshold,
    alone,
    overHalf,
    filling,
    fillingWork,
    room,
    rest,
  }: PackingFacts): string {
    const whole = this.show(limit);
    if (filling.length === 0) return this.overHalf([...alone, ...overHalf], whole);
    const needed = this.show(fillingWork);
    const work =
      filling.length === 1
        ? `${this.names(filling)} needs ${needed}`
        : `${filling.length} tasks of ${this.show(threshold)} and more, up to half of it, need ${needed}: ${this.names(filling)}`;
    const over = alone.length + overHalf.length;
    if (over === 0) return `of ${whole} a station, ${work}`;
    const full = alone.length === 0 ? "" : ` (beside ${this.names(alone)} none of them fits)`;
    const more = countOf(stations - over, "station");
    const beside = `At most ${this.show(room)} of that fits${full}, and the other ${this.show(rest)} takes ${more} more`;
    return `${countOf(over, "task")} over half of ${whole} ${over === 1 ? "needs a station" : "need a station each"}. Beside them, ${work}. ${beside}`;
  }

  /** Why so many stations lie on either side of a task. */
  chain(bound: ChainFacts): string {
    const { task, stationsBefore, stationsAfter } = bound;
    const own = this.names(task === null ? [] : [task]);
    const on = (stations: number, side: Side) =>
      stations === 0 ? "" : `${countOf(stations, "station")} must lie ${side} that of ${own}`;
    const [before, after] = [on(stationsBefore, "before"), on(stationsAfter, "after")];
    const both = `${before} and ${stationsAfter} after it`;
    const around = `counted along the order of work, ${before !== "" && after !== "" ? both : before || after || `${own} takes a station`}`;
    const sides = [
      ...(stationsBefore > 0 ? [this.side(bound.before.at(-1)!, "before", bound)] : []),
      ...(stationsAfter > 0 ? [this.side(bound.after.at(-1)!, "after", bound)] : []),
    ];
    return [around, ...sides].join(". ");
  }

  step(step: StepFacts, side: Side): string {
    const why = step.by === "packing" ? this.packed(step, side) : this.worked(step, side);
    return `At least ${this.show(step.lies)} ${side} ${this.names([step.task])}: ${why}.`;
  }

  private side(step: StepFacts, side: Side, { limit }: ChainFacts): string {
    if (step.by === "packing") return this.packed(step, side).replace("task", "Task");
    const comes = step.tasks.length === 1 ? "comes" : "come";
    return `${side === "before" ? "Before" : "After"} it ${comes} ${this.worked(step, side)}. With its own ${this.show(step.task.time)} that is ${beforeRounding(step.share)} stations of ${this.show(limit)}, rounded up, its own among them`;
  }

  private packed({ task, packing }: StepFacts & { by: "packing" }, side: Side): string {
    const own = this.line.tasks[task.task]!.id;
    return `task ${own} and what comes ${side} it need ${countOf(packing.stations, "station")}, its own among them, as ${this.packing(packing)}`;
  }

  /** The sum of a step: work, what lies beyond it, and the rest of a station that is no use. */
  private worked(step: StepFacts & { by: "work" }, side: Side): string {
    const { show } = this;
    const isOne = step.tasks.length === 1;
    const together = isOne ? "" : `, ${show(step.work)} together`;
    const beyond =
      step.beyond === null
        ? ""
        : ` and at least ${show(step.beyond)} ${side} ${isOne ? "that" : "each of these"}`;
    const full =
      step.begun === null
        ? ""
        : `, counted as ${show(step.lies)}, since its own ${show(step.task.time)} does not fit beside ${show(step.begun)}`;
    return `${this.names(step.tasks)}${together}${beyond}${full}`;
  }

  /** No two of these tasks share a station. */
  private overHalf(tasks: readonly TimedTask[], limit: string): string {
    return tasks.length === 1
      ? `${this.names(tasks)} takes over half of ${limit}`
      : `no two of ${tasks.length} tasks fit together, each over half of ${limit}: ${this.names(tasks)}`;
  }

  private names(tasks: readonly TimedTask[]): string {
    const shown = tasks.slice(0, NAMES).map(({ task, time }) => {
      return `${this.line.tasks[task]!.id} (${this.show(time)})`;
    });
    const rest = tasks.length - shown.length;
    if (shown.length === 0) return "none";
    return rest > 0 ? `${shown.join(", ")} and ${rest} more` : listOf(shown);
  }
}
