import { drawFromSeed, onceIn, pick } from "./draw-from-seed.mjs";
import { listText, mapText, planOfRows } from "./floor-text.mjs";

// Invented lines with machines around a plan that is drawn first. Each station is worked off as a schedule while it is filled, so how
// long its unit stands is known, and the plan keeps every limit by construction. Nobody knows whether fewer people could do.

/** Units a day of 7 h 30 min, each with a takt of whole seconds. */
const DEMANDS = [90, 100, 108, 125, 135, 150];
const SECONDS_A_DAY = 27_000;
const SHORTEST_TASK = 8;

/**
 * A line with machines and a plan of it, the same for the same seed and terms. A machine runs for a task by itself, or at a rig to which the
 * unit is hooked up before and from which it is unhooked. Where people may share the work of a unit, two do at every third station or so.
 *
 * @param given a seed from 1, how many tasks, how many of them run a machine (at most one in six), and the most people who share a unit
 * @returns the texts of a line file and of a plan file, and the people of that plan
 */
export function plantMachines({ seed, size, machines, maxCrew = 1 }) {
  const draw = drawFromSeed(seed * 6007);
  for (let turn = 0; turn < 8; turn++) draw(2);
  const demand = pick(draw, DEMANDS);
  const name = `Planted machines ${seed}`;
  const line = { name, demand, handling: 3 + draw(4), size, machines, maxCrew, tasks: [], stations: [] };
  line.takt = SECONDS_A_DAY / demand;
  line.isRun = Array(machines).fill(false);
  while (line.tasks.length < size) fillStation(draw, line);
  const people = line.stations.reduce((sum, station) => sum + crewOf(line, station), 0);
  return { name, line: lineText(line), plan: planText(line), people };
}

/** Fills a station up to 84 to 100 % of its working time, with a machine wherever the next one is due. */
function fillStation(draw, line) {
  const { tasks, stations, size, isRun } = line;
  const target = Math.floor(((line.takt - line.handling) * (84 + draw(17))) / 100);
  const crew = Math.min(line.maxCrew, onceIn(draw, 3) ? 2 : 1);
  const station = { id: `P${10 * (stations.length + 1)}`, target, tasks: [], free: Array(crew).fill(0) };
  stations.push(station);
  for (let hasRoom = true; hasRoom && tasks.length < size; ) {
    const next = isRun.indexOf(false);
    const isDue = next >= 0 && tasks.length * isRun.length >= next * size;
    hasRoom = isDue ? addMachine(draw, line, station, next) : addHandWork(draw, line, station);
  }
}

/** One task of hands after one or two of those shortly before it, as short as what is left; whether there was room. */
function addHandWork(draw, line, station) {
  const before = line.tasks.length;
  const count = before === 0 || onceIn(draw, 10) ? 0 : 1 + draw(2);
  const after = Array.from({ length: count }, () => before - 1 - draw(Math.min(before, 9)));
  const isTeam = station.free.length > 1 && onceIn(draw, 8);
  const persons = isTeam ? [0, 1] : [firstFree(station)];
  const task = { seconds: drawSeconds(draw, line), after: [...new Set(after)], persons };
  const left = station.target - startOf(line, station, task);
  if (left < SHORTEST_TASK) return false;
  put(line, station, { ...task, seconds: Math.min(task.seconds, left) });
  return true;
}

/** A task with a machine, or three at a rig and what is done while it runs; whether there was room, as an empty station always has. */
function addMachine(draw, line, station, number) {
  const machine = 20 + draw(Math.floor(line.takt * 0.3));
  const [isRig, hook, unhook] = [onceIn(draw, 2), SHORTEST_TASK + draw(15), SHORTEST_TASK + draw(10)];
  const person = firstFree(station);
  const around = isRig ? hook + unhook : 0;
  if (station.free[person] + around + SHORTEST_TASK + machine > station.target) return false;
  line.isRun[number] = true;
  const own = { rig: isRig ? `rig ${number + 1}` : null, persons: [person] };
  if (isRig) put(line, station, { ...own, seconds: hook, after: [] });
  const after = isRig ? [line.tasks.length - 1] : [];
  const running = line.tasks.length;
  const end = put(line, station, { ...own, seconds: SHORTEST_TASK, machine, after });
  while (isRig && end - station.free[person] >= SHORTEST_TASK && !onceIn(draw, 3)) {
    const seconds = Math.min(drawSeconds(draw, line), end - station.free[person]);
    put(line, station, { seconds, after: [], persons: [person] });
  }
  if (isRig) put(line, station, { ...own, seconds: unhook, after: [running] });
  return true;
}

const drawSeconds = (draw, { takt }) => SHORTEST_TASK + 4 + draw(Math.floor(takt * 0.36));

const firstFree = ({ free }) => free.indexOf(Math.min(...free));

/** Nobody but who has work there. */
const crewOf = ({ tasks }, station) => new Set(station.tasks.flatMap((task) => tasks[task].persons)).size;

/** Once its people are free and what it waits for at this station has ended. */
function startOf({ tasks }, station, { after, persons }) {
  const ends = after.filter((task) => station.tasks.includes(task)).map((task) => tasks[task].end);
  return Math.max(...persons.map((person) => station.free[person]), ...ends);
}

/** Puts the task to its people, and tells when it ends with its machine. */
function put(line, station, { machine = 0, rig = null, ...task }) {
  const handsEnd = startOf(line, station, task) + task.seconds;
  for (const person of task.persons) station.free[person] = handsEnd;
  station.tasks.push(line.tasks.length);
  line.tasks.push({ id: `t${line.tasks.length + 1}`, machine, rig, ...task, end: handsEnd + machine });
  return handsEnd + machine;
}

function lineText({ name, demand, handling, maxCrew, tasks }) {
  const rigs = [...new Set(tasks.flatMap(({ rig }) => rig ?? []))];
  return [
    `line: ${name}`,
    "unit: s",
    `demand: ${demand} per day`,
    "calendar: {shifts: {day: {length: 7.5 h}}}",
    `handling: ${handling} s`,
    ...(maxCrew > 1 ? [`max-crew: ${maxCrew}`] : []),
    ...(rigs.length > 0 ? [`equipment: {${rigs.map((rig) => `${rig}: 1`).join(", ")}}`] : []),
    "tasks:",
    ...tasks.map((task) => `  ${task.id}: ${mapText(taskKeys(task, tasks))}`),
    "",
  ].join("\n");
}

const taskKeys = ({ seconds, machine, rig, after, persons }, tasks) => ({
  time: seconds,
  "machine-time": machine > 0 ? machine : null,
  equipment: rig,
  people: persons.length > 1 ? persons.length : null,
  after: listText(after.toSorted((one, two) => one - two).map((task) => tasks[task].id)),
});

function planText(line) {
  const { tasks } = line;
  const rows = line.stations.map((station) => {
    const { id, tasks: own } = station;
    return mapText({
      id,
      tasks: listText(own.map((task) => tasks[task].id)),
      persons: crewOf(line, station) > 1 ? mapText(personsOf(own.map((task) => tasks[task]))) : null,
    });
  });
  return planOfRows(rows);
}

const personsOf = (tasks) =>
  Object.fromEntries(
    tasks.map(({ id, persons }) => [id, listText(persons.map((person) => `${person + 1}`))]),
  );
