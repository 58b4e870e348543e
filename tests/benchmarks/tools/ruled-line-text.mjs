import { drawFromSeed, onceIn } from "../../tools/floors/draw-from-seed.mjs";

/** Good units an hour of a made line. */
export const TODAY = 100;
/** Tasks side by side in a layered line. */
const LAYER = 5;

/** A line of tasks of 3 to 17 s, up to two predecessors each: of the layer before, or narrow, of the 20 tasks before. */
export function ruledLineText({ size, shape, hasRules, stations = stationsFor(size) }) {
  const draw = drawFromSeed(size * 2 + (shape === "narrow" ? 1 : 0));
  const zones = ["frame", "wheels", "finish"];
  const rows = [];
  let apart = "";
  let together = "";
  for (let task = 0; task < size; task++) {
    const [least, reach] =
      shape === "narrow"
        ? [Math.max(0, task - 20), Math.min(task, 20)]
        : [Math.max(0, (Math.floor(task / LAYER) - 1) * LAYER), task < LAYER ? 0 : LAYER];
    const before = new Set(reach === 0 ? [] : [least + draw(reach), least + draw(reach)]);
    // What must stand together fits one station at either demand.
    const isPaired = hasRules && (task % 20 === 15 || task % 20 === 16);
    const time = 3 + draw(isPaired ? 10 : 15);
    const waits = hasRules && onceIn(draw, 40);
    const after = [...before].map((each, at) =>
      waits && at === 0 ? `{task: t${each}, stations: 1}` : `t${each}`,
    );
    const zone = zones[Math.floor((task * zones.length) / size)];
    const shown = hasRules && onceIn(draw, 6) ? `{city: ${time}, cargo: ${time + draw(3)}}` : time;
    const place = hasRules && onceIn(draw, 4) ? `, zone: ${zone}` : "";
    rows.push(
      `  t${task}: {time: ${shown}${after.length === 0 ? "" : `, after: [${after.join(", ")}]`}${place}}\n`,
    );
    if (hasRules && task % 20 === 11) apart += `  - [t${task}, t${task - 1}]\n`;
    if (hasRules && task % 20 === 16) together += `  - [t${task}, t${task - 1}]\n`;
  }
  const floor = Array.from({ length: stations }, (_, at) => {
    const zone = zones[Math.floor((at * zones.length) / stations)];
    return `  - {id: P${at + 1}, zone: ${zone}}\n`;
  });
  const rules = hasRules
    ? `models: {city: 60 %, cargo: 40 %}\nstations:\n${floor.join("")}apart:\n${apart}together:\n${together}`
    : "";
  return `line: ${shape} ${size}\nunit: s\ndemand: ${TODAY} per hour\n${rules}tasks:\n${rows.join("")}`;
}

/** For work of 10 s a task, with some to spare. */
function stationsFor(size) {
  return Math.ceil((size * 10) / (3600 / TODAY)) + 6 + Math.ceil(size / 20);
}
