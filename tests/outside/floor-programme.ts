import type { Line } from "../../src/line/line.js";
import { multiply, type Ratio, ratio } from "../../src/time/ratio.js";
import type { FloorCase } from "../tools/floor-random-line.js";
import { addSchedules, crewAt, timeHeld } from "./floor-programme-of-schedules.js";
import type { Position, Programme, Staffing } from "./floor-programme-parts.js";
import { ProgrammeText, type Terms } from "./floor-programme-text.js";

/** What a person weighs against a station: no plan of these lines has so many stations. */
export const PERSON = 100;

const seconds = (time: Ratio): number => Number(time.num) / Number(time.den) / 1e6;

/**
 * The line as an integer programme in LP format: the least people x `PERSON` + stations. Positions are those of the floor and `behind`
 * more. Written from the meaning of the rules; the assignment model is that of A. Scholl, Balancing and Sequencing of Assembly
 * Lines (1999), after E. H. Bowman (1960).
 */
export function floorProgramme(given: FloorCase, behind: number): string {
  const { line } = given;
  const text = new ProgrammeText();
  const positions = Array.from({ length: line.floor.length + behind }, (_, at) =>
    openPosition(given, text, at),
  );
  const x = (task: number, at: number) => text.binary(`x_${task}_${at}`);
  const loads = line.tasks.map((task) => seconds(task.load));
  const programme: Programme = { given, text, loads, positions, x };
  for (const task of line.tasks.keys()) addTask(programme, task);
  addOrder(programme);
  addGroups(programme);
  leaveNoGaps(programme);
  for (const position of positions) addStation(programme, position);
  addSchedules(programme);
  for (const [name, count] of line.equipment) addEquipment(programme, name, count);
  if (line.people.length > 0 && line.floor.every(({ skills }) => skills === null)) addPeople(programme);
  const all = positions.flatMap(({ staffings }) => staffings);
  return text.minimise(all.map(({ places, crew, name }) => [PERSON * places * crew + 1, name]));
}

function openPosition({ line, pace }: FloorCase, text: ProgrammeText, at: number): Position {
  const here = line.floor[at];
  const planTo = here?.planTo ?? pace.planTo;
  const apart = line.tasks.some(({ side }) => side !== null) ? 2 : crewAt(line, at);
  const most = Math.max(apart, ...line.tasks.map(({ people }) => people));
  const counts = (to: number) => Array.from({ length: to }, (_, before) => before + 1);
  const staffings = counts(here?.maxPlaces ?? line.maxPlaces).flatMap((places) =>
    counts(most).map((crew): Staffing => {
      const working = places * seconds(pace.lineCycle) - pace.handling / 1e6;
      const limit = (working * Number(planTo.num)) / Number(planTo.den);
      return { places, crew, name: text.binary(`y_${at}_${places}_${crew}`), limit, working };
    }),
  );
  text.row(
    staffings.map(({ name }) => [1, name]),
    "<=",
    1,
  );
  const handledAgain = `again_${at}`;
  return { at, staffings, planTo: Number(planTo.num) / Number(planTo.den), handledAgain };
}

/** Handling beyond one pass for each good unit: units pass a station as often as they meet the task there that is done most. */
function handledAgain({ line, pace }: FloorCase, task: number): number {
  const { visits } = line.tasks[task]!;
  const share = (model: number) => (line.models.length === 0 ? ratio(1) : line.models[model]!.share);
  const passes = visits.reduce(
    (sum, often, model) => sum + seconds(multiply(multiply(often, share(model)), ratio(1_000_000))),
    0,
  );
  return Math.max(0, passes - 1) * (pace.handling / 1e6);
}

