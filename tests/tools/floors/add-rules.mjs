import { onceIn, pick } from "./draw-from-seed.mjs";

const ZONES = ["frame", "wheels", "wiring", "finish"];
const SKILLS = ["wheel truing", "wiring", "brakes"];

/** Asks of the tasks and pairs of a filled floor what is true of where they stand. */
export function addRules(draw, floor) {
  addSpareStation(draw, floor);
  addZones(draw, floor);
  addStanding(draw, floor);
  addShared(draw, floor);
  pick(draw, [() => {}, addSkillsOfStations, addSkillsOfPeople])(draw, floor);
  addWaits(draw, floor);
  addTests(draw, floor);
  addPairs(draw, floor);
  addWindows(draw, floor);
}

const filled = ({ stations }) => stations.filter(({ tasks }) => tasks.length > 0);

/** Now and then a station that the plan leaves empty, and one that may have a second place and does not need it. */
function addSpareStation(draw, { stations }) {
  if (onceIn(draw, 3)) pick(draw, stations).maxPlaces = 2;
  if (!onceIn(draw, 4)) return;
  const spare = {
    id: "spare",
    places: 1,
    fail: 0,
    tasks: [],
    zone: null,
    equipment: [],
    skills: [],
    maxPlaces: null,
  };
  stations.splice(1 + draw(stations.length), 0, spare);
}

/** Neighbouring stations share a zone; a third of their tasks belong to it. */
function addZones(draw, { stations, tasks }) {
  const zones = 2 + draw(3);
  for (const [at, station] of stations.entries()) {
    station.zone = ZONES[Math.floor((at * zones) / stations.length)];
    for (const task of station.tasks) if (onceIn(draw, 3)) tasks[task].zone = station.zone;
  }
}

/** Rigs that exist once, and now and then a press that stands at two stations. */
function addStanding(draw, floor) {
  const single = filled(floor).filter(({ places }) => places === 1);
  for (const station of single) {
    if (onceIn(draw, 3)) use(draw, floor, station, `rig ${station.id.slice(1)}`, 1);
  }
  if (!onceIn(draw, 3) || single.length < 3) return;
  const at = draw(single.length - 2);
  for (const station of [single[at], single[at + 2]]) use(draw, floor, station, "press", 2);
}

/** One task alone where the product has two sides: nothing keeps two of them from being worked at the same time. */
function use(draw, { tasks, equipment, isSided }, station, name, count) {
  equipment.set(name, count);
  station.equipment.push(name);
  for (let turn = 0; turn <= draw(2); turn++) {
    const task = pick(draw, station.tasks);
    if (turn === 0 || !isSided) addTo(tasks[task].equipment, name);
  }
}

function addTo(list, name) {
  if (!list.includes(name)) list.push(name);
}

/** Hoists that are fetched to where they are needed: as many exist as the plan has in use. */
function addShared(draw, floor) {
  if (!onceIn(draw, 2)) return;
  const stations = filled(floor).filter(() => onceIn(draw, 4));
  const inUse = stations.reduce((sum, { places }) => sum + places, 0);
  if (inUse > 0) floor.equipment.set("hoist", inUse);
  for (const station of stations) addTo(floor.tasks[pick(draw, station.tasks)].equipment, "hoist");
}

/** Stations say what their people can do; some of their tasks ask for it. */
function addSkillsOfStations(draw, { stations, tasks }) {
  for (const station of stations) {
    station.skills = SKILLS.filter(() => onceIn(draw, 2));
    for (const task of station.tasks) {
      if (station.skills.length > 0 && onceIn(draw, 6)) tasks[task].skill = pick(draw, station.skills);
    }
  }
}

/** A person for each place of a station whose tasks ask for a skill, with what is asked there and perhaps one skill more. */
function addSkillsOfPeople(draw, floor) {
  for (const station of filled(floor)) {
    if (!onceIn(draw, 3)) continue;
    for (let turn = 0; turn < 2; turn++) floor.tasks[pick(draw, station.tasks)].skill = pick(draw, SKILLS);
    const asked = station.tasks.flatMap((task) => floor.tasks[task].skill ?? []);
    for (let place = 0; place < station.places; place++) {
      const skills = [...new Set([...asked, ...(onceIn(draw, 2) ? [pick(draw, SKILLS)] : [])])];
      // At sides each of two people does what is at theirs.
      for (let side = floor.isSided ? 2 : 1; side > 0; side--)
        floor.people.push({ id: `person ${floor.people.length + 1}`, skills });
    }
  }
}

/** Some arrows from one station to a later one ask for a time in between or for that many stations. */
function addWaits(draw, { stations, tasks }) {
  const numbers = numbersOf(stations, tasks);
  for (const [at, task] of tasks.entries()) {
    for (const arrow of task.after) {
      const between = numbers[at] - numbers[arrow.task];
      if (between < 1 || !onceIn(draw, 12)) continue;
      if (onceIn(draw, 2)) arrow.wait = 60 * (1 + draw(5));
      else arrow.stations = between - draw(between);
    }
  }
}

function numbersOf(stations, tasks) {
  return tasks.map((_, task) => stations.findIndex((station) => station.tasks.includes(task)));
}

/** Where a station has kept time for it, a test there sends units back to a task before it at the same station, or to itself. */
function addTests(draw, { stations, tasks }) {
  for (const station of stations.filter(({ fail }) => fail > 0)) {
    const test = station.tasks.at(-1);
    const before = tasks[test].after.map(({ task }) => task).filter((task) => station.tasks.includes(task));
    const returnTo = before.length > 0 ? pick(draw, before) : test;
    tasks[test].test = { fail: station.fail, minutes: 3 + draw(5), returnTo: tasks[returnTo].id };
  }
}

/** Pairs of one station stay together, pairs of two neighbours stay apart. */
function addPairs(draw, floor) {
  const stations = filled(floor);
  for (let turn = draw(4); turn > 0; turn--) {
    const { tasks } = pick(draw, stations);
    const at = draw(Math.max(1, tasks.length - 1));
    if (tasks.length > 1) floor.together.push([tasks[at], tasks[at + 1]]);
  }
  for (let turn = draw(4); turn > 0 && stations.length > 1; turn--) {
    const at = draw(stations.length - 1);
    floor.apart.push([pick(draw, stations[at].tasks), pick(draw, stations[at + 1].tasks)]);
  }
}

/** Some tasks are fixed, some are bounded on one side by the station that they stand at or the next one. */
function addWindows(draw, { stations, tasks }) {
  for (const [at, station] of stations.entries()) {
    for (const task of station.tasks) {
      const drawn = draw(36);
      if (drawn < 2) tasks[task].station = station.id;
      else if (drawn < 4) tasks[task].notBefore = stations[Math.max(0, at - draw(2))].id;
      else if (drawn < 6) tasks[task].notAfter = stations[Math.min(stations.length - 1, at + draw(2))].id;
    }
  }
}
