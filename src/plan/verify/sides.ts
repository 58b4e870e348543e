import { countOf } from "../../findings/count-of.js";
import type { Finding } from "../../findings/finding.js";
import type { Task } from "../../line/line.js";
import type { StationSide } from "../plan.js";
import { type Check, fault, taskFault } from "./fault.js";
import type { PlanView, StationView } from "./plan-view.js";

/** Tasks of a wide product are worked from the side that they ask for, those of several people from both. */
export const checkSides: Check = (view) => view.stations.flatMap((station) => checkSidesOf(view, station));

function checkSidesOf(view: PlanView, at: StationView): Finding[] {
  const { sides: given, tasks: all } = at.station;
  if (!view.isSided) {
    return given === null
      ? []
      : [fault("sides", `${at.id} gives sides; no task of the line has one`, at.id, null)];
  }
  if (at.sides === null) {
    const words =
      given === null
        ? "gives no sides"
        : `gives ${countOf(given.length, "side")} for ${countOf(all.length, "task")}`;
    return [fault("sides", `${at.id} ${words}; each task of this line is worked from a side`, at.id, null)];
  }
  return at.tasks.flatMap((task, index) => {
    const [side, wanted] = [at.sides![index]!, sidesFor(view.line.tasks[task]!)];
    if (wanted.includes(side)) return [];
    const words = `is worked at ${at.id} from ${nameOf(side)}; expected is ${wanted.map(nameOf).join(" or ")}`;
    return [taskFault("sides", view, at, task, words)];
  });
}

function sidesFor({ side, people }: Task): StationSide[] {
  if (people > 1) return ["both"];
  return side === "left" || side === "right" ? [side] : ["left", "right"];
}

const nameOf = (side: StationSide) => (side === "both" ? "both sides" : `the ${side}`);
