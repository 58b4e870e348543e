import type { OptionAnswer } from "../answer/compare/option-answer.js";
import { countOf } from "../findings/count-of.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { percent } from "../time/show-values.js";

/** Each bench of an option by its name: what it builds, where that joins the line, and how far it fills its places. */
export function benchesOf({
  asked: { line },
  benches,
}: OptionAnswer): { readonly id: string; readonly words: string }[] {
  const show = showTimesIn(line.unit);
  const idsOf = (tasks: readonly number[]) => tasks.map((task) => line.tasks[task]!.id).join(", ");
  return benches.map((bench) => {
    const { id, work, places, hours, load, stock, stations } = bench;
    const several = stations.length === 1 ? "" : ` at each of ${stations.length} stations`;
    const at = `${show(work)} a unit at ${countOf(places, "place")}${several}`;
    const open = hours.shifts === null ? "" : `, ${countOf(hours.shifts, "shift")} a day`;
    const ready = stock.units ? `; stock ${countOf(stock.units, "unit")}` : "";
    const builds = `${idsOf(stations.flatMap(({ tasks }) => tasks))}; joins at ${idsOf(bench.joinsAt)}`;
    return { id, words: `${builds}; ${at}${open}, ${percent(load)} loaded${ready}` };
  });
}
