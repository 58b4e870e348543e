import { Option } from "commander";
import { type FoundPace, type FoundTakt, paceByCycle, paceByDemand } from "../answer/set-pace.js";
import type { Line } from "../line/line.js";
import { limitsPerShift } from "../line/parts/limits.js";
import { readDemand } from "../time/demand.js";
import { readDuration } from "../time/duration.js";
import type { Reading } from "../time/reading.js";
import { UsageError } from "./context.js";
import { refuseTogether } from "./emit.js";

/** What gives a command its pace in place of the line file. */
export const cycleOption = (): Option =>
  new Option(
    "--cycle <time>",
    "a line cycle of your own, which is the station limit too, in place of the file's pace",
  );
export const demandOption = (): Option =>
  new Option("--demand <text>", 'good units wanted instead of the file\'s, such as "176 per day"');

/** Takt at the demand of the command line or else of the file. Throws a UsageError where neither is there or readable. */
export function findTakt(line: Line, demandText: string | undefined, otherWay = ""): FoundTakt {
  const demand = demandText === undefined ? line.demand : readOption("--demand", readDemand(demandText));
  if (demand === null) {
    const ways = `put \`demand:\` in ${line.file}, or give --demand "176 per day"${otherWay}`;
    throw new UsageError(`nothing gives the pace: ${ways}`);
  }
  return paceByDemand(line, demand);
}

/** `--cycle` gives the line cycle itself and sets the file's pace aside; `--demand` replaces the file's demand. */
export function findPace(line: Line, options: { cycle?: string; demand?: string }): FoundPace {
  refuseTogether(["--cycle", options.cycle], ["--demand", options.demand]);
  if (options.cycle === undefined) {
    const found = findTakt(line, options.demand, ' or --cycle "60 s"');
    return found.ok ? { ...found, pace: found.takt.pace } : found;
  }
  const lineCycle = readOption("--cycle", readDuration(options.cycle, line.unit));
  if (lineCycle <= 0) {
    throw new UsageError(`--cycle "${options.cycle}": a time above 0 is expected, such as 60 s`);
  }
  return paceByCycle(line, lineCycle);
}

/** What `--cycle` sets aside of a line as its file has it: the keys that set its pace, and limits per shift. */
export function keysSetAside(line: Line): string[] {
  return [...line.given, ...limitsPerShift(line).map((name) => `${name} (a limit per shift)`)];
}

/** The note that `--cycle` sets something aside; empty where it does not. */
export function setAside(line: Line): string {
  const keys = keysSetAside(line);
  return keys.length === 0 ? "" : `--cycle sets aside what the line file says of ${keys.join(", ")}\n`;
}

function readOption<T>(option: string, reading: Reading<T>): T {
  if (!reading.ok) throw new UsageError(`${option}: ${reading.problem}`);
  return reading.value;
}
