import { addTo } from "../../findings/add-to.js";
import { type Check, fault, listOf } from "./fault.js";

/** Tasks that belong together stand at one station. */
export const checkTogether: Check = ({ line, stationOf }) =>
  line.together.flatMap((group) => {
    const placed = group.filter((task) => stationOf.has(task));
    if (new Set(placed.map((task) => stationOf.get(task)!.number)).size < 2) return [];
    const where = placed.map((task) => `${line.tasks[task]!.id} at ${stationOf.get(task)!.id}`);
    const [first] = placed;
    return [
      fault(
        "together",
        `${listOf(where)} belong together, at one station`,
        stationOf.get(first!)!.id,
        line.tasks[first!]!.id,
      ),
    ];
  });

/** Tasks that are kept apart stand at different stations. */
export const checkApart: Check = ({ line, stations, benches }) => {
  const places = [...stations, ...benches];
  const placesOf = new Map<number, number[]>();
  for (const [at, { tasks }] of places.entries()) for (const task of tasks) addTo(placesOf, task, at);
  return line.apart.flatMap((group) => {
    const used = new Set(group.flatMap((task) => placesOf.get(task) ?? []));
    return [...used]
      .sort((one, two) => one - two)
      .flatMap((at) => {
        const { id, tasks } = places[at]!;
        const met = group.filter((task) => tasks.includes(task));
        if (met.length < 2) return [];
        const names = met.map((task) => line.tasks[task]!.id);
        return [fault("apart", `${listOf(names)} are kept apart, and share ${id}`, id, names[0]!)];
      });
  });
};
