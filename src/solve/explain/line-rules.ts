import type { Limit, Line, Task } from "../../line/line.js";
import { amountOf, isPerPerson, isPerShift } from "../../line/parts/limits.js";
import type { Ratio } from "../../time/ratio.js";

/** What a line asks for; tasks, stations and models by their ids, as lines are cut and numbered anew. */
export type LineRule =
  | { readonly kind: "fixed"; readonly task: string; readonly stations: readonly string[] }
  | { readonly kind: "not-before" | "not-after"; readonly task: string; readonly station: string }
  /** `holders` are the stations that have what is needed; null where no station says what it has. */
  | { readonly kind: "zone"; readonly task: string; readonly zone: string; readonly holders: Holders }
  | {
      readonly kind: "equipment";
      readonly task: string;
      readonly equipment: string;
      readonly holders: Holders;
    }
  | {
      readonly kind: "skills";
      readonly task: string;
      readonly skills: readonly string[];
      readonly holders: Holders;
    }
  | {
      readonly kind: "uses";
      readonly task: string;
      readonly limit: string;
      readonly amount: Ratio;
      readonly unit: string;
      /** What that comes to in a shift; null where the limit is for a unit. */
      readonly inShift: Ratio | null;
    }
  | { readonly kind: "several-people"; readonly task: string; readonly people: number }
  | { readonly kind: "side"; readonly task: string; readonly side: "left" | "right" }
  | { readonly kind: "together" | "apart"; readonly tasks: readonly string[] }
  /** `to` stands so many stations after `from`. */
  | { readonly kind: "wait"; readonly from: string; readonly to: string; readonly stations: number }
  | { readonly kind: "counted-equipment"; readonly equipment: string; readonly count: number }
  /** A limit by its name, for any station or for those that have their own. */
  | {
      readonly kind: "limit";
      readonly name: string;
      readonly of: readonly {
        /** Null for any other station. */
        readonly station: string | null;
        readonly perPerson: boolean;
        readonly perShift: boolean;
        readonly most: Ratio;
        readonly unit: string;
      }[];
    }
  | {
      readonly kind: "people";
      readonly people: Line["people"];
      /** Several may work at a place. */
      readonly several: boolean;
    }
  | { readonly kind: "model-overload" }
  | { readonly kind: "order"; readonly from: string; readonly to: string };

type Holders = readonly string[] | null;

/** One thing that a line file asks for and that a plan must keep; without it the line has one rule fewer. */
export interface LineRequirement {
  /** Tasks that it names. */
  readonly tasks: readonly number[];
  readonly rule: LineRule;
  without(line: Line): Line;
}

/** Everything but the limit of a station that may keep a line from having a plan: arrows, rules, and the times of tasks. */
export function requirementsOf(line: Line): LineRequirement[] {
  return [
    ...line.tasks.flatMap((_, task) => ofTask(line, task)),
    ...line.together.map(
      (tasks, at): LineRequirement => ({
        tasks,
        rule: { kind: "together", tasks: idsOf(line, tasks) },
        without: (each) => ({
          ...each,
          together: each.together.map((group, other) => (other === at ? [] : group)),
        }),
      }),
    ),
    ...line.apart.map(
      (tasks, at): LineRequirement => ({
        tasks,
        rule: { kind: "apart", tasks: idsOf(line, tasks) },
        without: (each) => ({
          ...each,
          apart: each.apart.map((group, other) => (other === at ? [] : group)),
        }),
      }),
    ),
    ...line.waits.map(
      (wait, at): LineRequirement => ({
        tasks: [wait.from, wait.to],
        rule: { kind: "wait", from: id(line, wait.from), to: id(line, wait.to), stations: wait.stations },
        // A wait is never taken out of the list: its place tells which it is.
        without: (each) => ({
          ...each,
          waits: each.waits.map((other, index) => (index === at ? { ...other, stations: 0 } : other)),
        }),
      }),
    ),
    ...[...line.equipment].map(
      ([name, count]): LineRequirement => ({
        tasks: line.tasks.flatMap((task, at) => (task.equipment.includes(name) ? [at] : [])),
        rule: { kind: "counted-equipment", equipment: name, count },
        without: (each) => ({
          ...each,
          equipment: new Map([...each.equipment].filter(([other]) => other !== name)),
        }),
      }),
    ),
    ...limitsOf(line),
    ...peopleOf(line),
    ...overloadOf(line),
    ...line.before.flatMap((earlier, task) =>
      earlier.map(
        (each): LineRequirement => ({
          tasks: [each, task],
          rule: { kind: "order", from: id(line, each), to: id(line, task) },
          without: (other) => ({
            ...other,
            before: other.before.map((list, at) => (at === task ? list.filter((one) => one !== each) : list)),
          }),
        }),
      ),
    ),
  ];
}

