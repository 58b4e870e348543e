const MODELS = { plain: 50, long: 30, short: 20 };

/** The text of the line file of a planted floor; times are in seconds. */
export function lineText(floor) {
  const { name, demand, handling, planTo, hasModels, stations, tasks, equipment, people, together, apart } =
    floor;
  const ids = (list) => `[${list.map((task) => tasks[task].id).join(", ")}]`;
  const pairs = (key, list) => (list.length > 0 ? [`${key}: [${list.map(ids).join(", ")}]`] : []);
  const models = Object.entries(MODELS).map(([model, share]) => `${model}: ${share} %`);
  const counts = [...equipment].map(([each, count]) => `${each}: ${count}`);
  return [
    `line: ${name}`,
    "unit: s",
    `demand: ${demand} per day`,
    "calendar: {shifts: {day: {length: 7.5 h}}}",
    `handling: ${handling} s`,
    ...(planTo < 100 ? [`plan-to: ${planTo} %`] : []),
    ...(hasModels ? [`models: {${models.join(", ")}}`, "model-overload: 25 %"] : []),
    "stations:",
    ...stations.map((station) => `  - ${mapText(stationKeys(station))}`),
    ...(counts.length > 0 ? [`equipment: {${counts.join(", ")}}`] : []),
    ...(people.length > 0
      ? ["people:", ...people.map(({ id, skills }) => `  ${id}: ${listText(skills)}`)]
      : []),
    ...pairs("together", together),
    ...pairs("apart", apart),
    "tasks:",
    ...tasks.map((task) => `  ${task.id}: ${mapText(taskKeys(task, tasks))}`),
    "",
  ].join("\n");
}

/** The text of its plan file, in the order in which the work was drawn. */
export function planText({ stations, tasks }) {
  const rows = stations
    .filter((station) => station.tasks.length > 0)
    .map((station) => {
      const own = station.tasks.map((task) => tasks[task]);
      const free = own.filter(({ side }) => side === "either").map(({ id, stands }) => `${id}: ${stands[0]}`);
      return mapText({
        id: station.id,
        places: station.places > 1 ? station.places : null,
        tasks: `[${own.map(({ id }) => id).join(", ")}]`,
        sides: free.length > 0 ? `{${free.join(", ")}}` : null,
      });
    });
  return planOfRows(rows);
}

/** The text of a plan file from that of its stations, one a row. */
export const planOfRows = (rows) =>
  ["format: linepoise-plan/1", "line: line.yaml", "stations:", ...rows.map((row) => `  - ${row}`), ""].join(
    "\n",
  );

const stationKeys = ({ id, zone, equipment, skills, maxPlaces }) => ({
  id,
  zone,
  equipment: listText(equipment),
  skills: listText(skills),
  "max-places": maxPlaces,
});

function taskKeys(task, tasks) {
  const { people, every, side, zone, equipment, skill, station, notBefore, notAfter, test } = task;
  return {
    time: timeText(task),
    after:
      task.after.length > 0 ? `[${task.after.map((arrow) => arrowText(arrow, tasks)).join(", ")}]` : null,
    people: people > 1 ? people : null,
    every: every > 1 ? every : null,
    side,
    zone,
    equipment: listText(equipment),
    skill,
    station,
    "not-before": notBefore,
    "not-after": notAfter,
    test: test && `{fail: ${test.fail} %, repair: ${test.minutes} min, return-to: ${test.returnTo}}`,
  };
}

/** A long model takes a quarter more, rounded up, and a short one four fifths, or does not have the task. */
function timeText({ seconds, byModel, isOfAllModels }) {
  if (!byModel) return seconds;
  const short = isOfAllModels ? Math.ceil((seconds * 4) / 5) : '"-"';
  return `{plain: ${seconds}, long: ${Math.ceil((seconds * 5) / 4)}, short: ${short}}`;
}

function arrowText({ task, wait, stations }, tasks) {
  const { id } = tasks[task];
  if (wait > 0) return `{task: ${id}, wait: ${wait} s}`;
  return stations > 0 ? `{task: ${id}, stations: ${stations}}` : id;
}

export const listText = (list) => (list.length > 0 ? `[${list.join(", ")}]` : null);

/** A map in one line, without the keys that have no value. */
export function mapText(keys) {
  const given = Object.entries(keys).filter(([, value]) => value !== null);
  return `{${given.map(([key, value]) => `${key}: ${value}`).join(", ")}}`;
}
