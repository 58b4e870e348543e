import type { StationProblem } from "../../src/solve/problem.js";

/** The earliest and the latest of `slots` stations that a task may stand in, by the work that must be around it. */
interface Window {
  readonly from: number;
  readonly to: number;
}

function tasksBefore(before: StationProblem["before"]): Set<number>[] {
  const found = before.map(() => new Set<number>());
  for (let pass = 0; pass < before.length; pass++) {
    for (const [task, direct] of before.entries()) {
      for (const each of direct) for (const further of [each, ...found[each]!]) found[task]!.add(further);
    }
  }
  return found;
}

function windows({ times, limit, before }: StationProblem, slots: number): Window[] {
  const earlier = tasksBefore(before);
  const work = (task: number, others: Iterable<number>) =>
    [...others].reduce((sum, each) => sum + times[each]!, times[task]!);
  return times.map((_, task) => {
    const later = [...times.keys()].filter((each) => earlier[each]!.has(task));
    const from = Math.max(1, Math.ceil(work(task, earlier[task]!) / limit));
    return { from, to: slots + 1 - Math.max(1, Math.ceil(work(task, later) / limit)) };
  });
}

const sum = (terms: readonly string[]): string => terms.join(" + ");

/**
 * The assignment model of simple line balancing as an LP-format text: x_i_k puts task i in station k, u_k uses station
 * k; as few stations as possible out of `slots`. Null when a task has no station left, so that `slots` are too few.
 * Source of the model: A. Scholl, Balancing and Sequencing of Assembly Lines (1999), after E. H. Bowman (1960).
 */
export function stationProgramme(problem: StationProblem, slots: number): string | null {
  const open = windows(problem, slots);
  if (open.some(({ from, to }) => from > to)) return null;
  const stationsOf = open.map(({ from, to }) => Array.from({ length: to - from + 1 }, (_, at) => from + at));
  const numbers = Array.from({ length: slots }, (_, at) => at + 1);
  const place = (task: number) => stationsOf[task]!.map((k) => `${k} x_${task}_${k}`);
  const rows = [
    ...stationsOf.map((ks, task) => `${sum(ks.map((k) => `x_${task}_${k}`))} = 1`),
    ...numbers.map((k) => {
      const here = problem.times.flatMap((time, task) =>
        time > 0 && stationsOf[task]!.includes(k) ? [`${time} x_${task}_${k}`] : [],
      );
      return `${sum([...here, ""]).replace(/ \+ $/, "")} - ${problem.limit} u_${k} <= 0`;
    }),
    ...numbers.slice(1).map((k) => `u_${k - 1} - u_${k} >= 0`),
    ...problem.before.flatMap((direct, task) =>
      direct.map((each) => `${sum(place(task))} - ${place(each).join(" - ")} >= 0`),
    ),
  ];
  const binaries = [
    ...numbers.map((k) => `u_${k}`),
    ...stationsOf.flatMap((ks, i) => ks.map((k) => `x_${i}_${k}`)),
  ];
  return [
    "Minimize",
    ` stations: ${sum(numbers.map((k) => `u_${k}`))}`,
    "Subject To",
    ...rows.map((row, at) => ` r${at}: ${row}`),
    "Binary",
    ` ${binaries.join("\n ")}`,
    "End",
    "",
  ].join("\n");
}
