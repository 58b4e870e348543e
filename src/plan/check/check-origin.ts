import { quoted } from "../../time/quoted.js";
import { compare, divide, multiply, type Ratio, ratio, subtract, toDecimal, ZERO } from "../../time/ratio.js";
import { percent, seconds } from "../../time/show-values.js";
import type { MadeFor } from "../file/read-plan.js";
import type { CheckSubject } from "./check-subject.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** Whether the plan is for this line file, and for its times and pace as they are now. */
export function checkOrigin(subject: CheckSubject): PlanFinding[] {
  return [...checkLineFile(subject), ...checkMadeFor(subject)];
}

function checkLineFile({ reading, lineFile }: CheckSubject): PlanFinding[] {
  const named = reading.lineFile;
  if (named === null || lineFile === null || plainPath(named) === lineFile) return [];
  const message = `the plan is for ${quoted(named)}, and is checked against ${quoted(lineFile)}`;
  const { file, places } = reading;
  return [planFinding({ rule: "other-line", severity: "warning", message, file, place: places.line })];
}

/** Without `./` and doubled slashes, and with slashes forward. */
function plainPath(path: string): string {
  const parts = path.replaceAll("\\", "/").split("/");
  return parts.filter((part, at) => part !== "." && (part !== "" || at === 0)).join("/");
}

function checkMadeFor({ pace, reading, fingerprints }: CheckSubject): PlanFinding[] {
  const { file, madeFor } = reading;
  const place = madeFor?.place ?? null;
  const isOther =
    madeFor !== null && madeFor.fingerprint !== null && !fingerprints.includes(madeFor.fingerprint);
  const times = isOther
    ? [
        planFinding({
          rule: "other-times",
          severity: "warning",
          message: "the plan was made for other times, precedences or rules than the line has now",
          file,
          place,
        }),
      ]
    : [];
  const was = madeFor?.lineCycle ?? null;
  const moved =
    was !== null && thousandths(ratio(was)) !== thousandths(pace.lineCycle)
      ? [
          planFinding({
            rule: "other-pace",
            severity: "warning",
            message: `the line cycle was ${seconds(was)} when the plan was made, and is ${seconds(pace.lineCycle)} now${changeWords(ratio(was), pace.lineCycle)}`,
            file,
            place,
          }),
        ]
      : [];
  const unknown = unknownWords(madeFor);
  const note =
    unknown === null
      ? []
      : [planFinding({ rule: "made-for", severity: "note", message: unknown, file, place })];
  return [...times, ...moved, ...note];
}

/** As a plan file is written. */
const thousandths = (micros: Ratio): string => toDecimal(multiply(micros, ratio(1, 1_000_000)), 3);

function changeWords(was: Ratio, now: Ratio): string {
  if (compare(was, ZERO) <= 0) return "";
  const change = divide(subtract(now, was), was);
  const size = compare(change, ZERO) < 0 ? subtract(ZERO, change) : change;
  const shown = percent(size) === "0 %" ? percent(size, 4) : percent(size);
  return `: ${shown} ${compare(change, ZERO) < 0 ? "shorter" : "longer"}`;
}

function unknownWords(madeFor: MadeFor | null): string | null {
  const [times, pace] = [madeFor?.fingerprint ?? null, madeFor?.lineCycle ?? null];
  const since = (what: string) =>
    `cannot tell whether ${what} changed since the plan was made: it does not say`;
  if (times === null && pace === null) return `${since("times or demand have")} what it was made for`;
  if (times === null)
    return `${since("times, precedences or rules have")} which it was made for (no fingerprint)`;
  return pace === null ? `${since("the pace has")} which it was made for (no line-cycle)` : null;
}
