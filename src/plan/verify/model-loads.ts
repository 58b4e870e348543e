import type { Line } from "../../line/line.js";
import { type Ratio, ZERO } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import { asTime, type Check, fault, showBoth } from "./fault.js";
import type { StationView } from "./plan-view.js";
import { workOfModel } from "./unit-work.js";
import { addUp, isWholeCount, isWithin, shareOfWorkingTime } from "./whole-times.js";

/**
 * Where models are held one by one, none takes a station more than the allowed share above its working time; at sides, one of which may wait
 * for the other, no unit of a model stands for longer either, each place having room for so many units.
 */
export const checkModelOverload: Check = ({ line, stations, isSided, pace }) => {
  const overload = line.modelOverload;
  if (overload === null) return [];
  const share = { num: overload.den + overload.num, den: overload.den };
  return stations.flatMap((at) => {
    const { id, tasks, sides, station } = at;
    if (!isWholeCount(station.places) || (isSided && sides === null)) return [];
    const most = shareOfWorkingTime(line, pace, { tasks, places: station.places }, share);
    const holds = BigInt(at.floor?.holds ?? line.holds);
    return line.models.flatMap((model, number) => {
      const taken = busiest(line, at, number);
      const stands = isSided ? standsFor(line, at, number) : null;
      const longer = stands ?? ZERO;
      const isTooBusy = !isWithin(taken.num, taken.den, most);
      const mostOfAll = { ...most, amount: most.amount * holds };
      if (!isTooBusy && isWithin(longer.num, longer.den, mostOfAll)) return [];
      const [time, limit] = isTooBusy ? [taken, most] : [longer, mostOfAll];
      const [shown, allowed] = showBoth(line, asTime(time.num, time.den), asTime(limit.amount, limit.parts));
      const units = holds > 1n && !isTooBusy ? ` of ${holds} units` : "";
      const words = `${model.id} ${isTooBusy ? "takes" : "stands"} ${shown} at ${id}, more than ${allowed}, the working time${units} and ${percent(overload, 4)}`;
      return [fault("model-overload", words, id, null, { kind: "overfull", what: "model-overload" })];
    });
  });
};

const standsFor = (line: Line, at: StationView, model: number): Ratio | null =>
  workOfModel(line, at, model)?.allDone ?? null;

/** What the busiest person takes for a unit of the model; people who work together all take the whole. */
function busiest(line: Line, { tasks, persons, sides }: StationView, model: number): Ratio {
  const loads = tasks.map((task) => loadOfModel(line, task, model));
  const who = sides?.map((side) => (side === "both" ? ["left", "right"] : [side])) ?? persons;
  if (who === null) return addUp(loads);
  return [...new Set<string | number>(who.flat())]
    .map((person) => addUp(loads.filter((_, at) => (who[at] as readonly unknown[]).includes(person))))
    .reduce((one, two) => (two.num * one.den > one.num * two.den ? two : one), ZERO);
}

/** (Task time + walking) x visits of one model and parts taken over, in microseconds; 0 for a task that it does not have. */
function loadOfModel(line: Line, task: number, model: number): Ratio {
  const { times, walking, visits, takenOver = [] } = line.tasks[task]!;
  const column = times.length === 1 ? 0 : model;
  const [own, often] = [times[column]!, visits[column]!];
  if (own === null) return ZERO;
  return addUp([
    { num: BigInt(own + walking) * often.num, den: often.den },
    ...takenOver.map(({ time, often: taken }) => {
      const { num, den } = taken[column]!;
      return { num: BigInt(time) * num, den };
    }),
  ]);
}
