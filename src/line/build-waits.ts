import type { Micros } from "../time/duration.js";
import type { Arrow } from "./draft-arrows.js";
import type { ModelsDraft } from "./draft-models.js";
import type { Wait } from "./line.js";

/** The arrows with something between their tasks, by task waited for and waiting; of several between two tasks the most. */
export function buildWaits(arrows: readonly Arrow[], models: ModelsDraft): Wait[] {
  const groups = new Map<string, Arrow[]>();
  for (const arrow of arrows) {
    if (arrow.stations === 0) continue;
    const key = `${arrow.from} ${arrow.to}`;
    groups.set(key, [...(groups.get(key) ?? []), arrow]);
  }
  return [...groups.values()]
    .map((group) => waitOf(group, models))
    .sort((one, two) => one.from - two.from || one.to - two.to);
}

function waitOf(group: readonly Arrow[], { models, numberOf }: ModelsDraft): Wait {
  const [{ from, to, place }] = group as [Arrow];
  const longest = (asked: readonly Arrow[]): Micros =>
    asked.reduce((most, { wait }) => Math.max(most, wait), 0);
  const byModel = models.map((_, number) =>
    longest(group.filter(({ model }) => model === null || numberOf(model) === number)),
  );
  const wait = longest(group);
  return {
    from,
    to,
    wait,
    byModel: byModel.every((each) => each === wait) ? null : byModel,
    stations: group.reduce((most, { stations }) => Math.max(most, stations), 0),
    place,
  };
}
