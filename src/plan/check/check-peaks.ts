import { countOf } from "../../findings/count-of.js";
import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { type CatchUp, type Peak, peaksAt } from "../models/peaks.js";
import type { Plan, Station } from "../plan.js";
import { postsOf } from "../post.js";
import { showBoth } from "../verify/fault.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/**
 * Units of a rare model, or with work of every so many units, that take a station longer than its working time, and those of any model that
 * stand or keep an equipment for longer than there is for it: a note where it catches up
 * before the next one comes, a warning where it does not. An error, of any model, where work runs past the end of the station
 * farther than its drift room.
 *
 * @param sequence numbers of models, built again and again; [0] for a line that builds one
 */
export function findPeaks(line: Line, pace: Pace, plan: Plan, sequence: readonly number[]): PlanFinding[] {
  const posts = postsOf(line, pace, plan);
  return plan.stations.flatMap((station, at) =>
    peaksAt(line, pace, station, sequence, posts[at]).flatMap((peak) => tell(line, station, peak)),
  );
}

function tell(line: Line, station: Station, peak: Peak): PlanFinding[] {
  const { severity, tasks, over } = peak;
  if (severity === null) return [];
  const task = tasks.length === 0 ? null : line.tasks[tasks[0]!]!;
  const words = [peakWords(line, station, peak), afterWords(line, station, peak)];
  return [
    planFinding({
      rule: "peak",
      severity,
      message: [...words, ...(severity === "error" ? [roomWords(line, station, peak)] : [])].join("; "),
      file: line.file,
      place: task?.place ?? null,
      task: task?.id ?? null,
      station: station.id,
      amount: over,
    }),
  ];
}

/** "every 20th unit (audit) takes 855 s at S1, 755 s more than the working time". */
function peakWords(line: Line, station: Station, peak: Peak): string {
  const { id } = station;
  const { by, model, isOfAnyModel, every, tasks, time, workingTime, over } = peak;
  const name = line.models[model]?.id;
  const work = tasks.map((task) => line.tasks[task]!.id).join(", ");
  const of = name === undefined || isOfAnyModel ? "" : `, when it is a ${name},`;
  const who = every === 1 ? `a unit of ${name}` : `every ${ordinal(every)} unit (${work})${of}`;
  const [taken, working] = showBoth(line, time, workingTime);
  const runs = station.tasks.some((task) => line.tasks[task]!.machineTime > 0);
  if (by.kind === "dwell")
    return `${who} stands ${taken} at ${id}, ${runs ? "with what machines run, " : ""}${showTimesIn(line.unit)(over)} over the ${working} that there is for it`;
  if (by.kind === "equipment")
    return `${who} keeps ${by.name} ${taken} at ${id}, ${showTimesIn(line.unit)(over)} over the ${working} that there is for it`;
  return `${who} takes ${taken} at ${id}, ${showTimesIn(line.unit)(over)} over its working time of ${working}`;
}

function afterWords(line: Line, { places }: Station, { turns, catchUp, drift, isRun }: Peak): string {
  if (!isRun)
    return "whether that is caught up before the next one comes is not known: only after too many units the same work meets again";
  if (catchUp !== null) {
    const there =
      turns > 1 ? (turns === places ? " at the same place" : `, one in ${turns} of those that come`) : "";
    return `caught up in ${catchUpWords(line, catchUp)}${there}, before the next one comes`;
  }
  if (drift !== null) return "the next one comes before that is caught up";
  return "never caught up: in this order the station, or one of its places, gets more work than it has time for";
}

/** "17 units at 45 s each", "48 units of normal at 1 s each". */
function catchUpWords(line: Line, { units, spare, model }: CatchUp): string {
  const name = model === null ? undefined : line.models[model]?.id;
  const of = name === undefined ? "" : ` of ${name}`;
  const each = spare === null ? "" : ` at ${showTimesIn(line.unit)(spare)}${units === 1 ? "" : " each"}`;
  return `${countOf(units, "unit")}${of}${each}`;
}

function roomWords(line: Line, { id }: Station, { drift, driftRoom }: Peak): string {
  if (drift === null)
    return `\`drift-room\` allows ${showTimesIn(line.unit)(driftRoom!)} past the end of ${id}`;
  const [far, most] = showBoth(line, drift, driftRoom!);
  return `work runs up to ${far} past the end of ${id}, and \`drift-room\` allows ${most}`;
}

/** "1st", "2nd", "20th", "111th". */
function ordinal(number: number): string {
  const tens = number % 100;
  const ending = tens >= 11 && tens <= 13 ? "th" : (["th", "st", "nd", "rd"][number % 10] ?? "th");
  return `${number}${ending}`;
}
