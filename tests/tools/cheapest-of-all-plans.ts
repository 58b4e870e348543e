/** What a plan is counted by here: people of a task at once, and the numbers of the tasks before it. */
interface CountedTask {
  readonly people: number;
  readonly after: readonly number[];
}

/**
 * The fewest people, then stations, over every plan of a few tasks, each numbered after those before it; null where no plan holds.
 *
 * @param holds whether these tasks can share the station at a position, counted from 0, with so many places
 */
export function cheapestOfAllPlans<Task extends CountedTask>(
  tasks: readonly Task[],
  maxPlaces: number,
  holds: (here: readonly Task[], position: number, places: number) => boolean,
): readonly [number, number] | null {
  let best: readonly [number, number] | null = null;
  const at: number[] = [];
  const judge = () => {
    let [people, stations] = [0, 0];
    for (const position of new Set(at)) {
      const here = tasks.filter((_, task) => at[task] === position);
      let places = 1;
      while (places <= maxPlaces && !holds(here, position, places)) places++;
      if (places > maxPlaces) return;
      people += places * Math.max(...here.map((task) => task.people));
      stations++;
    }
    if (best === null || people < best[0] || (people === best[0] && stations < best[1]))
      best = [people, stations];
  };
  const place = (task: number) => {
    if (task === tasks.length) return judge();
    const from = Math.max(0, ...tasks[task]!.after.map((each) => at[each]!));
    // One position more than tasks, as the first station may stay empty.
    for (let position = from; position <= tasks.length; position++) {
      at[task] = position;
      place(task + 1);
    }
    at.length = task;
  };
  place(0);
  return best;
}
