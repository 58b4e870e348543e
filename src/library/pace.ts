import { type FoundPace, type FoundTakt, noPace, paceByCycle, paceByDemand } from "../answer/set-pace.js";
import type { Line as InnerLine } from "../line/line.js";
import { readDemand } from "../time/demand.js";
import { refuseTogether, textIfGiven, timeOption } from "./usage-error.js";

/** What gives the pace in place of the line file. */
export interface DemandOptions {
  /** Good units wanted, such as "176 per day". */
  readonly demand?: string;
  /** A line cycle of your own, such as "60 s", which is the station limit too; demand, calendar, uptime, yield, handling and plan-to are set aside. */
  readonly cycle?: string;
}

export const PACE_OPTIONS = ["demand", "cycle"] as const;

/** The takt of a line at a demand of its own or at this one. */
export function taktFor(line: InnerLine, demandText: string | undefined, otherWay = ""): FoundTakt {
  const demand = textIfGiven("demand", demandText, readDemand) ?? line.demand;
  if (demand !== null) return paceByDemand(line, demand);
  return noPace(line, `nothing gives the pace: put \`demand:\` in ${line.file}, or give a demand${otherWay}`);
}

/** The pace of a line; a line that has none is told by a finding. */
export function paceFor(line: InnerLine, { demand, cycle }: DemandOptions): FoundPace {
  refuseTogether(["demand", demand], ["cycle", cycle]);
  if (cycle !== undefined) return paceByCycle(line, timeOption("cycle", cycle, line.unit));
  const found = taktFor(line, demand, " or a line cycle");
  return found.ok ? { ...found, pace: found.takt.pace } : found;
}
