import type { Limit, Line, Task } from "../../line/line.js";
import { amountOf, isPerPerson, isPerShift } from "../../line/parts/limits.js";
import type { Ratio } from "../../time/ratio.js";
import { decimal } from "../../time/show-values.js";

/** One thing that a line file asks for and that a plan must keep; without it the line has one rule fewer. */
export interface LineRequirement {
  /** Tasks that it names. */
  readonly tasks: readonly number[];
  /** A clause without a full stop, such as "P is fixed to S1". */
  readonly words: string;
  /** The counted equipment of which it says how many exist. */
  readonly equipment?: string;
  /** It holds its only task to some stations, or to the first ones. */
  readonly holdsEarly?: boolean;
  without(line: Line): Line;
}

/** Everything but the limit of a station that may keep a line from having a plan: arrows, rules, and the times of tasks. */
export function requirementsOf(line: Line): LineRequirement[] {
  return [
    ...line.tasks.flatMap((_, task) => ofTask(line, task)),
    ...line.together.map(
      (tasks, at): LineRequirement => ({
        tasks,
        words: `${names(line, tasks)} share a station (together)`,
        without: (each) => ({
          ...each,
          together: each.together.map((group, other) => (other === at ? [] : group)),
        }),
      }),
    ),
    ...line.apart.map(
      (tasks, at): LineRequirement => ({
        tasks,
        words: `no two of ${names(line, tasks)} share a station (apart)`,
        without: (each) => ({
          ...each,
          apart: each.apart.map((group, other) => (other === at ? [] : group)),
        }),
      }),
    ),
    ...line.waits.map(
      (wait, at): LineRequirement => ({
        tasks: [wait.from, wait.to],
        words: `${id(line, wait.to)} waits for ${id(line, wait.from)}, so it stands ${wait.stations === 1 ? "at a later station" : `${wait.stations} stations later or more`}`,
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
        words: `only ${count} ${name} ${count === 1 ? "exists" : "exist"}`,
        equipment: name,
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
          words: `${id(line, each)} comes before ${id(line, task)}`,
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
  const change = (words: string, changed: Partial<Task>): LineRequirement => ({
    tasks: [task],
    words,
    without: (each) => ({
      ...each,
      tasks: each.tasks.map((other, at) => (at === task ? { ...other, ...changed } : other)),
    }),
  });
  const listed = (names: readonly string[]) => names.join(" and ");
  const wantsEquipment = equipment.filter((name) => line.floor.some((each) => each.equipment.includes(name)));
  const wantsSkills = skills.filter((skill) => line.floor.some((each) => each.skills?.includes(skill)));
  const holding = (has: (each: Line["floor"][number]) => boolean) => {
    const ids = line.floor.filter(has).map((each) => each.id);
    return ids.length === 0
      ? "no station has"
      : `only ${ids.join(", ")} ${ids.length === 1 ? "has" : "have"}`;
  };
  return [
    ...(stations === null
      ? []
      : [
          {
            ...change(`${own} is fixed to ${stations.map(station).join(" or ")}`, { stations: null }),
            holdsEarly: true,
          },
        ]),
    ...(notBefore === null || notBefore === 0
      ? []
      : [change(`${own} may not stand before ${station(notBefore)}`, { notBefore: null })]),
    ...(notAfter === null
      ? []
      : [
          {
            ...change(`${own} may not stand after ${station(notAfter)}`, { notAfter: null }),
            holdsEarly: true,
          },
        ]),
    ...(zone === null
      ? []
      : [
          change(
            line.floor.some((each) => each.zone !== null)
              ? `${own} needs the zone ${zone}, which ${holding((each) => each.zone === zone)}`
              : `${own} needs the zone ${zone}`,
            { zone: null },
          ),
        ]),
    ...wantsEquipment.map((name) =>
      change(`${own} needs ${name}, which ${holding((each) => each.equipment.includes(name))}`, {
        equipment: equipment.filter((other) => other !== name),
      }),
    ),
    ...equipment
      .filter((name) => !wantsEquipment.includes(name) && line.equipment.has(name))
      .map((name) =>
        change(`${own} needs ${name}`, { equipment: equipment.filter((other) => other !== name) }),
      ),
    ...(wantsSkills.length === 0
      ? []
      : [
          change(
            `${own} needs the skill ${listed(wantsSkills)}, which ${holding((each) => wantsSkills.every((skill) => each.skills?.includes(skill)))}`,
            { skills: skills.filter((skill) => !wantsSkills.includes(skill)) },
          ),
        ]),
    ...(skills.length === 0 || line.people.length === 0 || line.floor.some((each) => each.skills !== null)
      ? []
      : [change(`${own} needs the skill ${listed(skills)}`, { skills: [] })]),
    ...usesOf(line, line.tasks[task]!).map(({ limit, words }) =>
      change(words, { uses: uses.filter((each) => each.limit !== limit) }),
    ),
    ...(people > 1 && line.tasks.some((each) => each.side !== null)
      ? [change(`${own} needs ${people} people at once`, { people: 1 })]
      : []),
    ...(side === "left" || side === "right"
      ? [change(`${own} is done on the ${side}`, { side: "either" })]
      : []),
  ];
}

/** One for each limit by name, whichever stations have it. */
function limitsOf(line: Line): LineRequirement[] {
  const own = line.floor.flatMap(({ id, limits }) => limits.map((limit) => ({ id, limit })));
  const names = new Set([...line.limits, ...own.map(({ limit }) => limit)].map(({ name }) => name));
  return [...names].map((name): LineRequirement => {
    const of = line.limits.filter((limit) => limit.name === name).map((limit) => limitWords("a", limit));
    const others = own
      .filter(({ limit }) => limit.name === name)
      .map(({ id, limit }) => limitWords(id, limit));
    const kept = (limits: readonly Limit[]) => limits.filter((limit) => limit.name !== name);
    return {
      tasks: [],
      words: [...of, ...others].join(", "),
      without: (each) => ({
        ...each,
        limits: kept(each.limits),
        floor: each.floor.map((station) => ({ ...station, limits: kept(station.limits) })),
      }),
    };
  });
}

/** "a station has 1.2 m of shelf", "W1 has 2000 kg of lifted-mass for a person in a shift". */
function limitWords(station: string, { name, per, most, unit }: Limit): string {
  const who = station === "a" ? (isPerPerson(per) ? "a person has" : "a station has") : `${station} has`;
  const whose = station !== "a" && isPerPerson(per) ? " for a person" : "";
  return `${who} ${amountWords(most, unit)} of ${name}${whose}${isPerShift(per) ? " in a shift" : ""}`;
}

const amountWords = (amount: Ratio, unit: string): string =>
  unit === "" ? decimal(amount, 6) : `${decimal(amount, 6)} ${unit}`;

/** What a task takes of each limit. */
function usesOf(line: Line, task: Task): { readonly limit: string; readonly words: string }[] {
  const limits = [...line.limits, ...line.floor.flatMap((station) => station.limits)];
  return task.uses.flatMap(({ limit, amount }) => {
    const known = limits.find(({ name }) => name === limit);
    if (known === undefined || amount.num === 0n) return [];
    const inShift = isPerShift(known.per) ? amountOf(line, task, known) : null;
    const shift = inShift === null ? "" : `, ${amountWords(inShift, known.unit)} in a shift`;
    return [{ limit, words: `${task.id} uses ${amountWords(amount, known.unit)} of ${limit}${shift}` }];
  });
}

function peopleOf(line: Line): LineRequirement[] {
  if (line.people.length === 0 || line.floor.some((each) => each.skills !== null)) return [];
  const who = line.people.map((person) => `${person.id}: ${person.skills.join(", ")}`).join("; ");
  const several = line.tasks.some(({ people, side }) => people > 1 || side !== null);
  const also = several ? ", also where several work there" : "";
  return [
    {
      tasks: [],
      words: `the people listed have these skills (${who}); at each place one person has all that its tasks need${also}`,
      without: (each) => ({ ...each, people: [] }),
    },
  ];
}

function overloadOf(line: Line): LineRequirement[] {
  if (line.modelOverload === null) return [];
  return [
    {
      tasks: [],
      words: "no model may exceed its stated overload",
      without: (each) => ({ ...each, modelOverload: null }),
    },
  ];
}

const id = (line: Line, task: number): string => line.tasks[task]!.id;

export function names(line: Line, tasks: readonly number[]): string {
  const all = tasks.map((task) => id(line, task));
  return all.length < 2 ? all.join("") : `${all.slice(0, -1).join(", ")} and ${all.at(-1)}`;
}