/** Every task stands once, where the floor and the task let it, beside a crew of at least its people. */
function addTask({ given, text, positions, x }: Programme, task: number): void {
  const { line } = given;
  text.row(
    positions.map(({ at }) => [1, x(task, at)]),
    "=",
    1,
  );
  const again = handledAgain(given, task);
  for (const { at, staffings, handledAgain: handled } of positions) {
    if (again > 0)
      text.row(
        [
          [1, handled],
          [-again, x(task, at)],
        ],
        ">=",
        0,
      );
    if (!mayStand(line, task, at)) text.row([[1, x(task, at)]], "=", 0);
    const enough = staffings.filter(({ crew }) => crew >= line.tasks[task]!.people);
    text.row([[1, x(task, at)], ...enough.map(({ name }) => [-1, name] as const)], "<=", 0);
  }
}

function mayStand({ floor, tasks }: Line, task: number, at: number): boolean {
  const { stations, notBefore, notAfter, zone, equipment, skills } = tasks[task]!;
  const here = floor[at];
  if (stations !== null && !stations.includes(at)) return false;
  if ((notBefore !== null && at < notBefore) || (notAfter !== null && at > notAfter)) return false;
  const hasZones = floor.some((each) => each.zone !== null);
  if (zone !== null && hasZones && here?.zone !== zone) return false;
  const standing = equipment.filter((name) => floor.some((each) => each.equipment.includes(name)));
  if (standing.some((name) => !here?.equipment.includes(name))) return false;
  const stated = skills.filter((skill) => floor.some((each) => each.skills?.includes(skill)));
  return stated.every((skill) => here?.skills?.includes(skill));
}

/** By any position, what comes before a task is done where the task is; so many positions sooner where it waits. */
function addOrder({ given: { line }, text, positions, x }: Programme): void {
  const arrows = line.before.flatMap((earlier, to) => earlier.map((from) => ({ from, to, stations: 0 })));
  for (const { from, to, stations } of [...arrows, ...line.waits]) {
    for (const { at } of positions) {
      const done = (task: number, last: number, sign: 1 | -1): Terms =>
        positions.filter((each) => each.at <= last).map((each) => [sign, x(task, each.at)]);
      text.row([...done(from, at - stations, 1), ...done(to, at, -1)], ">=", 0);
    }
  }
}

/** Behind the floor all stations are alike: where no wait asks for more than the next one, none of them is left out. */
function leaveNoGaps({ given: { line }, text, positions }: Programme): void {
  if (line.waits.some(({ stations }) => stations > 1)) return;
  for (const { at, staffings } of positions.slice(line.floor.length + 1)) {
    const before = positions[at - 1]!.staffings;
    text.row(
      [...before.map(({ name }) => [1, name] as const), ...staffings.map(({ name }) => [-1, name] as const)],
      ">=",
      0,
    );
  }
}

/** Tasks together, tasks apart, and tasks of different zones. */
function addGroups({ given: { line }, text, positions, x }: Programme): void {
  const pairs = (group: readonly number[]) =>
    group.flatMap((one, at) => group.slice(at + 1).map((two) => [one, two] as const));
  const zones = pairs([...line.tasks.keys()]).filter(([one, two]) => {
    const [first, second] = [line.tasks[one]!.zone, line.tasks[two]!.zone];
    return first !== null && second !== null && first !== second;
  });
  for (const { at } of positions) {
    for (const [one, two] of line.together.flatMap(pairs)) {
      text.row(
        [
          [1, x(one, at)],
          [-1, x(two, at)],
        ],
        "=",
        0,
      );
    }
    for (const [one, two] of [...line.apart.flatMap(pairs), ...zones]) {
      text.row(
        [
          [1, x(one, at)],
          [1, x(two, at)],
        ],
        "<=",
        1,
      );
    }
  }
}

