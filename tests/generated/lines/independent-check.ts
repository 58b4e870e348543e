import type { BalanceAnswer } from "../../tools/read-answer.js";
import { type AnyLine, stepId } from "./any-line.js";

/** Everything in an answer that contradicts the line it was given for; whole seconds, so sums are exact. */
export function contradictions({ tasks, cycle }: AnyLine, answer: BalanceAnswer): string[] {
  const found: string[] = [];
  const seconds = new Map(tasks.map((task) => [stepId(task.number), task.seconds]));
  const order = answer.stations.flatMap((station) => station.tasks);
  const holds = (what: string, fine: boolean) => fine || found.push(what);
  const close = (one: number | null, two: number) => one !== null && Math.abs(one - two) < 0.000_001;

  holds("every task is placed once", order.length === tasks.length && new Set(order).size === tasks.length);
  holds(
    "every task is of the line",
    order.every((id) => seconds.has(id)),
  );
  for (const { number, after } of tasks) {
    const early = after.every((each) => order.indexOf(stepId(each)) < order.indexOf(stepId(number)));
    holds(`the arrows to ${stepId(number)} run forwards`, early);
  }
  const loads = answer.stations.map((station) =>
    station.tasks.reduce((sum, id) => sum + seconds.get(id)!, 0),
  );
  for (const [at, station] of answer.stations.entries()) {
    holds(`${station.id} holds no more than the cycle`, loads[at]! <= cycle);
    holds(`${station.id} says its load`, station.seconds === loads[at]);
    holds(`${station.id} says its idle time`, station.idleSeconds === cycle - loads[at]!);
    holds(`${station.id} has work`, station.tasks.length > 0);
  }
  const work = loads.reduce((sum, load) => sum + load, 0);
  const slowest = Math.max(...loads);
  const { measures, bound } = answer;
  holds("work content", measures.workContentSeconds === work);
  holds("cycle of the plan", measures.cycleOfPlanSeconds === slowest);
  holds("idle a unit", measures.idleSecondsPerUnit === loads.length * cycle - work);
  holds("efficiency at the pace", close(measures.efficiencyAtPace, work / (loads.length * cycle)));
  const gaps = loads.reduce((sum, load) => sum + (slowest - load) ** 2, 0);
  holds("smoothness", close(measures.smoothnessSeconds, Math.sqrt(gaps)));
  holds("no bound above the plan", bound.stations === null || bound.stations <= loads.length);
  holds("proved means bound met", answer.outcome !== "proved" || bound.stations === loads.length);
  return found;
}

/** The least number of stations by trying every order: over sets of tasks, the fewest stations and least last load. */
export function leastStations({ tasks, cycle }: AnyLine): number {
  const states = new Map<number, readonly [stations: number, load: number]>([[0, [1, 0]]]);
  for (let set = 0; set < 1 << tasks.length; set++) {
    const state = states.get(set);
    if (!state) continue;
    for (const [at, { seconds, after }] of tasks.entries()) {
      if (set & (1 << at) || after.some((number) => !(set & (1 << (number - 1))))) continue;
      const [stations, load] = state;
      const next =
        load + seconds <= cycle ? ([stations, load + seconds] as const) : ([stations + 1, seconds] as const);
      const known = states.get(set | (1 << at));
      if (!known || next[0] < known[0] || (next[0] === known[0] && next[1] < known[1])) {
        states.set(set | (1 << at), next);
      }
    }
  }
  return states.get((1 << tasks.length) - 1)![0];
}
