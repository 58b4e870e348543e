import { parse } from "yaml";
import { drawFromSeed, pick } from "./draw-from-seed.mjs";

/**
 * A plan as it may have stood before the given one: some of its stations are dissolved, the tasks of them put at others, and more tasks
 * moved. Order, stations between, zones, pairs and what stays apart are kept, the times of stations are not: to move the same tasks back
 * makes the given plan. Of the line file it reads `after`, `zone`, `stations`, `apart` and `together`; tasks stand in an order of work.
 *
 * Gives the stations, and how many tasks stand elsewhere than in the given plan.
 */
export function disturbPlan(lineText, stations, { seed, dissolved, moved }) {
  const draw = drawFromSeed(seed);
  const floor = readFloor(lineText, stations);
  const { places, goal } = floor;
  let at = new Map(goal);
  const open = new Set(places.keys());

  const move = (task) => {
    const target = emptiest(floor, at, open, task, draw);
    if (target === null) return false;
    at.set(task, target);
    return true;
  };

  for (let [left, tries] = [dissolved, 0]; left > 0 && tries < MOST_TRIES; tries++) {
    const place = pick(draw, [...open]);
    const before = new Map(at);
    open.delete(place);
    if (dissolve(floor, at, place, move)) left--;
    else {
      at = before;
      open.add(place);
    }
  }
  for (let [left, tries] = [moved, 0]; left > 0 && tries < MOST_TRIES; tries++) {
    const task = pick(draw, [...goal.keys()]);
    if (!floor.paired.has(task) && at.get(task) === goal.get(task) && move(task)) left--;
  }

  const today = places.map(({ id }, place) => ({
    id,
    tasks: [...at].flatMap(([task, stands]) => (stands === place ? [task] : [])),
  }));
  return {
    stations: today.filter(({ tasks }) => tasks.length > 0),
    moves: [...at].filter(([task, place]) => place !== goal.get(task)).length,
  };
}

const MOST_TRIES = 2_000;
/** A task goes to one of so many of the emptiest stations that may have it. */
const EMPTIEST = 3;
/** Tasks of a station that cannot move before others of it have are tried again. */
const ROUNDS = 4;

function readFloor(lineText, stations) {
  const line = parse(lineText);
  const zones = new Map((line.stations ?? []).map(({ id, zone }) => [id, zone]));
  const positions = new Map([...zones.keys()].map((id, position) => [id, position]));
  const places = stations.map(({ id }, place) => ({
    id,
    zone: zones.get(id) ?? null,
    position: positions.get(id) ?? place,
  }));
  const placeOf = new Map(stations.flatMap(({ tasks }, place) => tasks.map((task) => [task, place])));
  const names = Object.keys(line.tasks);
  const arrows = names.flatMap((to) =>
    (line.tasks[to].after ?? []).map((each) =>
      typeof each === "string"
        ? { from: each, to, between: 0 }
        : { from: each.task, to, between: each.stations },
    ),
  );
  return {
    places,
    tasks: line.tasks,
    goal: new Map(names.map((name) => [name, placeOf.get(name)])),
    arrows,
    apart: line.apart ?? [],
    paired: new Set((line.together ?? []).flat()),
  };
}

/** Puts all tasks of a station elsewhere; false where one cannot go. */
function dissolve({ paired }, at, place, move) {
  let left = [...at.keys()].filter((task) => at.get(task) === place);
  if (left.some((task) => paired.has(task))) return false;
  for (let round = 0; round < ROUNDS && left.length > 0; round++) left = left.filter((task) => !move(task));
  return left.length === 0;
}

function emptiest({ places, tasks, arrows, apart }, at, open, task, draw) {
  const { zone = null } = tasks[task];
  const positionOf = (other) => places[at.get(other)].position;
  const first = Math.max(
    0,
    ...arrows.filter(({ to }) => to === task).map(({ from, between }) => positionOf(from) + between),
  );
  const last = Math.min(
    Number.POSITIVE_INFINITY,
    ...arrows.filter(({ from }) => from === task).map(({ to, between }) => positionOf(to) - between),
  );
  const parted = apart
    .filter((pair) => pair.includes(task))
    .map((pair) => at.get(pair.find((other) => other !== task)));
  const allowed = [...open].filter(
    (place) =>
      place !== at.get(task) &&
      places[place].position >= first &&
      places[place].position <= last &&
      (zone === null || places[place].zone === zone) &&
      !parted.includes(place),
  );
  if (allowed.length === 0) return null;
  const loads = new Map(allowed.map((place) => [place, 0]));
  for (const [other, place] of at)
    if (loads.has(place)) loads.set(place, loads.get(place) + longest(tasks[other].time));
  allowed.sort((one, two) => loads.get(one) - loads.get(two) || one - two);
  return pick(draw, allowed.slice(0, EMPTIEST));
}

/** Of a time, or of times by model. */
const longest = (time) => (typeof time === "object" ? Math.max(...Object.values(time)) : time);
