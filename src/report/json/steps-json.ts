import type { ChangeSum } from "../../answer/rebalance/change-sum.js";
import type { StationNeeds, Step } from "../../answer/rebalance/steps.js";
import type { WayThere } from "../../answer/rebalance/way-there.js";
import type { Line } from "../../line/line.js";
import type { Plan } from "../../plan/plan.js";
import { taskCautions } from "../cautions.js";
import { numberJson, secondsJson } from "./number-json.js";

/** Steps of a change, what they keep, the days they are spread over, and what the change costs and gains. */
export function stepsJson(line: Line, { steps, change, spread }: WayThere) {
  return {
    steps: (steps?.steps ?? []).map((step, at) => stepJson(line, step, at + 1)),
    wayThere: steps && {
      keepsCycleSeconds: secondsJson(steps.keeps),
      keepsNewPace: steps.keepsNew,
      newPaceFromStep: steps.newPaceFrom,
      isProved: steps.isProved,
      renamed: steps.renamed,
    },
    days:
      spread?.days.map(({ first, last, moves, plan }, at) => ({
        day: at + 1,
        steps: Array.from({ length: last - first + 1 }, (_, index) => first + index),
        moves,
        plan: planJson(line, plan),
      })) ?? null,
    change: change && changeJson(line, change),
  };
}

function stepJson(line: Line, step: Step, number: number) {
  const { moves, setUps, bring, takeAway, plan, cycle, keepsPace, keepsNewPace, people, faults } = step;
  const idOf = (task: number) => line.tasks[task]!.id;
  return {
    step: number,
    moves: moves.map(({ task, from, to }) => ({ task: idOf(task), from, to })),
    setUps,
    bring: bring.map(needsJson),
    takeAway: takeAway.map(needsJson),
    cautions: moves.flatMap(({ task }) => {
      const words = taskCautions(line.tasks[task]!);
      return words.length === 0 ? [] : [{ task: idOf(task), cautions: words }];
    }),
    cycleSeconds: secondsJson(cycle),
    keepsPace,
    keepsNewPace,
    people,
    faults,
    plan: planJson(line, plan),
  };
}

const needsJson = ({ room, ...needs }: StationNeeds) => ({
  ...needs,
  room: room.map(({ limit, amount, unit }) => ({ limit, amount: numberJson(amount), unit })),
});

/** Stations as a plan file has them. */
const planJson = (line: Line, { stations }: Plan) => ({
  stations: stations.map(({ id, tasks, sides, places, crew }) => ({
    id,
    tasks: tasks.map((task) => line.tasks[task]!.id),
    sides,
    places,
    crew,
  })),
});

function changeJson(line: Line, { trainingHours, tasksWithoutTraining, ...sum }: ChangeSum) {
  return {
    peopleBefore: sum.peopleBefore,
    peopleAfter: sum.peopleAfter,
    peopleAtMost: sum.peopleAtMost,
    moves: sum.moves,
    trainingHours: numberJson(trainingHours),
    tasksWithoutTraining: tasksWithoutTraining.map((task) => line.tasks[task]!.id),
    outputBefore: numberJson(sum.outputBefore),
    outputDuring: numberJson(sum.outputDuring),
    outputAfter: numberJson(sum.outputAfter),
    outputPer: sum.outputPer,
  };
}
