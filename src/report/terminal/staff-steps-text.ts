import stringWidth from "string-width";
import type { StaffAnswer } from "../../answer/staff/staff-answer.js";
import type { StaffStep } from "../../answer/staff/staff-steps.js";
import { countPeople } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import type { DemandRange } from "../../time/demand-range.js";
import type { Ratio } from "../../time/ratio.js";
import { columnOf, difference } from "../../time/show-numbers.js";
import { decimal } from "../../time/show-values.js";
import { paragraph } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { formatTable } from "./table.js";

/** Columns of the chart, where the width allows. */
const [NARROWEST, WIDEST] = [12, 72];
const SIGNS = { proved: "■", found: "□", infeasible: "·", stopped: "?" } as const;

/** Each number of people with the demands that it is the fewest for: a table, and a chart whose stairs go down to the right. */
export function staffStepsText({ steps, range, isCut }: StaffAnswer, look: Look): string {
  if (steps.length === 0) return "";
  const peopleCells = steps.map(({ people, skipped }) => `${people ?? "-"}${skipped.length > 0 ? " *" : ""}`);
  const demandCells = steps.map(demandsOf);
  const heads = ["people", `units per ${range.period}`] as const;
  const used = [
    [heads[0], ...peopleCells],
    [heads[1], ...demandCells],
  ].map((cells) => 2 + Math.max(...cells.map((each) => stringWidth(each))));
  const columns = Math.min(WIDEST, Math.max(NARROWEST, look.width - used[0]! - used[1]! - 2));
  const ends = [decimal(range.from, 6), decimal(range.to, 6)] as const;
  const axis = `${ends[0]}${" ".repeat(Math.max(1, columns - ends[0].length - ends[1].length))}${ends[1]}`;
  const paint = paintFor(look);
  const table = formatTable(
    [{ head: heads[0], align: "right" }, { head: heads[1] }, { head: axis }],
    steps.map((step, at) => {
      // Nothing is known of what was not reached: a stair then ends with the last demand looked at.
      const next = steps[at + 1]?.from ?? range.to;
      const end = isCut ? step.to : next;
      const isLast = isCut || at === steps.length - 1;
      return [peopleCells[at]!, demandCells[at]!, stair(step, end, isLast, range, columns)];
    }),
    look.width,
    (text, row) => (row < 0 ? paint.faint(text) : text),
  );
  return `${table}${legend(steps, look)}${skippedWords(steps, look)}${cutWords(steps, isCut, range, look)}`;
}

const demandsOf = ({ from, to }: StaffStep): string =>
  difference(from, to) === 0 ? decimal(from, 6) : `${decimal(from, 6)} to ${decimal(to, 6)}`;

function stair(
  { from, outcome }: StaffStep,
  to: Ratio,
  isLast: boolean,
  range: DemandRange,
  columns: number,
): string {
  const start = Math.min(columns - 1, columnOf(from, range.from, range.to, columns));
  const end = Math.min(columns, columnOf(to, range.from, range.to, columns) + (isLast ? 1 : 0));
  return `${" ".repeat(start)}${SIGNS[outcome].repeat(Math.max(1, end - start))}`;
}

function legend(steps: readonly StaffStep[], look: Look): string {
  const has = (outcome: StaffStep["outcome"]) => steps.some((step) => step.outcome === outcome);
  const words = [
    ...(has("proved") ? [`${SIGNS.proved} proved: no fewer people, and changes are exact`] : []),
    ...(has("found")
      ? [`${SIGNS.found} found: fewer people, or the same for more units, are not ruled out`]
      : []),
    ...(has("infeasible") ? [`${SIGNS.infeasible} no plan`] : []),
    ...(has("stopped") ? [`${SIGNS.stopped} no plan was found`] : []),
  ];
  return paragraph(words.join("; "), look);
}

function cutWords(steps: readonly StaffStep[], isCut: boolean, range: DemandRange, look: Look): string {
  if (!isCut) return "";
  const { to } = steps.at(-1)!;
  const beyond = `demands above ${decimal(to, 6)} per ${range.period} were not reached`;
  const between = "demands between those listed were not all looked at";
  return paragraph(`stopped: ${difference(to, range.to) < 0 ? beyond : between}`, look);
}

/** Crews that are never the fewest: the tasks do not divide so that they would make more. */
function skippedWords(steps: readonly StaffStep[], look: Look): string {
  return steps
    .map(({ skipped, outcome }, at) => {
      if (skipped.length === 0) return "";
      const before = steps[at - 1]!;
      const crews = countPeople(skipped.at(-1)!).replace(/^\d+/u, listOf(skipped.map(String)));
      const doubt = outcome === "proved" && before.outcome === "proved" ? "" : ", as far as was found";
      return paragraph(`* ${crews} make no more than ${before.people}${doubt}`, look);
    })
    .join("");
}
