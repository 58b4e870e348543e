import { tells } from "../../findings/finding.js";
import { percent } from "../../time/show-values.js";
import { efficiencyAtPace } from "../figures/efficiency.js";
import { postsOf } from "../post.js";
import { type CheckSubject, postsAt } from "./check-subject.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** Stations without tasks: somebody stands there and has nothing to do. Those whose tasks are unknown, or stand elsewhere as well, have their own findings. */
export function checkEmptyStations(subject: CheckSubject): PlanFinding[] {
  const { file, places, findings, plan } = subject.reading;
  const hasTasks = new Set(plan?.stations.flatMap(({ id, tasks }) => (tasks.length > 0 ? [id] : [])));
  const isUnknown = (id: string) =>
    findings.some((each) => tells(each, "unknown-task") && each.station === id);
  const empty = subject.plan.stations.filter(
    ({ id, tasks }) => tasks.length === 0 && !hasTasks.has(id) && !isUnknown(id),
  );
  return empty.map(({ id }) =>
    planFinding({
      rule: "empty-station",
      severity: "warning",
      message: `${id} has no tasks${efficiencyWords(subject, empty.length)}`,
      file,
      place: places.station(id),
      station: id,
    }),
  );
}

function efficiencyWords({ line, pace, plan, benches, measures }: CheckSubject, empty: number): string {
  const within = measures?.efficiencyAtPace ?? null;
  const stations = plan.stations.filter(({ tasks }) => tasks.length > 0);
  if (within === null || stations.length === 0) return "";
  const posts = [...postsOf(line, pace, { stations }), ...postsAt(benches)];
  const without = efficiencyAtPace(posts, pace.lineCycle);
  if (without === null) return "";
  const them = empty === 1 ? "it" : "stations without tasks";
  return `: the efficiency at the pace is ${percent(within)} with ${them} and ${percent(without)} without`;
}
