import { finding, tells } from "../../findings/finding.js";
import { shiftTime } from "../../plan/figures/output.js";
import { outputByShift, outputPerDay } from "./figures.js";
import type { OptionAnswer } from "./option-answer.js";

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
