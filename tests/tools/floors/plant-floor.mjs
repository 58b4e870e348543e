import { addRules } from "./add-rules.mjs";
import { drawFromSeed, onceIn, pick } from "./draw-from-seed.mjs";
import { lineText, planText } from "./floor-text.mjs";

// Invented floors around a plan that is drawn first: stations are filled with work, and whatever is then asked of a task or of a
// pair is true of where they stand. So a plan exists by construction, and nobody knows whether fewer people could do.

/** Units a day of 7 h 30 min, each with a takt of whole seconds. */
const DEMANDS = [90, 100, 108, 125, 135, 150];
const SECONDS_A_DAY = 27_000;
/** The share of the longest model beyond the first; every task of a model is at most so much longer. */
const LONGEST = 5 / 4;
const SHORTEST_TASK = 8;

/**
 * A floor and a plan of it, the same for the same seed and size. Floors of even seeds have models, every fourth one has two sides.
 *
 * @param given a seed from 1, and how many tasks at least and at most
 * @returns the texts of a line file and of a plan file, and the people of that plan, repairs left out
 */
export function plantFloor({ seed, fewest = 40, most = 60 }) {
  const draw = drawFromSeed(seed * 7919);
  // Neighbouring seeds begin alike; a few numbers later they have nothing in common.
  for (let turn = 0; turn < 8; turn++) draw(2);
  const demand = pick(draw, DEMANDS);
  const floor = {
    name: `Planted floor ${seed}`,
    demand,
    takt: SECONDS_A_DAY / demand,
    handling: 3 + draw(4),
    planTo: onceIn(draw, 4) ? 95 : 100,
    isSided: seed % 4 === 3,
    hasModels: seed % 2 === 0,
    stations: [],
    tasks: [],
    equipment: new Map(),
    people: [],
    together: [],
    apart: [],
  };
  const size = fewest + draw(most - fewest + 1);
  while (floor.tasks.length < size) addStation(draw, floor, size);
  addRules(draw, floor);
  const people = floor.stations.reduce((sum, station) => sum + station.places * crewOf(floor, station), 0);
  return { name: floor.name, line: lineText(floor), plan: planText(floor), people };
}

/** Nobody at a station that stays empty. */
function crewOf({ tasks }, station) {
  if (station.tasks.length === 0) return 0;
  const own = station.tasks.map((at) => tasks[at]);
  const sides = new Set(own.flatMap(({ stands }) => stands));
  return Math.max(sides.size, ...own.map(({ people }) => people));
}

/**
 * Fills a station with work up to somewhere between 84 and 100 % of its limit. Each task counts with its longest model, so that no
 * share of models can overload it, and work of every so many units counts in full. At two places a first task takes longer than one
 * place allows. What failures have done again is kept free.
 */
function addStation(draw, floor, size) {
  const { takt, handling, planTo, isSided, stations, tasks } = floor;
  const limitOf = (places) => ((places * takt - handling) * planTo) / 100;
  const isLong = !isSided && onceIn(draw, 6);
  const isTeam = onceIn(draw, 4);
  const isTested = onceIn(draw, 7) && stations.filter(({ fail }) => fail > 0).length < 2;
  const station = {
    id: `P${10 * (stations.length + 1)}`,
    places: isLong ? 2 : 1,
    fail: isTested ? 2 + draw(4) : 0,
    tasks: [],
    zone: null,
    equipment: [],
    skills: [],
    maxPlaces: isLong ? 2 : null,
  };
  const { places, fail } = station;
  // Done again in full: f / (1 - f) of the work, which is that of both sides.
  const once = (limitOf(places) * (100 - fail)) / (isSided ? 100 + fail : 100);
  const target = Math.floor((once * (84 + draw(17))) / 100);
  const sides = isSided && !isTeam && onceIn(draw, 3) ? [pick(draw, ["left", "right"])] : ["left", "right"];
  const clock = { isSided, sides, free: { left: 0, right: 0 }, ends: new Map() };
  stations.push(station);
  // A last task at each side is as short as what is left there.
  for (let fullSides = 0; fullSides < (isSided ? 2 : 1) && tasks.length < size; ) {
    const task = drawTask(draw, floor);
    const isFirst = station.tasks.length === 0;
    if (isTeam && (isFirst || onceIn(draw, 3))) task.people = 2;
    if (isLong && isFirst) {
      Object.assign(task, { byModel: false, seconds: Math.ceil(limitOf(1)) + 1 + draw(takt / 5) });
    }
    const start = startOf(draw, task, clock);
    if (start + longestOf(task) > target) {
      fullSides++;
      task.seconds = Math.floor((target - start) / (task.byModel ? LONGEST : 1));
    }
    if (task.seconds < SHORTEST_TASK) continue;
    const end = start + longestOf(task);
    for (const side of task.stands) clock.free[side] = end;
    clock.ends.set(tasks.length, end);
    station.tasks.push(tasks.length);
    tasks.push(task);
  }
}

/** Of all lengths up to nearly half a takt, after one or two of the tasks shortly before it. */
function drawTask(draw, { takt, tasks, hasModels }) {
  const count = tasks.length === 0 || onceIn(draw, 10) ? 0 : 1 + draw(2);
  const after = Array.from({ length: count }, () => tasks.length - 1 - draw(Math.min(tasks.length, 9)));
  return {
    id: `t${tasks.length + 1}`,
    seconds: SHORTEST_TASK + 4 + draw(Math.floor(takt * 0.36)),
    byModel: hasModels && onceIn(draw, 2),
    isOfAllModels: !onceIn(draw, 8),
    people: 1,
    every: onceIn(draw, 24) ? 5 : 1,
    side: null,
    stands: ["left"],
    after: [...new Set(after)].sort((one, two) => one - two).map((task) => ({ task, wait: 0, stations: 0 })),
    zone: null,
    equipment: [],
    skill: null,
    station: null,
    notBefore: null,
    notAfter: null,
    test: null,
  };
}

/** Seconds of the longest model, rounded up. */
const longestOf = ({ seconds, byModel }) => (byModel ? Math.ceil(seconds * LONGEST) : seconds);

/** Gives a task its side where there are two, and tells when it can start: its side is free and what it waits for has ended. */
function startOf(draw, task, { isSided, sides, free, ends }) {
  if (!isSided) return free.left;
  if (task.people > 1) task.stands = ["left", "right"];
  else {
    const idle = sides.toSorted((one, two) => free[one] - free[two])[0];
    task.stands = [onceIn(draw, 6) ? pick(draw, sides) : idle];
    task.side = onceIn(draw, 2) ? "either" : task.stands[0];
  }
  const earlier = task.after.map((each) => ends.get(each.task) ?? 0);
  return Math.max(...task.stands.map((side) => free[side]), ...earlier);
}
