import { type Finding, finding, type Place } from "../../findings/finding.js";
import { nearestWordsAmong } from "../../findings/nearest.js";
import { idKey } from "../../line/ids.js";
import type { Line } from "../../line/line.js";
import { valuesOf } from "../../line/read/draft.js";
import { quoted } from "../../time/quoted.js";
import { crewOf, type Station, type StationSide } from "../plan.js";
import type { DraftStation } from "./plan-draft.js";

/** A station as the plan has it, what of its tasks the line does not have, and where each is written. */
export interface PlacedStation {
  readonly station: Station;
  readonly isBench: boolean;
  readonly place: Place;
  /** Parallel to the tasks of the station. */
  readonly places: readonly Place[];
  readonly findings: readonly Finding[];
}

/** Looks up the tasks of stations in the line. What the line does not have is told and left out. */
export function placeTasks(file: string, line: Line, drafts: readonly DraftStation[]): PlacedStation[] {
  const numbers = new Map(line.tasks.map(({ id }, number) => [idKey(id), number]));
  const nearest = nearestWordsAmong(line.tasks.map(({ id }) => id));
  const isSided = line.tasks.some(({ side }) => side !== null);
  return drafts.map((draft) => {
    const written = draft.keys.tasks?.items ?? [];
    const unknown = written.filter(({ value }) => !numbers.has(idKey(value)));
    const known = written.filter(({ value }) => numbers.has(idKey(value)));
    const tasks = known.map(({ value }) => numbers.get(idKey(value))!);
    const sides = isSided && !draft.isBench ? findSides(file, line, draft, tasks) : null;
    const persons = findPersons(file, line, draft, tasks);
    const given = { id: draft.id, tasks, sides: sides?.sides ?? null, persons: persons.persons };
    const crew = crewOf(line, given);
    return {
      station: { ...given, places: draft.keys.places?.value ?? 1, crew },
      isBench: draft.isBench,
      place: draft.place,
      places: known.map(({ place }) => place),
      findings: [
        ...unknown.map(({ text, place }) =>
          finding({
            rule: "unknown-task",
            severity: "error",
            message: `${draft.id}: no task of the line is called ${quoted(text)}${nearest(text)}`,
            file,
            place,
            station: draft.id,
            task: text,
            fact: { kind: "unknown-task" },
          }),
        ),
        ...(sides?.findings ?? []),
        ...refuseSides(file, draft, tasks, numbers, isSided),
        ...persons.findings,
        ...refuseElsewhere(file, draft, "persons", tasks, numbers),
      ],
    };
  });
}

/** The side that the plan gives a task, else the one that the line asks for; a free choice must be made in the plan. */
function findSides(file: string, line: Line, draft: DraftStation, tasks: readonly number[]) {
  const given = new Map(
    (draft.keys.sides?.entries ?? []).map(({ id, value }) => [idKey(id), value?.value] as const),
  );
  const open = new Set<number>();
  const sides = tasks.map((task): StationSide => {
    const { id, side, people } = line.tasks[task]!;
    const stated = given.get(idKey(id));
    if (stated !== undefined) return stated;
    if (people > 1) return "both";
    if (side === "left" || side === "right") return side;
    open.add(task);
    return "left";
  });
  const findings = [...open].map((task) => {
    const { id } = line.tasks[task]!;
    const message = `${id} at ${draft.id} may be worked from either side; say which: sides: {${id}: left} or right`;
    return finding({
      rule: "sides",
      severity: "error",
      message,
      file,
      place: draft.place,
      station: draft.id,
      task: id,
    });
  });
  return { sides, findings };
}

/** Who does each task where the plan says it of any; then it says it of all. */
function findPersons(file: string, line: Line, { id, keys, place }: DraftStation, tasks: readonly number[]) {
  const { persons: written } = keys;
  if (written === undefined || written.entries.length === 0) return { persons: null, findings: [] };
  const given = new Map(written.entries.map(({ id: task, value }) => [idKey(task), value] as const));
  const persons = tasks.map((task) =>
    valuesOf(given.get(idKey(line.tasks[task]!.id))).map((who) => who.value),
  );
  const open = new Set(tasks.filter((task) => !given.has(idKey(line.tasks[task]!.id))));
  const findings = [...open].map((task) => {
    const { id: name } = line.tasks[task]!;
    const message = `${id} says who does its tasks, and not who does ${name}; add it: persons: {${name}: 1}`;
    return finding({ rule: "persons", severity: "error", message, file, place, station: id, task: name });
  });
  return { persons, findings };
}

/** Sides where none can be: on a line without sides, and of tasks that are elsewhere. */
function refuseSides(
  file: string,
  draft: DraftStation,
  tasks: readonly number[],
  numbers: ReadonlyMap<string, number>,
  isSided: boolean,
): Finding[] {
  const { id, keys } = draft;
  if (isSided || keys.sides === undefined || keys.sides.entries.length === 0)
    return refuseElsewhere(file, draft, "sides", tasks, numbers);
  const message = `${id} gives sides; no task of the line has one`;
  const { place } = keys.sides;
  return [finding({ rule: "sides", severity: "error", message, file, place, station: id })];
}

/** What is said of tasks that are not at the station. */
function refuseElsewhere(
  file: string,
  { id, keys }: DraftStation,
  key: "sides" | "persons",
  tasks: readonly number[],
  numbers: ReadonlyMap<string, number>,
): Finding[] {
  return (keys[key]?.entries ?? [])
    .filter((entry) => !tasks.includes(numbers.get(idKey(entry.id)) ?? -1))
    .map((entry) => {
      const message = `${id}: ${key} name ${quoted(entry.id)}, which is no task of this station`;
      const { place } = entry;
      return finding({ rule: key, severity: "error", message, file, place, station: id, task: entry.id });
    });
}
