import type { Comparison } from "../answer/compare/compare-options.js";
import type { AskedBlock, OffLineAnswer } from "../answer/off-line/off-line-answer.js";
import { compareNaturally } from "../findings/natural-order.js";
import type { Line, Task } from "../line/line.js";
import type { CheckResult } from "../plan/check/check-result.js";
import type { Plan, Station } from "../plan/plan.js";

/** What no balance says; in every form of every answer that shows a plan. */
export const CAUTION =
  "A balanced plan is not a safety assessment. Lifting, electrical work, machinery, chemicals and paint, brake, roller-bench and pressure tests, work pace, repetition and working hours must meet local codes and be approved by licensed or otherwise qualified people.";

/** Who does the tasks of a line, and where. */
export interface WorkOfPlan {
  readonly tasks: readonly Task[];
  /** Null where there is none. */
  readonly plan: { readonly stations: readonly Posted[]; readonly benches?: readonly Posted[] } | null;
  /** What people call the plan where several stand side by side. */
  readonly name?: string;
}

/** The id is null at a bench that has no name. */
type Posted = Pick<Station, "tasks"> & { readonly id: string | null };

/** A task that needs caution, with the stations or benches where it is done: several where plans differ. */
export interface TaskCaution {
  readonly task: Task;
  readonly where: readonly { readonly id: string | null; readonly plans: readonly string[] }[];
}

/** The tasks that need caution, in order of work; what two plans or files say alike is said once. */
export function cautionsOf(works: readonly WorkOfPlan[]): TaskCaution[] {
  const found = new Map<string, { readonly task: Task; readonly where: Map<string | null, string[]> }>();
  for (const { tasks, plan, name } of works) {
    for (const [number, id] of inOrderOfWork(tasks, plan)) {
      const task = tasks[number]!;
      const words = wordsOf(task);
      if (words.length === 0) continue;
      const key = JSON.stringify([task.id, ...words]);
      const entry = found.get(key) ?? { task, where: new Map() };
      found.set(key, entry);
      if (id === undefined) continue;
      entry.where.set(id, [...(entry.where.get(id) ?? []), ...(name === undefined ? [] : [name])]);
    }
  }
  const order = inOrderOfLine(works);
  return [...found.values()].map(({ task, where }) => ({
    task,
    where: [...where]
      .map(([id, plans]) => ({ id, plans }))
      .sort((one, two) => order.get(one.id)! - order.get(two.id)!),
  }));
}

/** Every station as the plans that have it put it, in the natural order of ids where none of them says, and benches behind. */
function inOrderOfLine(works: readonly WorkOfPlan[]): Map<string | null, number> {
  const plans = works.flatMap(({ plan }) => plan ?? []);
  const before = new Map<string | null, Set<string | null>>();
  for (const { stations } of plans) {
    for (const [at, { id }] of stations.entries()) {
      const known = before.get(id) ?? new Set();
      before.set(id, at === 0 ? known : known.add(stations[at - 1]!.id));
    }
  }
  const left = [...before.keys()].sort((one, two) => compareNaturally(one ?? "", two ?? ""));
  const rank = new Map<string | null, number>();
  while (left.length > 0) {
    const isNext = (id: string | null) => [...before.get(id)!].every((each) => rank.has(each));
    // Where plans differ in the order itself, no station is the next one of all of them.
    const [id] = left.splice(Math.max(0, left.findIndex(isNext)), 1);
    rank.set(id!, rank.size);
  }
  for (const { benches = [] } of plans)
    for (const { id } of benches) if (!rank.has(id)) rank.set(id, rank.size);
  return rank;
}

/** Every task once with where it is done, those that the plan does not have at the end. */
function inOrderOfWork(
  tasks: readonly Task[],
  plan: WorkOfPlan["plan"],
): Map<number, string | null | undefined> {
  const posts = [...(plan?.stations ?? []), ...(plan?.benches ?? [])];
  const placed = new Map<number, string | null | undefined>(
    posts.flatMap(({ id, tasks: done }) => done.map((task): [number, string | null] => [task, id])),
  );
  for (const task of tasks.keys()) if (!placed.has(task)) placed.set(task, undefined);
  return placed;
}

/** Those of one plan. */
export const cautionsOfPlan = ({ tasks }: Pick<Line, "tasks">, plan: Plan | null): TaskCaution[] =>
  cautionsOf([{ tasks, plan }]);

/** Those of one station or bench. */
export const cautionsOfStation = ({ tasks }: Line, station: Posted): TaskCaution[] => {
  const here = new Set(station.tasks.map((task) => tasks[task]!));
  return cautionsOf([{ tasks, plan: { stations: [station] } }]).filter(({ task }) => here.has(task));
};

/** Those of plan files that are checked. */
export const cautionsOfPlans = (plans: CheckResult["plans"]): TaskCaution[] =>
  cautionsOf(plans.map(({ line, plan }) => ({ tasks: line.tasks, plan })));

/** Those of everything that is compared, each option with its own stations and benches. */
export const cautionsOfOptions = (options: Comparison["options"]): TaskCaution[] =>
  cautionsOf(options.map(({ asked, plan }) => ({ tasks: asked.line.tasks, plan, name: asked.name })));

/** Those of all blocks that are told of, also of those that must stay: where they are done on the whole line, and the bench. */
export function cautionsOfBlocks(answer: OffLineAnswer): TaskCaution[] {
  const asked = answer.asked ?? answer.stated ?? [];
  const benches = [
    ...asked.flatMap(({ id, rated }: AskedBlock) =>
      rated === null ? [] : [{ id, tasks: rated.bench.tasks }],
    ),
    ...(answer.blocks ?? []).map(({ bench }) => ({ id: bench.id, tasks: bench.tasks })),
  ];
  const told = new Set([
    ...asked.flatMap(({ verdict }) => verdict.tasks),
    ...benches.flatMap(({ tasks }) => tasks),
  ]);
  const { tasks } = answer.line;
  const known = new Set([...told].map((task) => tasks[task]!.id));
  return cautionsOf([
    { tasks, plan: answer.before.plan },
    { tasks, plan: { stations: [], benches } },
  ]).filter(({ task }) => known.has(task.id));
}

/** The lift and the words of caution of one task. */
export function taskCautions({ lift, caution }: Task): string[] {
  return [...(lift === null ? [] : [`lift of ${lift}`]), ...(caution === null ? [] : [caution])];
}

const wordsOf = (task: Task): string[] => [
  ...(task.people > 1 ? [`${task.people} people at once`] : []),
  ...taskCautions(task),
];

/** "box-up at S12: lift of 42 kg; Hoist only". */
export function cautionWords({ task, where }: TaskCaution): string {
  const named = where.map(({ id, plans }) => {
    const name = id ?? "a bench";
    return where.length > 1 && plans.length > 0 ? `${name} (${plans.join(", ")})` : name;
  });
  return `${task.id}${named.length === 0 ? "" : ` at ${oneOf(named)}`}: ${wordsOf(task).join("; ")}`;
}

const oneOf = (names: readonly string[]): string =>
  [names.slice(0, -1).join(", "), ...names.slice(-1)].filter((part) => part !== "").join(" or ");

/** What a reader of the data gets; the people are those who do the task together. */
export const cautionsJson = (cautions: readonly TaskCaution[]) =>
  cautions.map(({ task, where }) => ({
    task: task.id,
    stations: where.flatMap(({ id }) => id ?? []),
    people: task.people,
    lift: task.lift,
    caution: task.caution,
  }));
