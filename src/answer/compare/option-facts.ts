import { type Finding, finding, tells } from "../../findings/finding.js";
import { type ShiftOutput, shiftTime } from "../../plan/figures/output.js";
import { type ShownBalance, shownBalance } from "../balance/shown-balance.js";
import { outputByShift, outputPerDay, slowestPost } from "./figures.js";
import type { OptionAnswer } from "./option-answer.js";
import { type Payback, paybackOf } from "./payback.js";
import { type Unmarked, unmarkedOf } from "./rows.js";
import { type Shortfall, shortfallOf } from "./shortfall.js";
import { obstacleOf } from "./verdict.js";

/** What reports show of an option beside its rows. */
export interface OptionFacts {
  /** The balance of what stays on the line; null for whole units at tables. */
  readonly balance: ShownBalance | null;
  /** The station, bench or table that sets its slowest cycle; null without a plan. */
  readonly slowest: string | null;
  /** Why it is the best of no row; null where it may be. */
  readonly unmarked: Unmarked;
  readonly shortfall: Shortfall | null;
  /** Null where it costs nothing once. */
  readonly payback: Payback | null;
  /** Null without a calendar, and without a plan. */
  readonly outputByShift: readonly ShiftOutput[] | null;
  /** Findings that are told as notes beside the verdict. */
  readonly notes: readonly Finding[];
}

export function optionFacts(options: readonly OptionAnswer[]): OptionFacts[] {
  const unmarked = unmarkedOf(options);
  return options.map((option, at) => ({
    balance: option.balance && shownBalance(option.balance),
    slowest: slowestPost(option)?.id ?? null,
    unmarked: unmarked[at]!,
    shortfall: shortfallOf(option),
    payback: paybackOf(options[0]!, option),
    outputByShift: outputByShift(option),
    notes: notesOf(option),
  }));
}

function notesOf(option: OptionAnswer): Finding[] {
  const inVerdict = obstacleOf(option);
  return (
    option.findings
      // What leaves the line is what the options say, so that blocks nobody looked at are no news here.
      .filter((each) => !tells(each, "blocks-left-out") && each !== inVerdict)
      .filter((each) => each.severity !== "note" || tells(each, "shifts-differ") || tells(each, "pace-need"))
  );
}

/** Whether shifts have different available times, so that no figure holds for every one of them. */
export const shiftsDiffer = ({ asked: { line } }: OptionAnswer): boolean =>
  line.calendar !== null && shiftTime(line) === null;

/** With a note that the figures are those of a day, and the units of each shift by name, in place of one that they are missing. */
export function withShiftNotes(answer: OptionAnswer): OptionAnswer {
  const byShift = outputByShift(answer);
  if (!shiftsDiffer(answer) || byShift === null) return answer;
  const each = byShift.map(({ shift, units }) => `${shift} ${units}`).join(", ");
  const message = `the shifts differ in length, so figures are of a day; of ${outputPerDay(answer)} units a day they make: ${each}`;
  const { file } = answer.asked.line;
  const fact = { kind: "shifts-differ" } as const;
  const note = finding({ rule: "shifts-differ", severity: "note", message, file, fact });
  return {
    ...answer,
    findings: [...answer.findings.filter((found) => !tells(found, "shifts-differ")), note],
  };
}
