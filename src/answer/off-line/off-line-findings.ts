import { type BenchJob, isByModel } from "../../benches/bench-job.js";
import { unitsKept } from "../../benches/bench-machines.js";
import { lineBeside } from "../../benches/bench-of-plan.js";
import { MOST_BLOCKS } from "../../benches/every-block.js";
import type { BenchFigures } from "../../benches/measure-bench.js";
import type { Hindrance } from "../../benches/why-not.js";
import { countOf } from "../../findings/count-of.js";
import { type Finding, finding } from "../../findings/finding.js";
import { listOf } from "../../findings/list-of.js";
import type { Line } from "../../line/line.js";
import { findSlowingWaits } from "../../plan/check/check-waits.js";
import { hindranceWords } from "../../report/words/hindrance-words.js";
import { whyWords } from "../../report/words/obstacle-words.js";
import type { Pace } from "../../time/pace.js";
import { compare, ONE } from "../../time/ratio.js";
import type { AskedBlock, OffLineAnswer } from "./off-line-answer.js";
import type { OffLinePlan } from "./plan-with-benches.js";

/** How far the answer goes: what was cut, stopped, or guessed. */
export function findOffLineNotes(
  line: Line,
  seen: {
    readonly isGuess: boolean;
    readonly isWhole: boolean;
    readonly leftOut: number;
    readonly setsEnded: "whole" | "limits" | "stopped";
  },
): Finding[] {
  const warn = (rule: string, message: string) =>
    finding({ rule, severity: "warning", message, file: line.file });
  const notes: Finding[] = [];
  if (seen.isGuess) {
    const message =
      "no task says `on-base: true`, so nobody knows what is built on the base unit: blocks are guesses, those of less than half of the work content";
    notes.push(warn("blocks-are-guesses", message));
  }
  if (!seen.isWhole) {
    const mark = seen.isGuess ? "mark the base unit with `on-base: true`, or " : "";
    const message = `there are more than the ${MOST_BLOCKS} blocks that are looked at; ${mark}ask for tasks with --blocks`;
    notes.push(warn("blocks-cut", message));
  }
  if (seen.leftOut > 0) {
    const message = `stopped: ${countOf(seen.leftOut, "block")} ${seen.leftOut === 1 ? "was" : "were"} not balanced again, only bounded`;
    notes.push(warn("blocks-left-out", message));
  }
  if (seen.setsEnded !== "whole") {
    const why = seen.setsEnded === "stopped" ? "stopped" : "too many choices to look at all of them";
    notes.push(warn("sets-not-whole", `${why}: the sets shown are the best found, not proved best`));
  }
  return notes;
}

/** Waits that hold up a line that moves together: of the whole line, of what blocks asked for leave of it, and of how many others. */
export function findSlowed(
  line: Line,
  pace: Pace,
  before: OffLinePlan,
  choices: Pick<OffLineAnswer, "asked" | "stated" | "together" | "blocks">,
): Finding[] {
  const slowed = ({ plan }: OffLinePlan) =>
    plan === null ? [] : findSlowingWaits(lineBeside(line, plan), pace, plan);
  const told = (where: string, of: OffLinePlan) =>
    slowed(of).map((each) => ({ ...each, message: `${where}: ${each.message}` }));
  const asked = (choices.asked ?? choices.stated ?? []).flatMap(({ rated }) => {
    if (!rated?.plan) return [];
    const tasks = rated.bench.tasks.map((task) => line.tasks[task]!.id);
    return told(`with ${rated.bench.id ?? listOf(tasks)} at a bench`, rated.plan);
  });
  const plans = (choices.blocks ?? []).flatMap(({ plan }) => plan ?? []);
  const count = plans.filter((plan) => slowed(plan).length > 0).length;
  const message = `${count} of ${countOf(plans.length, "block")} balanced again ${count === 1 ? "leaves" : "leave"} a line that a wait holds up; ask for one with --blocks`;
  return [
    ...told("with everything on the line", before),
    ...asked,
    ...(choices.together?.plan ? told("with all of them at benches", choices.together.plan) : []),
    ...(count === 0
      ? []
      : [finding({ rule: "wait-in-line", severity: "warning", message, file: line.file })]),
  ];
}

/** A warning where blocks asked for can go, but not at once: a task is built at one bench. */
export function findSharedTasks(line: Line, asked: readonly AskedBlock[]): Finding[] {
  const going = asked.flatMap(({ rated }) => (rated === null ? [] : [rated.bench.tasks]));
  const shared = line.tasks.flatMap(({ id }, task) =>
    going.filter((tasks) => tasks.includes(task)).length > 1 ? [id] : [],
  );
  if (shared.length === 0) return [];
  const are = shared.length === 1 ? "is" : "are";
  const message = `${shared.join(", ")} ${are} in several of these blocks, so they are told apart, not all of them together`;
  return [finding({ rule: "blocks-share-tasks", severity: "warning", message, file: line.file })];
}

