import type { NoWay } from "../../answer/staff/staff-answer.js";
import { longTime, toMinutes } from "../../time/show-values.js";

/** Why a way to make a demand cannot be gone. */
export function noWayWords(reason: NoWay): string {
  switch (reason.kind) {
    case "shifts-longer-than-day":
      return `${reason.shifts} x ${longTime(reason.each)} is more than the 24 h of a day`;
    case "hours-longer-than-day":
      return `that would be ${toMinutes(reason.day)} with breaks, more than the 24 h of a day`;
    case "no-plan":
      return reason.isProved
        ? "no plan keeps this pace"
        : "none found that keeps this pace; --nodes looks further";
    case "no-pace":
      return reason.problem;
  }
}
