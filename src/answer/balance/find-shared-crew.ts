import { countPeople } from "../../findings/count-of.js";
import { type Finding, finding } from "../../findings/finding.js";
import { listOf } from "../../findings/list-of.js";
import type { Line } from "../../line/line.js";
import { peopleOf } from "../../plan/figures/people.js";
import type { Plan } from "../../plan/plan.js";
import { floorStationOf } from "../../plan/station-numbers.js";
import { type BalancingOptions, balance } from "../../solve/balance.js";
import { leastCost } from "../../solve/time-alone.js";
import type { Pace } from "../../time/pace.js";
import { showTimesIn } from "../../time/show-in-unit.js";

/** Of the partial plans of the balance this has so many, and no more than that. */
const SHARE = 16;
const MOST_NODES = 20_000;

/**
 * Says where people of a place who share the work of a unit, each on tasks of their own, would do with fewer people than the plan: a task
 * for several people then takes them for its own time only.
 */
export async function findSharedCrew(
  line: Line,
  pace: Pace,
  plan: Plan,
  options: BalancingOptions,
): Promise<Finding[]> {
  if (line.tasks.some(({ side }) => side !== null)) return [];
  const teams = plan.stations.filter(({ id, crew }) => crew > 1 && mostCrewAt(line, id) === 1);
  if (teams.length === 0) return [];
  const most = Math.max(...teams.map(({ crew }) => crew));
  const shared = withCrews(line, most);
  const before = peopleOf(plan);
  const least = leastCost(shared, pace, options.strictLimit);
  if (least === null || least.people >= before) return [];
  const nodes = Math.min(MOST_NODES, Math.floor((options.nodes ?? Number.MAX_SAFE_INTEGER) / SHARE));
  const search = {
    ...options,
    method: "best",
    level: false,
    explain: false,
    doublings: 0,
    nodes,
    from: plan,
  };
  const found = await balance(shared, pace, search);
  if (found.plan === null || peopleOf(found.plan) >= before) return [];
  const show = showTimesIn(line.unit);
  const lifts = teams.map(({ id, tasks }) => {
    const task = tasks.reduce((one, two) => (line.tasks[two]!.people > line.tasks[one]!.people ? two : one));
    const { id: name, people, load } = line.tasks[task]!;
    return `${name} takes ${countPeople(people)} at ${id} for ${show(load)} only`;
  });
  const after = countPeople(peopleOf(found.plan));
  const open = found.proved ? "" : ", or fewer";
  const message = `${listOf(lifts.slice(0, MOST_TOLD))}: where people of a place share the work of a unit (\`max-crew: ${most}\`), the line does with ${after}${open}, instead of ${before}`;
  const [first] = teams;
  const fact = { kind: "could-share" } as const;
  return [
    finding({ rule: "shared-crew", severity: "note", message, file: line.file, station: first!.id, fact }),
  ];
}

/** Teams that are named. */
const MOST_TOLD = 3;

const mostCrewAt = (line: Line, id: string): number => floorStationOf(line, id)?.maxCrew ?? line.maxCrew;

/** The line where so many people of any place may share the work of a unit. */
const withCrews = (line: Line, most: number): Line => ({
  ...line,
  maxCrew: Math.max(most, line.maxCrew),
  floor: line.floor.map((station) => ({
    ...station,
    maxCrew: Math.max(most, station.maxCrew ?? line.maxCrew),
  })),
});