/** An error for each block asked for that cannot go, a warning for each such bench of the file, and for a line that has no plan. */
export function findRefusals(
  line: Line,
  before: OffLinePlan,
  answers: readonly AskedBlock[],
  isAsked: boolean,
): Finding[] {
  const severity = isAsked ? "error" : "warning";
  const refused = answers.flatMap(({ id, verdict: { tasks, hindrances } }) =>
    hindrances.map((each) => refusalOf(line, { id, tasks }, each, severity)),
  );
  if (before.plan !== null) return refused;
  const none = before.outcome === "infeasible" ? "no balance" : "no balance was found";
  const message = `${none} with everything on the line${whyWords(line.unit, before.obstacles)}`;
  return [...refused, finding({ rule: "no-plan", severity: "warning", message, file: line.file })];
}

/** Why what is built at a bench, or asked for without one, may not leave the line. */
export function refusalOf(
  line: Line,
  { id, tasks }: Pick<BenchJob, "id" | "tasks">,
  hindrance: Hindrance,
  severity: Finding["severity"],
): Finding {
  const { place, id: task } = line.tasks[hindrance.arrow?.[1] ?? tasks[0]!]!;
  const names = id ?? tasks.map((each) => line.tasks[each]!.id).join(", ");
  const message = `${names}: ${hindranceWords(line, hindrance)}`;
  const fact = { kind: "cannot-go" } as const;
  return finding({ rule: "block-cannot-go", severity, message, file: line.file, place, task, fact });
}

/** What is worth knowing of a bench before it is set up. */
export function findBenchNotes(line: Line, bench: BenchFigures): Finding[] {
  const stated = line.benches.find(({ id }) => id === bench.id);
  const name = bench.id === null ? "this bench" : `bench ${bench.id}`;
  const warn = (rule: string, message: string) =>
    finding({
      rule,
      severity: "warning",
      message: `${name}: ${message}`,
      file: line.file,
      place: stated?.place ?? null,
    });
  return [
    ...hoursNotes(bench).map((message) => warn("bench-hours", message)),
    ...shareNotes(line, bench).map((message) => warn("share-counted-twice", message)),
    ...spaceNotes(bench).map((message) => warn("bench-space", message)),
    ...equipmentNotes(line, bench).map((message) => warn("bench-equipment", message)),
    ...placeNotes(line, bench).map((message) => warn("bench-place", message)),
    ...testNotes(line, bench).map((message) => warn("test-sends-to-bench", message)),
  ];
}

function hoursNotes({ terms, hours }: BenchFigures): string[] {
  return terms.shifts === null || hours.shifts !== null
    ? []
    : ["shifts are not honoured without a calendar and its pace; it works when the line works"];
}

function shareNotes(line: Line, { tasks, terms }: BenchFigures): string[] {
  if (!isByModel(line, tasks) || compare(terms.share, ONE) === 0) return [];
  return ["times by model say already which units carry the parts; `share` is set aside"];
}

function spaceNotes({ terms, stock }: BenchFigures): string[] {
  if (terms.space === null || (stock.units ?? 0) <= terms.space) return [];
  return [
    `there is room for the parts of ${countOf(terms.space, "unit")}, and a stock of ${stock.units} is needed`,
  ];
}

/** Counted equipment of which the bench alone would need more than exists. */
function equipmentNotes(line: Line, bench: BenchFigures): string[] {
  return [...line.equipment].flatMap(([name, count]) => {
    const needed = unitsKept(line, bench, name);
    return needed > count ? [`needs ${needed} x ${name}, of which ${count} exist`] : [];
  });
}

/** What its tasks find where they stand on the floor today, and a bench does not have by itself. */
function placeNotes(line: Line, { tasks }: BenchFigures): string[] {
  const own = tasks.map((task) => line.tasks[task]!);
  const equipment = [...new Set(own.flatMap((task) => task.equipment))].flatMap((name) => {
    const at = line.floor.filter((station) => station.equipment.includes(name)).map(({ id }) => id);
    const users = own.filter((task) => task.equipment.includes(name)).map(({ id }) => id);
    if (at.length === 0) return [];
    const verb = users.length === 1 ? "uses" : "use";
    return [
      `${users.join(", ")} ${verb} the ${name}, which stands at ${at.join(", ")}; it moves to the bench, or the bench has one of its own`,
    ];
  });
  const zones = line.floor.some(({ zone }) => zone !== null) ? own.flatMap(({ zone }) => zone ?? []) : [];
  const named = [...new Set(zones)].map((zone) => {
    const there = own.filter((task) => task.zone === zone).map(({ id }) => id);
    return `${there.join(", ")} ${there.length === 1 ? "belongs" : "belong"} to zone ${zone}, so the bench stands there`;
  });
  return [...equipment, ...named];
}

function testNotes(line: Line, { tasks }: BenchFigures): string[] {
  return line.tasks.flatMap(({ id, test }, at) => {
    if (test?.failures !== "repaired" || tasks.includes(at) || !tasks.includes(test.returnTo)) return [];
    return [`${id} sends failures back to ${line.tasks[test.returnTo]!.id}, which is then at the bench`];
  });
}
