import { idKey } from "../line/ids.js";
import type { FloorStation, Limit, Line, Task, Test } from "../line/line.js";
import { asksToKeepPace } from "../line/parts/keep-pace.js";
import { compare, multiply, ONE, type Ratio, ratio } from "../time/ratio.js";
import { sha256 } from "./sha-256.js";

/**
 * A short fingerprint of what a plan was made from, besides the line cycle: tasks, their times, quantities and arrows,
 * handling and plan-to, and whatever the line says of its floor, people, models and tests. It is taken over parsed data, so
 * comments, order of keys and line ends do not change it; nor does anything that a line is silent about.
 */
export function fingerprintOf(line: Line): string {
  const order = modelsById(line);
  const tasks = line.tasks.map(({ id, times, quantity, onBase }, at) => [
    idKey(id),
    times.length === 1 ? times : order.map((model) => times[model]!),
    quantity,
    onBase,
    line.before[at]!,
  ]);
  const planTo = [String(line.planTo.num), String(line.planTo.den)];
  const floor = floorContent(line, order);
  const content = ["linepoise-plan/1", line.handling, planTo, tasks, ...(floor === null ? [] : [floor])];
  return sha256(JSON.stringify(content)).slice(0, 16);
}

/** Numbers of models in the order of their ids, whatever their order in the file. */
function modelsById({ models }: Line): number[] {
  const keys = models.map(({ id }) => idKey(id));
  return [...keys.keys()].sort((one, two) => (keys[one]! < keys[two]! ? -1 : 1));
}

/** Plain data that says the same for lines that say the same. */
type Content = string | number | boolean | null | readonly Content[];

/**
 * What a line says beyond plain tasks and arrows and what a plan therefore depends on; null where it says nothing of the kind.
 * Words that change no plan, such as kinds of work or the sequence of models, are left out.
 *
 * @param order numbers of models in the order in which they are written down
 */
function floorContent(line: Line, order: readonly number[]): Content {
  const parts: Record<string, Content> = {
    tasks: given(line.tasks.map(taskContent)),
    floor: line.floor.map(stationContent),
    equipment: [...line.equipment].sort(byText(([name]) => name)),
    together: groups(line.together),
    apart: groups(line.apart),
    limits: line.limits.map(limitContent),
    waits: sorted(
      line.waits.map(({ from, to, wait, byModel, stations }) => [
        from,
        to,
        wait,
        stations,
        ...(byModel ?? []),
      ]),
    ),
    places: line.maxPlaces === 1 ? null : line.maxPlaces,
    holds: line.holds === 1 ? null : line.holds,
    crew: line.maxCrew === 1 ? null : line.maxCrew,
    people: [...line.people]
      .sort(byText(({ id }) => id))
      .map(({ id, skills }) => [idKey(id), [...skills].sort()]),
    models: order.map((at) => [idKey(line.models[at]!.id), shareContent(line.models[at]!.share)]),
    overload: line.modelOverload && shareContent(line.modelOverload),
    pace: asksToKeepPace(line) ? keepPaceContent(line) : null,
  };
  const said = Object.entries(parts).filter(
    ([, part]) => part !== null && !(Array.isArray(part) && part.length === 0),
  );
  return said.length === 0 ? null : said;
}

/** What is asked at stations behind the floor, then along it, and how far each task varies, whatever its distribution. */
const keepPaceContent = ({ keepPace, floor, tasks }: Line): Content => [
  [keepPace, ...floor.map((station) => station.keepPace)].map((each) => each && shareContent(each.chance)),
  tasks.map(({ variation }) => variation && shareContent(variation.cv)),
];

/** By number of the task; [] where no task says anything. */
function given(tasks: readonly (Content | null)[]): Content {
  return tasks.flatMap((content, at): Content[] => (content === null ? [] : [[at, content]]));
}

/** How often failures have the task done by model, each unit that is due counted once; of the models that have it. */
function repeatsOf({ visits, every, times }: Task): Ratio[] {
  return visits.filter((_, model) => times[model] !== null).map((each) => multiply(each, ratio(every)));
}

/** One share where failures touch the units of every model alike. */
function repeatContent(repeats: readonly Ratio[]): Content {
  const contents = repeats.map(shareContent);
  const isAlike = repeats.every((each) => compare(each, repeats[0]!) === 0);
  return isAlike ? (contents[0] ?? []) : contents;
}

function taskContent(task: Task): Content | null {
  const repeats = repeatsOf(task);
  const parts: readonly (readonly [string, boolean, Content])[] = [
    ["walking", task.walking > 0, task.walking],
    ["machine", task.machineTime > 0, task.machineTime],
    ["every", task.every > 1, task.every],
    ["visits", repeats.some((each) => compare(each, ONE) !== 0), repeatContent(repeats)],
    ["people", task.people > 1, task.peopleByModel === undefined ? task.people : [...task.peopleByModel]],
    ["side", task.side !== null, task.side],
    ["skills", task.skills.length > 0, [...task.skills].sort()],
    ["equipment", task.equipment.length > 0, [...task.equipment].sort()],
    ["zone", task.zone !== null, task.zone],
    ["stations", task.stations !== null, task.stations],
    ["not-before", task.notBefore !== null, task.notBefore],
    ["not-after", task.notAfter !== null, task.notAfter],
    [
      "uses",
      task.uses.length > 0,
      task.uses.map(({ limit, amount }) => [idKey(limit), shareContent(amount)]),
    ],
    ["test", task.test !== null, task.test && testContent(task.test)],
  ];
  const said = parts.filter(([, isGiven]) => isGiven).map(([name, , value]) => [name, value]);
  return said.length === 0 ? null : said;
}

function testContent(test: Test): Content {
  if (test.failures === "scrapped") return [shareContent(test.scrap)];
  const fail = test.failByModel?.map(shareContent) ?? shareContent(test.fail);
  return [fail, test.repair, test.returnTo, test.retest];
}

function stationContent(station: FloorStation): Content {
  const { id, zone, equipment, skills, maxPlaces, holds, maxCrew, planTo, limits } = station;
  return [
    idKey(id),
    zone,
    [...equipment].sort(),
    skills && [...skills].sort(),
    maxPlaces,
    planTo && shareContent(planTo),
    ...(limits.length === 0 ? [] : [limits.map(limitContent)]),
    ...(holds === null ? [] : [["holds", holds]]),
    ...(maxCrew === null ? [] : [["crew", maxCrew]]),
  ];
}

const limitContent = ({ name, per, most, unit }: Limit): Content => [
  idKey(name),
  per,
  shareContent(most),
  unit,
];

const shareContent = ({ num, den }: Ratio): Content => [String(num), String(den)];

const groups = (all: readonly (readonly number[])[]): Content =>
  sorted(all.map((group) => [...group].sort((one, two) => one - two)));

const sorted = (rows: readonly (readonly number[])[]): Content => [...rows].sort(byText(JSON.stringify));

/** Ascending by code unit, never by locale. */
function byText<T>(textOf: (item: T) => string): (one: T, two: T) => number {
  return (one, two) => {
    const [first, second] = [textOf(one), textOf(two)];
    return first < second ? -1 : first > second ? 1 : 0;
  };
}