/** Loads within the limit, or within the working time where one task alone takes any; models within their own limit. */
function addStation(programme: Programme, { at, staffings, planTo, handledAgain: again }: Position): void {
  const { given, text, loads, x } = programme;
  const { line, strictLimit } = given;
  const isApart = line.tasks.some(({ side }) => side !== null) || crewAt(line, at) > 1;
  const timed = [...loads.keys()].filter((task) => loads[task]! > 0);
  const work: Terms = timed.map((task) => [loads[task]!, x(task, at)]);
  // Follows from the other rows for whole numbers, and helps the solver before they are whole: person-time of a crew.
  const persons: Terms = timed.map((task) => [loads[task]! * line.tasks[task]!.people, x(task, at)]);
  text.row(
    [...persons, ...staffings.map(({ working, crew, name }) => [-working * crew, name] as const)],
    "<=",
    0,
  );
  if (!isApart) {
    const limits: Terms = [...staffings.map(({ limit, name }) => [-limit, name] as const), [planTo, again]];
    const more = Math.max(...staffings.map(({ limit, working }) => working - limit));
    if (strictLimit || more === 0) text.row([...work, ...limits], "<=", 0);
    else {
      const alone = text.binary(`alone_${at}`);
      text.row([...work, ...limits, [-more, alone]], "<=", 0);
      const workings: Terms = staffings.map(({ working, name }) => [-working, name]);
      text.row([...work, ...workings, [1, again]], "<=", 0);
      const many = timed.length - 1;
      text.row([...timed.map((task) => [1, x(task, at)] as const), [many, alone]], "<=", 1 + many);
    }
  }
  if (line.modelOverload === null || isApart) return;
  const share = 1 + Number(line.modelOverload.num) / Number(line.modelOverload.den);
  for (const model of line.models.keys()) {
    const own: Terms = line.tasks.map(({ times, visits }, task) => [
      seconds(multiply(ratio(times[model] ?? 0), visits[model]!)),
      x(task, at),
    ]);
    const workings: Terms = staffings.map(({ working, name }) => [-working * share, name]);
    text.row([...own, ...workings, [share, again]], "<=", 0);
  }
}

/** Units at a position: one where it is used, or as many as it is held for line cycles, and no more than there are units of the line. */
function addEquipment(programme: Programme, name: string, count: number): void {
  const { given, text, positions, x } = programme;
  const { line, pace } = given;
  const users = [...line.tasks.keys()].filter((task) => line.tasks[task]!.equipment.includes(name));
  for (const { at, staffings } of positions) {
    const units = text.whole(`units_${name}_${at}`);
    const cycle = seconds(pace.lineCycle);
    text.row(
      [[cycle, units], ...users.map((task) => [-timeHeld(programme, task), x(task, at)] as const)],
      ">=",
      0,
    );
    for (const task of users)
      text.row(
        [
          [1, units],
          [-1, x(task, at)],
        ],
        ">=",
        0,
      );
    const holds = line.floor[at]?.holds ?? line.holds;
    text.row(
      [[1, units], ...staffings.map(({ places, name: staffed }) => [-holds * places, staffed] as const)],
      "<=",
      0,
    );
  }
  text.row(
    positions.map(({ at }) => [1, `units_${name}_${at}`]),
    "<=",
    count,
  );
}

/** Everybody is at one position at the most, and has every skill that is needed there; each place has somebody. */
function addPeople({ given: { line }, text, positions, x }: Programme): void {
  const seat = (person: number, at: number) => text.binary(`p_${person}_${at}`);
  for (const [person, { skills }] of line.people.entries()) {
    text.row(
      positions.map(({ at }) => [1, seat(person, at)]),
      "<=",
      1,
    );
    for (const [task, { skills: asked }] of line.tasks.entries()) {
      if (asked.every((skill) => skills.includes(skill))) continue;
      for (const { at } of positions)
        text.row(
          [
            [1, seat(person, at)],
            [1, x(task, at)],
          ],
          "<=",
          1,
        );
    }
  }
  for (const [task, { skills }] of line.tasks.entries()) {
    if (skills.length === 0) continue;
    for (const { at, staffings } of positions) {
      const seated = line.people.map((_, person) => [1, seat(person, at)] as const);
      for (const { places, name } of staffings)
        text.row([...seated, [-places, name], [-places, x(task, at)]], ">=", -places);
    }
  }
}
