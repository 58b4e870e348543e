import { ceilingDivision } from "../bounds/whole-numbers.js";
import type { TaskRules } from "../station/task-rules.js";
import { hasTask } from "./bit-sets.js";
import type { Instance } from "./instance.js";

/**
 * People beyond one at every station: the stations that hold some task of two people or more, those that hold some task of three, and
 * so on, each counted once. As many stations as the work of such tasks fills; as there are tasks of which no two may share a station,
 * along the arrows; or as it takes to meet the windows of all of them (each window is met at its end: interval stabbing).
 *
 * Supports every work: each place has the people of its longest team, whatever else is asked.
 */
export class ExtraPeople {
  private readonly layers: readonly Layer[];

  constructor(
    private readonly instance: Instance,
    rules: TaskRules,
    /** The last station, counted from 1, that may hold each task. */
    private readonly latest: Int32Array,
  ) {
    const most = rules.people.reduce((one, two) => Math.max(one, two), 1);
    this.layers = Array.from({ length: most - 1 }, (_, at) => layerOf(instance, rules, at + 2));
  }

  /** After the tasks of a set, whose last station is number `station`. */
  after(sets: Int32Array, offset: number, station: number): number {
    let people = 0;
    for (const layer of this.layers) people += this.stationsOf(layer, sets, offset, station);
    return people;
  }

  private stationsOf(
    { tasks, chains, first }: Layer,
    sets: Int32Array,
    offset: number,
    station: number,
  ): number {
    const { instance, latest } = this;
    let work = 0;
    let chain = 0;
    let windows = 0;
    let met = 0;
    this.sort(tasks);
    for (let at = 0; at < tasks.length; at++) {
      const task = tasks[at]!;
      if (hasTask(sets, offset, task)) continue;
      work += instance.times[task]!;
      chain = Math.max(chain, chains[task]!);
      if (Math.max(first[task]!, station + 1) <= met) continue;
      windows++;
      met = latest[task]!;
    }
    return Math.max(ceilingDivision(work, instance.limit), chain, windows);
  }

  /** By latest station; nearly always in order already. */
  private sort(tasks: Int32Array): void {
    for (let at = 1; at < tasks.length; at++) {
      const task = tasks[at]!;
      let to = at;
      for (; to > 0 && this.latest[tasks[to - 1]!]! > this.latest[task]!; to--) tasks[to] = tasks[to - 1]!;
      tasks[to] = task;
    }
  }
}

/** Tasks of at least so many people. */
interface Layer {
  readonly tasks: Int32Array;
  /** From each task on, the most of them along the arrows of which no two share a station. */
  readonly chains: Int32Array;
  /** The first station, counted from 1, that may hold each task. */
  readonly first: Int32Array;
}

function layerOf(instance: Instance, rules: TaskRules, people: number): Layer {
  const { size, words, followers, times, limit } = instance;
  const tasks = Int32Array.from(times.keys()).filter((task) => rules.people[task]! >= people);
  const chains = new Int32Array(size);
  for (let at = tasks.length - 1; at >= 0; at--) {
    const task = tasks[at]!;
    chains[task] = 1;
    for (let next = at + 1; next < tasks.length; next++) {
      const later = tasks[next]!;
      if (chains[later]! < chains[task]! || !hasTask(followers, task * words, later)) continue;
      if (!mayShare(instance, rules, task, later)) chains[task] = chains[later]! + 1;
    }
  }
  const first = Int32Array.from(times.keys(), (task) => {
    let work = times[task]!;
    for (let earlier = 0; earlier < task; earlier++)
      if (hasTask(followers, earlier * words, task)) work += times[earlier]!;
    const own = rules.work.isPositional ? rules.work.first[rules.blockOf[task]!]! + 1 : 1;
    return Math.max(own, ceilingDivision(work, limit));
  });
  return { tasks, chains, first };
}

/** Whether a task and one that follows it may share a station, with all that lies between them. */
function mayShare(instance: Instance, { work, blockOf }: TaskRules, one: number, two: number): boolean {
  const { times, limit, followers, words } = instance;
  const [first, second] = [blockOf[one]!, blockOf[two]!];
  const zones = [work.zones[first], work.zones[second]];
  if (zones[0] != null && zones[1] != null && zones[0] !== zones[1]) return false;
  if (work.apart[first]!.includes(second)) return false;
  let sum = times[one]! + times[two]!;
  for (let task = one + 1; task < two; task++)
    if (hasTask(followers, one * words, task) && hasTask(followers, task * words, two)) sum += times[task]!;
  return sum <= limit;
}
