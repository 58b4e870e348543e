import type { Line } from "../../line/line.js";
import { type Ratio, ZERO } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import { asTime, type Check, fault, showBoth } from "./fault.js";
import type { StationView } from "./plan-view.js";
import { workOfModel } from "./unit-work.js";
import { addUp, isWholeCount, isWithin, shareOfWorkingTime } from "./whole-times.js";

/** Where models are held one by one, none takes a station more than the allowed share above its working time. */
export const checkModelOverload: Check = ({ line, stations, isSided, pace }) => {
  const overload = line.modelOverload;
  if (overload === null) return [];
  const share = { num: overload.den + overload.num, den: overload.den };
  return stations.flatMap((at) => {
    const { id, tasks, sides, station } = at;
    if (!isWholeCount(station.places) || (isSided && sides === null)) return [];
    const most = shareOfWorkingTime(line, pace, { tasks, places: station.places }, share);
    return line.models.flatMap((model, number) => {
      const taken = isSided ? (workOfModel(line, at, number)?.handsDone ?? ZERO) : busiest(line, at, number);
      if (isWithin(taken.num, taken.den, most)) return [];
      const [shown, limit] = showBoth(line, asTime(taken.num, taken.den), asTime(most.amount, most.parts));
      const words = `${model.id} takes ${shown} at ${id}, more than ${limit}, the working time and ${percent(overload, 4)}`;
      return [fault("model-overload", words, id, null, { kind: "overfull", what: "model-overload" })];
    });
  });
};

/** What the busiest person takes for a unit of the model; people who work together all take the whole. */
function busiest(line: Line, { tasks, persons }: StationView, model: number): Ratio {
  const loads = tasks.map((task) => loadOfModel(line, task, model));
  if (persons === null) return addUp(loads);
  return [...new Set(persons.flat())]
    .map((person) => addUp(loads.filter((_, at) => persons[at]!.includes(person))))
    .reduce((one, two) => (two.num * one.den > one.num * two.den ? two : one), ZERO);
}

/** (Task time + walking) x visits of one model, in microseconds; 0 for a task that it does not have. */
function loadOfModel(line: Line, task: number, model: number): Ratio {
  const { times, walking, visits } = line.tasks[task]!;
  const column = times.length === 1 ? 0 : model;
  const [own, often] = [times[column]!, visits[column]!];
  if (own === null) return ZERO;
  return { num: BigInt(own + walking) * often.num, den: often.den };
}