function ofTask(line: Line, task: number): LineRequirement[] {
  const { stations, notBefore, notAfter, zone, equipment, skills, people, side, uses } = line.tasks[task]!;
  const own = id(line, task);
  const station = (number: number) => line.floor[number]!.id;
  const change = (rule: LineRule, changed: Partial<Task>): LineRequirement => ({
    tasks: [task],
    rule,
    without: (each) => ({
      ...each,
      tasks: each.tasks.map((other, at) => (at === task ? { ...other, ...changed } : other)),
    }),
  });
  const wantsSkills = skills.filter((skill) => line.floor.some((each) => each.skills?.includes(skill)));
  const holding = (has: (each: Line["floor"][number]) => boolean) =>
    line.floor.filter(has).map((each) => each.id);
  const needed = (name: string, holders: Holders) =>
    change(
      { kind: "equipment", task: own, equipment: name, holders },
      { equipment: equipment.filter((other) => other !== name) },
    );
  const atStations = equipment.filter((name) => line.floor.some((each) => each.equipment.includes(name)));
  const counted = equipment.filter((name) => !atStations.includes(name) && line.equipment.has(name));
  return [
    ...(stations === null
      ? []
      : [change({ kind: "fixed", task: own, stations: stations.map(station) }, { stations: null })]),
    ...(notBefore === null || notBefore === 0
      ? []
      : [change({ kind: "not-before", task: own, station: station(notBefore) }, { notBefore: null })]),
    ...(notAfter === null
      ? []
      : [change({ kind: "not-after", task: own, station: station(notAfter) }, { notAfter: null })]),
    ...(zone === null
      ? []
      : [
          change(
            {
              kind: "zone",
              task: own,
              zone,
              holders: line.floor.some((each) => each.zone !== null)
                ? holding((each) => each.zone === zone)
                : null,
            },
            { zone: null },
          ),
        ]),
    ...atStations.map((name) =>
      needed(
        name,
        holding((each) => each.equipment.includes(name)),
      ),
    ),
    ...counted.map((name) => needed(name, null)),
    ...(wantsSkills.length === 0
      ? []
      : [
          change(
            {
              kind: "skills",
              task: own,
              skills: wantsSkills,
              holders: holding((each) => wantsSkills.every((skill) => each.skills?.includes(skill))),
            },
            { skills: skills.filter((skill) => !wantsSkills.includes(skill)) },
          ),
        ]),
    ...(skills.length === 0 || line.people.length === 0 || line.floor.some((each) => each.skills !== null)
      ? []
      : [change({ kind: "skills", task: own, skills, holders: null }, { skills: [] })]),
    ...usesOf(line, line.tasks[task]!).map((rule) =>
      change(rule, { uses: uses.filter((each) => each.limit !== rule.limit) }),
    ),
    ...(people > 1 && line.tasks.some((each) => each.side !== null)
      ? [change({ kind: "several-people", task: own, people }, { people: 1 })]
      : []),
    ...(side === "left" || side === "right"
      ? [change({ kind: "side", task: own, side }, { side: "either" })]
      : []),
  ];
}

/** One for each limit by name, whichever stations have it. */
function limitsOf(line: Line): LineRequirement[] {
  const own = line.floor.flatMap(({ id, limits }) => limits.map((limit) => ({ id, limit })));
  const names = new Set([...line.limits, ...own.map(({ limit }) => limit)].map(({ name }) => name));
  return [...names].map((name): LineRequirement => {
    const facts = (station: string | null, { per, most, unit }: Limit) => {
      return { station, perPerson: isPerPerson(per), perShift: isPerShift(per), most, unit };
    };
    const shared = line.limits.filter((limit) => limit.name === name).map((limit) => facts(null, limit));
    const others = own.filter(({ limit }) => limit.name === name).map((each) => facts(each.id, each.limit));
    const kept = (limits: readonly Limit[]) => limits.filter((limit) => limit.name !== name);
    return {
      tasks: [],
      rule: { kind: "limit", name, of: [...shared, ...others] },
      without: (each) => ({
        ...each,
        limits: kept(each.limits),
        floor: each.floor.map((station) => ({ ...station, limits: kept(station.limits) })),
      }),
    };
  });
}

/** What a task takes of each limit. */
function usesOf(line: Line, task: Task): Extract<LineRule, { kind: "uses" }>[] {
  const limits = [...line.limits, ...line.floor.flatMap((station) => station.limits)];
  return task.uses.flatMap(({ limit, amount }) => {
    const known = limits.find(({ name }) => name === limit);
    if (known === undefined || amount.num === 0n) return [];
    const inShift = isPerShift(known.per) ? amountOf(line, task, known) : null;
    return [{ kind: "uses", task: task.id, limit, amount, unit: known.unit, inShift } as const];
  });
}

function peopleOf(line: Line): LineRequirement[] {
  if (line.people.length === 0 || line.floor.some((each) => each.skills !== null)) return [];
  const several =
    line.tasks.some(({ people, side }) => people > 1 || side !== null) ||
    [line, ...line.floor].some(({ maxCrew }) => (maxCrew ?? 1) > 1);
  return [
    {
      tasks: [],
      rule: { kind: "people", people: line.people, several },
      without: (each) => ({ ...each, people: [] }),
    },
  ];
}

function overloadOf(line: Line): LineRequirement[] {
  if (line.modelOverload === null) return [];
  return [
    {
      tasks: [],
      rule: { kind: "model-overload" },
      without: (each) => ({ ...each, modelOverload: null }),
    },
  ];
}

const id = (line: Line, task: number): string => line.tasks[task]!.id;

export const idsOf = (line: Line, tasks: readonly number[]): string[] => tasks.map((task) => id(line, task));
