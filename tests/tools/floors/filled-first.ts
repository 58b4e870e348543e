import { drawFrom } from "../move-cases.js";

/** Seconds at most of a station of a floor that is filled first. */
export const FILLED_LIMIT = 60;
/** Stations of its plan. */
export const FILLED_STATIONS = 24;
const ZONES = 3;
/** Empty places that each zone has beyond the stations that were filled. */
const SPARE = 2;

/**
 * A line of about 110 tasks whose stations were filled first, each from 95 % to its limit; arrows and zones are true of where the tasks
 * then stand. With the plan that it was drawn around.
 */
export function filledFirst(seed: number) {
  const draw = drawFrom(seed);
  const places = FILLED_STATIONS / ZONES + SPARE;
  const zoneOf = (station: number) => Math.floor((station * ZONES) / FILLED_STATIONS);
  const tasks: string[] = [];
  const stations: { readonly id: string; readonly tasks: readonly string[] }[] = [];
  for (let station = 0, earlier = 0; station < FILLED_STATIONS; station++) {
    const first = tasks.length;
    for (let left = FILLED_LIMIT - draw(4); left > 0; ) {
      const time = left < 22 ? left : 6 + draw(15);
      const after = tasks.length === 0 ? "" : `t${earlier + draw(tasks.length - earlier)}`;
      const zone = draw(3) === 0 ? `, zone: z${zoneOf(station)}` : "";
      tasks.push(`  t${tasks.length}: {time: ${time}, after: [${after}]${zone}}`);
      left -= time;
    }
    stations.push({
      id: `P${station + SPARE * zoneOf(station) + 1}`,
      tasks: Array.from({ length: tasks.length - first }, (_, at) => `t${first + at}`),
    });
    earlier = Math.max(0, first - draw(8));
  }
  const floor = Array.from(
    { length: ZONES * places },
    (_, at) => `  - {id: P${at + 1}, zone: z${Math.floor(at / places)}}`,
  );
  return { line: ["unit: s", "stations:", ...floor, "tasks:", ...tasks, ""].join("\n"), stations };
}
