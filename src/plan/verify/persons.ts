import { countOf } from "../../findings/count-of.js";
import type { Finding } from "../../findings/finding.js";
import { type Check, fault, taskFault } from "./fault.js";
import type { PlanView, StationView } from "./plan-view.js";

/**
 * Where a plan says who does which task, the people of the place may share the work of a unit, no more of them than allowed, each task
 * has as many as it takes, and everybody has something to do.
 */
export const checkPersons: Check = (view) => [
  ...view.stations.flatMap((station) => checkPersonsOf(view, station, mostAt(view, station))),
  ...view.benches.flatMap((bench) => checkPersonsOf(view, bench, 1)),
];

const mostAt = ({ line }: PlanView, { floor }: StationView): number => floor?.maxCrew ?? line.maxCrew;

function checkPersonsOf(view: PlanView, at: StationView, most: number): Finding[] {
  const { persons, tasks } = at.station;
  if (persons === null) return [];
  const tell = (words: string) => [fault("persons", `${at.id} ${words}`, at.id, null)];
  if (view.isSided) return tell("says who does its tasks; on this line the sides say that");
  if (persons.length !== tasks.length) {
    const given = `${persons.length === 1 ? "1 entry" : `${persons.length} entries`} for ${countOf(tasks.length, "task")}`;
    return tell(`says who does its tasks with ${given}; each task has one`);
  }
  const used = new Set(persons.flat());
  const crew = [...used].reduce((largest, each) => Math.max(largest, each), 0);
  if (most === 1 && crew > 1)
    return tell("shares its work among people who work together there; `max-crew` would let them");
  const together = tasks
    .map((task) => view.line.tasks[task]?.people ?? 1)
    .reduce((one, two) => Math.max(one, two), 1);
  if (crew > Math.max(most, together)) {
    const allowed =
      most >= together
        ? `\`max-crew\` allows ${most}`
        : `a task takes ${together} and \`max-crew\` allows ${most}`;
    return tell(`shares its work among ${crew} people; ${allowed}`);
  }
  const idle = Array.from({ length: crew }, (_, person) => person + 1).find((person) => !used.has(person));
  return [
    ...(idle === undefined
      ? []
      : tell(`has nothing to do for person ${idle}, and counts ${crew} people; number them without a gap`)),
    ...at.tasks.flatMap((task, index) => checkTask(view, at, task, at.persons![index]!)),
  ];
}

function checkTask(view: PlanView, at: StationView, task: number, who: readonly number[]): Finding[] {
  const { people } = view.line.tasks[task]!;
  const wrong = who.find((person) => !Number.isSafeInteger(person) || person < 1);
  if (wrong !== undefined)
    return [
      taskFault(
        "persons",
        view,
        at,
        task,
        `is done at ${at.id} by person ${wrong}; they are numbered from 1`,
      ),
    ];
  const different = new Set(who).size;
  if (different === people && who.length === people) return [];
  const doubled = different < who.length ? ", one of them twice" : "";
  const words = `is done at ${at.id} by ${who.length === 1 ? "1 person" : `${who.length} people`}${doubled}; it takes ${people}`;
  return [taskFault("persons", view, at, task, words)];
}
