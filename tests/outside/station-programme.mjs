/**
 * Everything that must be done before each task.
 *
 * @param {readonly (readonly number[])[]} before
 * @returns {Set<number>[]}
 */
function tasksBefore(before) {
  const found = before.map(() => new Set());
  for (let pass = 0; pass < before.length; pass++) {
    for (const [task, direct] of before.entries()) {
      for (const each of direct) for (const further of [each, ...found[each]]) found[task].add(further);
    }
  }
  return found;
}

/** The earliest and the latest of `slots` stations that a task may stand in, by the work that must be around it. */
function windows({ times, limit, before }, slots) {
  const earlier = tasksBefore(before);
  const work = (task, others) => [...others].reduce((sum, each) => sum + times[each], times[task]);
  return times.map((_, task) => {
    const later = [...times.keys()].filter((each) => earlier[each].has(task));
    const from = Math.max(1, Math.ceil(work(task, earlier[task]) / limit));
    return { from, to: slots + 1 - Math.max(1, Math.ceil(work(task, later) / limit)) };
  });
}

const sum = (terms) => terms.join(" + ");

/** What it is and where it comes from: station-programme.d.mts. */
export function stationProgramme(problem, slots) {
  const open = windows(problem, slots);
  if (open.some(({ from, to }) => from > to)) return null;
  const stationsOf = open.map(({ from, to }) => Array.from({ length: to - from + 1 }, (_, at) => from + at));
  const numbers = Array.from({ length: slots }, (_, at) => at + 1);
  const place = (task) => stationsOf[task].map((k) => `${k} x_${task}_${k}`);
  const rows = [
    ...stationsOf.map((ks, task) => `${sum(ks.map((k) => `x_${task}_${k}`))} = 1`),
    ...numbers.map((k) => {
      const here = problem.times.flatMap((time, task) =>
        time > 0 && stationsOf[task].includes(k) ? [`${time} x_${task}_${k}`] : [],
      );
      return `${sum([...here, ""]).replace(/ \+ $/, "")} - ${problem.limit} u_${k} <= 0`;
    }),
    ...numbers.slice(1).map((k) => `u_${k - 1} - u_${k} >= 0`),
    ...problem.before.flatMap((direct, task) =>
      direct.map((each) => `${sum(place(task))} - ${place(each).join(" - ")} >= 0`),
    ),
  ];
  const binaries = [
    ...numbers.map((k) => `u_${k}`),
    ...stationsOf.flatMap((ks, i) => ks.map((k) => `x_${i}_${k}`)),
  ];
  return [
    "Minimize",
    ` stations: ${sum(numbers.map((k) => `u_${k}`))}`,
    "Subject To",
    ...rows.map((row, at) => ` r${at}: ${row}`),
    "Binary",
    ` ${binaries.join("\n ")}`,
    "End",
    "",
  ].join("\n");
}
