import type { ChangeSum } from "../../answer/rebalance/change-sum.js";
import type { StationNeeds, Step, StepSpread, Steps } from "../../answer/rebalance/steps.js";
import type { WayThere } from "../../answer/rebalance/way-there.js";
import { countOf, countPeople } from "../../findings/count-of.js";
import { eitherOf, listOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import type { Ratio } from "../../time/ratio.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { signOf } from "../../time/show-numbers.js";
import { decimal, longTimeOfHours } from "../../time/show-values.js";
import { taskCautions } from "../cautions.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { formatTable } from "./table.js";

/** What a change costs and gains, in one sentence. */
export function changeSumText({ change }: WayThere, look: Look): string {
  if (change === null) return "";
  const parts = [
    peopleWords(change),
    countOf(change.moves, "move"),
    trainingWords(change),
    outputWords(change),
  ];
  return paragraph(`${parts.filter((part) => part !== "").join("; ")}.`, look);
}

function peopleWords({ peopleBefore, peopleAfter, peopleAtMost }: ChangeSum): string {
  const people =
    peopleAfter === peopleBefore
      ? `${countPeople(peopleAfter)} as before`
      : `${countPeople(peopleAfter)} in place of ${peopleBefore}`;
  return peopleAtMost > Math.max(peopleBefore, peopleAfter)
    ? `${people}, ${peopleAtMost} on the way`
    : people;
}

function trainingWords({ trainingHours, tasksWithoutTraining: { length } }: ChangeSum): string {
  if (trainingHours === null) return "";
  const silent = `not given for ${countOf(length, "task")}`;
  if (length > 0 && signOf(trainingHours) === 0) return `training ${silent}`;
  return `${longTimeOfHours(trainingHours)} of training${length === 0 ? "" : ` (${silent})`}`;
}

function outputWords({ outputBefore, outputDuring, outputAfter, outputPer }: ChangeSum): string {
  if (outputAfter === null) return "";
  const units = `good units a ${outputPer}`.replace("a hour", "an hour");
  const after = decimal(outputAfter, 2);
  if (outputBefore === null || outputDuring === null) return `${after} ${units} afterwards`;
  return `${units} ${decimal(outputBefore, 2)} before, ${decimal(outputDuring, 2)} during and ${after} after it`;
}

/** The steps of a change, with the days they are spread over. */
export function stepsText(
  { line, pace }: { readonly line: Line; readonly pace: { readonly lineCycle: Ratio } },
  { steps, change, spread }: WayThere,
  look: Look,
): string {
  if (steps === null) return spread === null ? "" : paragraph("Nothing moves, so there is no step.", look);
  return [
    paragraph(`${countWords(steps)} ${paceWords(line, pace.lineCycle, steps, change)}`, look),
    spread === null ? "" : paragraph(daysWords(steps, spread), look),
    stepTable(line, steps, spread, look),
    paragraph(faultWords(steps), look),
    paragraph(nameWords(steps), look),
    paragraph(
      `The line file names no ${line.tasks.some(({ parts }) => parts.length > 0) ? "" : "parts and no "}hand tools: take those of a task along with it.`,
      look,
    ),
  ].join("");
}

function countWords({ steps, isProved }: Steps): string {
  const count = countOf(steps.length, "step");
  const numbers = steps.flatMap(({ moves, setUps }, at) =>
    moves.length + setUps.length > 1 ? [at + 1] : [],
  );
  if (numbers.length === 0) {
    const moves = steps.flatMap((step) => step.moves);
    const kinds = [
      ...(moves.some(({ from }) => from !== null) ? ["one move"] : []),
      ...(moves.some(({ from }) => from === null) ? ["one new task"] : []),
      ...(steps.some(({ setUps }) => setUps.length > 0) ? ["one station set up otherwise"] : []),
    ];
    const what = eitherOf(kinds);
    return steps.length === 1 ? `${count} with ${what}.` : `${count} with ${what} each.`;
  }
  const where = `${numbers.length === 1 ? "step" : "steps"} ${listOf(numbers.map(String))}`;
  const known = isProved ? "Proved: no order has more steps." : "Smaller steps were not found.";
  return `${count}. The moves of ${where} are made together: one by one they would break a rule or the pace. ${known}`;
}

function paceWords(line: Line, lineCycle: Ratio, steps: Steps, change: ChangeSum | null): string {
  const show = showTimesIn(line.unit);
  const { keeps, keepsNew, newPaceFrom } = steps;
  if (keepsNew) return `Each step keeps the new pace, ${show(lineCycle)} a unit.`;
  const from =
    newPaceFrom === steps.steps.length
      ? "the new pace is kept after the last step"
      : `the new pace is kept from step ${newPaceFrom} on`;
  const output = change?.outputDuring ?? null;
  const made =
    output === null || change === null
      ? ""
      : ` Until then the line makes at least ${decimal(output, 2)} good units ${change.outputPer === "hour" ? "an" : "a"} ${change.outputPer}, as today.`;
  return `Each step keeps ${show(keeps)} a unit, as today's plan does; ${from}.${made}`;
}

function daysWords({ steps }: Steps, { asked, days }: StepSpread): string {
  if (asked <= days.length) return `Spread over ${countOf(days.length, "day")}.`;
  return `The change has ${countOf(steps.length, "step")}, so it takes ${countOf(days.length, "day")}, not ${asked}.`;
}

function stepTable(line: Line, { steps }: Steps, spread: StepSpread | null, look: Look): string {
  const show = showTimesIn(line.unit);
  const rows = steps.flatMap((step, at) => {
    const day = spread?.days.findIndex(({ first }) => first === at + 1) ?? -1;
    return stepRows(line, step).map((words, row) => [
      ...(spread === null ? [] : [row === 0 && day >= 0 ? String(day + 1) : ""]),
      row === 0 ? String(at + 1) : "",
      ...words,
      row === 0 ? show(step.cycle) : "",
      row === 0 ? (step.keepsNewPace ? "yes" : "not yet") : "",
    ]);
  });
  return formatTable(
    [
      ...(spread === null ? [] : [{ head: "day" }]),
      { head: "step" },
      { head: "" },
      { head: "what is done", wraps: true, narrowest: 12 },
      { head: "cycle after", align: "right", breaks: true },
      { head: "new pace", breaks: true },
    ],
    rows,
    look.width,
  );
}

/** Pairs of what and which, a row each. */
function stepRows(line: Line, { moves, setUps, bring, takeAway }: Step): [string, string][] {
  const name = (task: number) => visibleText(line.tasks[task]!.id);
  const moved = moves.map(({ task, from, to }): [string, string] =>
    from === null
      ? ["start", `${name(task)} at ${visibleText(to)} (new work)`]
      : ["move", `${name(task)} from ${visibleText(from)} to ${visibleText(to)}`],
  );
  const setUp = setUps.map(({ station, placesBefore, placesAfter }): [string, string] => [
    "set up",
    placesBefore === placesAfter
      ? `${visibleText(station)} for other sides of its tasks`
      : `${visibleText(station)} with ${countOf(placesAfter, "workplace")} in place of ${placesBefore}`,
  ]);
  const cautions = moves.flatMap(({ task }): [string, string][] => {
    const words = taskCautions(line.tasks[task]!);
    return words.length === 0 ? [] : [["caution", `${name(task)}: ${words.map(visibleText).join("; ")}`]];
  });
  const first = bring.map((needs): [string, string] => [
    "first",
    `${visibleText(needs.station)} gets ${needsWords(needs)}`,
  ]);
  const then = takeAway.map((needs): [string, string] => [
    "then",
    `${visibleText(needs.station)} no longer needs ${needsWords(needs)}`,
  ]);
  return [...first, ...moved, ...setUp, ...then, ...cautions];
}

function needsWords({ equipment, parts, skills, people, room }: StationNeeds): string {
  return listOf([
    ...equipment.map(visibleText),
    ...parts.map((part) => `part ${visibleText(part)}`),
    ...(people === 0 ? [] : [countPeople(people)]),
    ...skills.map((skill) => `the skill ${visibleText(skill)}`),
    ...room.map(
      ({ limit, amount, unit }) => `${decimal(amount, 3)} ${visibleText(unit)} of ${visibleText(limit)}`,
    ),
  ]);
}

function nameWords({ renamed }: Steps): string {
  if (renamed.length === 0) return "";
  return `After the last step ${listOf(renamed.map(({ before, after }) => `${before} is called ${after}`))}.`;
}

/** What is wrong with today's plan and stays so for a while. */
function faultWords({ steps }: Steps): string {
  const last = steps.findLastIndex(({ faults }) => faults.length > 0);
  if (last < 0) return "";
  const faults = [...new Set(steps.flatMap((step) => step.faults))];
  return `As in today's plan until step ${last + 2}: ${faults.join("; ")}.`;
}
