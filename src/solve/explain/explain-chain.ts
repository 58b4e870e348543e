import { countOf } from "../../findings/count-of.js";
import { ratio } from "../../time/ratio.js";
import type { ChainBound, ChainStep } from "../bounds/bound.js";
import { type BoundWords, beforeRounding } from "./bound-words.js";

type Side = "before" | "after";

/** Why so many stations lie on either side of a task; `words` are those of the limit of the chain. */
export function chainWords(words: BoundWords, bound: ChainBound): string {
  const { tasks, stationsBefore, stationsAfter } = bound;
  const own = words.names(tasks);
  const before =
    stationsBefore === 0 ? "" : `${countOf(stationsBefore, "station")} must lie before that of ${own}`;
  const after =
    stationsAfter === 0 ? "" : `${countOf(stationsAfter, "station")} must lie after that of ${own}`;
  const both = `${before} and ${stationsAfter} after it`;
  const around = `counted along the arrows, ${before !== "" && after !== "" ? both : before || after || `${own} takes a station`}`;
  const sides = [
    ...(stationsBefore > 0 ? [sideWords(words, bound.before.at(-1)!, "before")] : []),
    ...(stationsAfter > 0 ? [sideWords(words, bound.after.at(-1)!, "after")] : []),
  ];
  return sides.length === 0 ? around : `${around}: ${sides.join("; ")}`;
}

/** How a chain is counted, a sentence for each step: first what lies before the task, then what lies after it. */
export function chainStepWords(words: BoundWords, { before, after }: ChainBound): string[] {
  return [
    ...before.map((step) => stepWords(words, step, "before")),
    ...after.map((step) => stepWords(words, step, "after")),
  ];
}

function stepWords(words: BoundWords, step: ChainStep, side: Side): string {
  const why = step.by === "packing" ? packed(words, step, side) : worked(words, step, side);
  return `At least ${words.show(step.lies)} ${side} ${words.names([step.task])}: ${why}.`;
}

function sideWords(words: BoundWords, step: ChainStep, side: Side): string {
  if (step.by === "packing") return packed(words, step, side);
  const own = words.loads[step.task]!;
  const stations = beforeRounding(ratio(step.lies + own, words.limit));
  const comes = step.tasks.length === 1 ? "comes" : "come";
  return `${side} it ${comes} ${worked(words, step, side)}; with its own ${words.show(own)} that is ${stations} stations of ${words.show(words.limit)}, rounded up, its own among them`;
}

function packed(words: BoundWords, step: ChainStep & { by: "packing" }, side: Side): string {
  const own = words.line.tasks[step.task]!.id;
  return `${own} and what comes ${side} it need ${countOf(step.packing.stations, "station")}, its own among them, as ${words.binPacking(step.packing)}`;
}

/** The sum of a step: work, what lies beyond it, and the rest of a station that is no use. */
function worked(words: BoundWords, step: ChainStep & { by: "work" }, side: Side): string {
  const { show, loads } = words;
  const work = step.tasks.reduce((sum, task) => sum + loads[task]!, 0);
  const isOne = step.tasks.length === 1;
  const together = isOne ? "" : `, ${show(work)} together`;
  const beyond =
    step.beyond === 0 ? "" : ` and at least ${show(step.beyond)} ${side} ${isOne ? "that" : "each of these"}`;
  const sum = work + step.beyond;
  const full = `, counted as ${show(step.lies)}, since its own ${show(loads[step.task]!)} does not fit beside ${show(sum % words.limit)}`;
  return `${words.names(step.tasks)}${together}${beyond}${step.lies === sum ? "" : full}`;
}
