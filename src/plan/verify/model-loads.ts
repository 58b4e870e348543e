import type { Line } from "../../line/line.js";
import { type Ratio, ZERO } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import { asTime, type Check, fault, showBoth } from "./fault.js";
import { endOfModel } from "./unit-ends.js";
import { addUp, isWholeCount, isWithin, shareOfWorkingTime } from "./whole-times.js";

/** Where models are held one by one, none takes a station more than the allowed share above its working time. */
export const checkModelOverload: Check = ({ line, stations, isSided, pace }) => {
  const overload = line.modelOverload;
  if (overload === null) return [];
  const share = { num: overload.den + overload.num, den: overload.den };
  return stations.flatMap(({ id, tasks, sides, station: { places } }) => {
    if (!isWholeCount(places) || (isSided && sides === null)) return [];
    const most = shareOfWorkingTime(line, pace, { tasks, places }, share);
    return line.models.flatMap((model, number) => {
      const taken = isSided
        ? endOfModel(line, tasks, sides!, number)
        : addUp(tasks.map((task) => loadOfModel(line, task, number)));
      if (isWithin(taken.num, taken.den, most)) return [];
      const [shown, limit] = showBoth(line, asTime(taken.num, taken.den), asTime(most.amount, most.parts));
      const words = `${model.id} takes ${shown} at ${id}, more than ${limit}, the working time and ${percent(overload, 4)}`;
      return [fault("model-overload", words, id, null, { kind: "overfull", what: "model-overload" })];
    });
  });
};

/** (Task time + walking) x visits of one model, in microseconds; 0 for a task that it does not have. */
function loadOfModel(line: Line, task: number, model: number): Ratio {
  const { times, walking, visits } = line.tasks[task]!;
  const column = times.length === 1 ? 0 : model;
  const [own, often] = [times[column]!, visits[column]!];
  if (own === null) return ZERO;
  return { num: BigInt(own + walking) * often.num, den: often.den };
}
