import type { StationSide } from "../../plan/plan.js";
import { divide, larger, ratio } from "../../time/ratio.js";
import { type FilledStation, kindAt, limitsWith, type StationLimits, type Work } from "../work.js";
import { heldAgain, modelsAgain, orderTasks, timeAgain } from "./schedule/fit-schedule.js";
import { MOST_SHARING, withSkills } from "./schedule/people-of-tasks.js";
import { limitOf, scheduleLimits, tasksOf, whoDoes } from "./schedule/schedule-limits.js";
import type { ScheduleProblem, StationOrder } from "./schedule/schedule-problem.js";
import { StationTasks } from "./schedule/station-tasks.js";
import { NO_TEAM } from "./staff-skills.js";

/** In which order, and by whom, a station does its tasks; null where nothing but their sum matters, or it cannot hold them. */
export function arrangeStation(work: Work, station: FilledStation): StationOrder | null {
  const { schedule } = work;
  if (schedule === null) return null;
  const known = arranged.get(work) ?? new Map<string, StationOrder | null>();
  arranged.set(work, known);
  const { position, blocks, places, crew, equipment, team } = station;
  const key = `${team?.join() ?? ""}/${kindAt(work, position)}/${places}/${crew}/${equipment?.join() ?? ""}:${blocks.toSorted((one, two) => one - two).join()}`;
  let order = known.get(key);
  if (order === undefined) {
    // Units that were enough at another pace may be too few at this one, and then the station takes more of them.
    order =
      orderOf(work, schedule, station) ??
      orderOf(work, schedule, { position, blocks, places, crew, team: team ?? NO_TEAM });
    if (known.size < MOST_REMEMBERED) known.set(key, order);
  }
  return order;
}

/** By work, as long as that is in use: moves and swaps come back to the same stations again and again. */
const arranged = new WeakMap<Work, Map<string, StationOrder | null>>();
const MOST_REMEMBERED = 100_000;

function orderOf(work: Work, problem: ScheduleProblem, station: FilledStation): StationOrder | null {
  const { position, blocks, places, crew, team = NO_TEAM } = station;
  const kind = kindAt(work, position);
  const within = limitsWith(work, kind, blocks);
  const isShared = within.maxCrew > 1;
  const most = limitOf(work, station);
  const limits = scheduleLimits(work, { within, places, crew, units: station.equipment ?? null, most });
  const all = tasksOf(work, blocks);
  const at = new StationTasks(problem, all);
  const people = whoDoes(problem, all, limits.persons, isShared);
  const who = people && withSkills(work, people, all, team);
  const found = who === null ? null : orderTasks(at, limits, who);
  if (who === null || found === null) return null;
  const { order, schedule } = found;
  const held = (counted: number) => {
    const name = at.names.findIndex((each) => problem.countedAs[each.name] === counted);
    return name < 0 ? 0 : schedule.spanOf(name) + heldAgain(problem, all, counted);
  };
  const { sides, isShared: isEach } = who;
  const busiest = (loads: readonly number[]) =>
    Math.max(
      ...Array.from({ length: who.persons }, (_, person) =>
        order.tasks.reduce((sum, task, index) => {
          const isHis = !isEach || ((order.masks[index]! >>> person) & 1) === 1;
          return isHis ? sum + loads[all[task]!]! : sum;
        }, 0),
      ),
    );
  const dwell = schedule.least();
  const again = modelsAgain(problem, all);
  const ends = schedule.modelEnds();
  const hands = busiest(problem.loads);
  const isByPerson = sides !== null || (isShared && crew > 1);
  return {
    tasks: order.tasks.map((each) => all[each]!),
    sides: sides && order.masks.map((mask) => sideOf(sides, mask)),
    persons:
      isShared && crew > 1
        ? withNobodyIdle(
            crew,
            order.masks.map((mask) => personsOf(crew, who.persons, mask)),
            order.tasks.map((task) => personsOf(crew, who.persons, who.able?.[task] ?? -1)),
          )
        : null,
    hands,
    ofModels: problem.modelLoads.map((loads, model) => {
      const busy = ratio(busiest(loads));
      if (sides === null) return busy;
      const stands = divide(ratio(ends[model]! + again[model]!), work.modelShares[model]!);
      return larger(busy, divide(stands, ratio(within.holds)));
    }),
    // Where hands alone are at work, one thing after the other, a unit stands as long as its station is loaded.
    dwell: isByPerson || at.machines.some((each) => each > 0) ? dwell + timeAgain(problem, all) : hands,
    equipment: work.equipment.map((_, counted) => held(counted)),
  };
}

/** How long a unit stands at a station of a kind for some tasks at the least, by as many people as may share them; in parts. */
export function leastDwell(work: Work, tasks: readonly number[], { maxCrew }: StationLimits): number {
  const { schedule } = work;
  const inOrder = work.members.flat().filter((task) => tasks.includes(task));
  const people = inOrder.map((task) => schedule!.people[task]!);
  const all = people.reduce((sum, each) => sum + each, 0);
  const shared = Math.min(MOST_SHARING, Math.max(Math.min(maxCrew, all), ...people));
  const crew = schedule!.sides !== null ? 2 : maxCrew === 1 ? 1 : shared;
  const endless = Number.POSITIVE_INFINITY;
  const limits = {
    persons: crew,
    dwell: endless,
    hands: endless,
    model: endless,
    modelDwell: schedule!.again.map(() => endless),
    equipment: work.equipment.map(() => endless),
  };
  const who = whoDoes(schedule!, inOrder, crew, maxCrew > 1)!;
  const { order } = orderTasks(new StationTasks(schedule!, inOrder), limits, who)!;
  return order.dwell + timeAgain(schedule!, inOrder);
}

function sideOf(sides: readonly StationSide[], mask: number): StationSide {
  return mask === 3 ? "both" : sides[mask - 1]!;
}

/**
 * People who are there for a limit of each person only take over a task of somebody who has several, or of somebody who then takes over
 * another: nothing starts later by that.
 *
 * @param able of whom one must be at each task
 */
function withNobodyIdle(
  crew: number,
  persons: readonly (readonly number[])[],
  able: readonly (readonly number[])[],
): (readonly number[])[] {
  const shared = [...persons];
  const tasksOf = (person: number) => shared.filter((own) => own.includes(person)).length;
  const take = (idle: number, isFree: (busy: number) => boolean): boolean =>
    shared.some((own, at) =>
      own.some((busy) => {
        if (own.includes(idle)) return false;
        const now = own.map((each) => (each === busy ? idle : each)).sort((one, two) => one - two);
        if (!now.some((each) => able[at]!.includes(each)) || !isFree(busy)) return false;
        shared[at] = now;
        return true;
      }),
    );
  const takeOver = (idle: number, seen: readonly number[]): boolean =>
    take(idle, (busy) => tasksOf(busy) > 1) ||
    take(idle, (busy) => !seen.includes(busy) && takeOver(busy, [...seen, busy]));
  for (let idle = 1; idle <= crew; idle++) if (tasksOf(idle) === 0) takeOver(idle, [idle]);
  return shared;
}

/** Numbers from 1; a crew too large to share work is one person of the schedule. */
function personsOf(crew: number, persons: number, mask: number): number[] {
  const all = Array.from({ length: crew }, (_, person) => person + 1);
  return persons === 1 ? all : all.filter((person) => ((mask >>> (person - 1)) & 1) === 1);
}
