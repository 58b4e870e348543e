import type { FloorStation, Line, Task, Wait } from "../../src/line/line.js";
import type { Plan, Station } from "../../src/plan/plan.js";
import { add, multiply, ONE, type Ratio, ratio, ZERO } from "../../src/time/ratio.js";
import { numbersOf, shortLine } from "./line-of.js";

const NOWHERE = { line: 1, column: 1, endColumn: 2 } as const;

/** Seconds as microseconds. */
export const s = (seconds: number): number => Math.round(seconds * 1_000_000);

/** What a line has besides tasks, times and arrows; tasks by id, times of tasks in microseconds. */
export interface FloorTerms
  extends Partial<Pick<Line, "maxPlaces" | "holds" | "maxCrew" | "people" | "models" | "modelOverload">> {
  readonly tasks?: Readonly<Record<string, TaskTerms>>;
  readonly floor?: readonly (Partial<FloorStation> & Pick<FloorStation, "id">)[];
  readonly equipment?: Readonly<Record<string, number>>;
  readonly together?: readonly (readonly string[])[];
  readonly apart?: readonly (readonly string[])[];
  readonly waits?: readonly (Partial<Wait> & { readonly after: string; readonly on: string })[];
}

/** What a task says; visits are those of failures alone, the same for every model that has the task. */
export interface TaskTerms extends Partial<Omit<Task, "visits">> {
  readonly visits?: Ratio;
}

/** A line of rows as `shortLine` takes them, with the terms of a shop floor; loads follow from what the tasks say. */
export function floorLine(rows: readonly string[], terms: FloorTerms = {}): Line {
  const { tasks = {}, floor = [], equipment = {}, together = [], apart = [], waits = [], ...plain } = terms;
  const line = { ...shortLine(rows), ...plain };
  const number = (id: string) => numbersOf(line, id)[0]!;
  for (const id of Object.keys(tasks)) number(id);
  return {
    ...line,
    tasks: line.tasks.map((task) => withTerms(line, task, tasks[task.id] ?? {})),
    floor: floor.map((station) => ({ ...EMPTY_STATION, ...station })),
    equipment: new Map(Object.entries(equipment)),
    together: together.map((ids) => numbersOf(line, ...ids)),
    apart: apart.map((ids) => numbersOf(line, ...ids)),
    waits: waits.map(({ after, on, wait = 0, byModel = null, stations = 1 }) => ({
      from: number(on),
      to: number(after),
      wait,
      byModel,
      stations,
      place: NOWHERE,
    })),
  };
}

const EMPTY_STATION = {
  zone: null,
  equipment: [],
  skills: null,
  maxPlaces: null,
  holds: null,
  maxCrew: null,
  planTo: null,
  keepPace: null,
  limits: [],
  driftRoom: null,
};

function withTerms(line: Line, plain: Task, { visits = ONE, ...terms }: TaskTerms): Task {
  const task = { ...plain, ...terms };
  const due = multiply(visits, ratio(1, task.every));
  const often = task.times.map((own) => (own === null ? ZERO : due));
  const mean = task.times
    .map((own, model) => {
      const share: Ratio = task.times.length === 1 ? ONE : line.models[model]!.share;
      return own === null ? ZERO : multiply(share, ratio(own + task.walking));
    })
    .reduce(add, ZERO);
  return { ...task, visits: often, load: multiply(mean, due) };
}

/**
 * A plan from rows such as "S1: a b" and "S2 x2: c" (two places), "S3: d/left e/both" (sides) and "S4: f/1 g/1+2" (persons of a crew
 * that shares the work); crews are the given ones, else as many as are numbered, at least 1.
 */
export function planFrom(
  line: Line,
  rows: readonly string[],
  crews: Readonly<Record<string, number>> = {},
): Plan {
  return { stations: rows.map((row) => stationFrom(line, row, crews)) };
}

function stationFrom(line: Line, row: string, crews: Readonly<Record<string, number>>): Station {
  const [, id = "", places = "1", list = ""] = /^(\S+?)(?: x(\S+))?: ?(.*)$/u.exec(row)!;
  const entries = list.split(" ").filter((entry) => entry !== "");
  const said = entries.flatMap((entry) => entry.split("/")[1] ?? []);
  const isShared = said.some((each) => /^\d/u.test(each));
  const persons = isShared ? said.map((each) => each.split("+").map(Number)) : null;
  return {
    id,
    tasks: numbersOf(line, ...entries.map((entry) => entry.split("/")[0]!)),
    sides: said.length > 0 && !isShared ? (said as ("left" | "right" | "both")[]) : null,
    persons,
    places: Number(places),
    crew: crews[id] ?? Math.max(1, ...(persons ?? []).flat()),
  };
}
