import { type Finding, finding } from "../findings/finding.js";
import { type Line, type LineOption, withoutPlanTo } from "../line/line.js";
import { withoutShiftLimits } from "../line/parts/limits.js";
import type { Demand } from "../time/demand.js";
import type { Micros } from "../time/duration.js";
import { type Pace, paceFromCycle } from "../time/pace.js";
import { ONE } from "../time/ratio.js";
import { type TaktSum, taktSum } from "../time/takt.js";

/** What keeps a line from having a pace. */
interface NoPace {
  readonly ok: false;
  readonly fault: Finding;
}

/** A line at the demand asked for, and the sum that gives its pace. */
export type FoundTakt = { readonly ok: true; readonly line: Line; readonly takt: TaktSum } | NoPace;

/** The pace that a line is worked at; `takt` is null where the line cycle was given. */
export type FoundPace =
  | { readonly ok: true; readonly line: Line; readonly pace: Pace; readonly takt: TaktSum | null }
  | NoPace;

/** The line with this demand in place of its own. */
export function paceByDemand(line: Line, demand: Demand): FoundTakt {
  const asked = { ...line, demand };
  const takt = taktSum(asked);
  return takt.ok ? { ok: true, line: asked, takt: takt.value } : noPace(line, takt.problem);
}

/** Says that a line has no pace, and why. */
export const noPace = ({ file }: Line, message: string): NoPace => ({
  ok: false,
  fault: finding({ rule: "no-pace", severity: "error", message, file }),
});

/** The line at a line cycle of its own, above 0, which is the station limit too: all else that sets its pace is set aside. */
export function paceByCycle(line: Line, lineCycle: Micros): Extract<FoundPace, { ok: true }> {
  const paced = {
    ...withoutPlanTo(withoutShiftLimits(line)),
    demand: null,
    calendar: null,
    uptime: ONE,
    yield: ONE,
    handling: 0,
  };
  return { ok: true, line: paced, pace: paceFromCycle(lineCycle), takt: null };
}

/** What a user says of the pace, as text. */
export interface PaceAsked {
  readonly demand?: string;
  readonly cycle?: string;
}

/** Of the words of a user those that an option is worked at: one with a demand of its own keeps it. */
export function paceAskedOf(option: LineOption | null, { demand, cycle }: PaceAsked): PaceAsked {
  const own = demand === undefined || option?.demand != null ? {} : { demand };
  return cycle === undefined ? own : { cycle, ...own };
}

/** A fault of a line with an option, told at the option; that of a line as it is stays. */
export const faultAtOption = (fault: Finding, option: LineOption | null): Finding =>
  option === null
    ? fault
    : { ...fault, place: option.place, message: `option ${option.name}: ${fault.message}` };

/** Whether anything gives the pace: where nothing does, a simulated line runs without one. */
export const isPaceGiven = ({ demand }: Line, asked: PaceAsked): boolean =>
  demand !== null || asked.demand !== undefined || asked.cycle !== undefined;
