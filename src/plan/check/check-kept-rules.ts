import { type Finding, tells } from "../../findings/finding.js";
import { nearestWordsAmong } from "../../findings/nearest.js";
import { idKey } from "../../line/ids.js";
import { placesWords } from "../file/find-task-faults.js";
import { isBehindFloor } from "../station-numbers.js";
import { verifyRules, verifyTasksOnce } from "../verify-plan.js";
import type { CheckSubject } from "./check-subject.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** Tasks that are missing or twice, precedence and every rule of the shop floor, each told at its place in the plan file. */
export function checkKeptRules(subject: CheckSubject): PlanFinding[] {
  const { line, pace, plan } = subject;
  return atTheirPlaces(subject, verifyRules(line, pace, plan));
}

/** The tasks that a plan lists again, told at the last place of each. */
export function checkListedTwice(subject: CheckSubject): PlanFinding[] {
  const { line, pace, plan } = subject;
  const twice = verifyTasksOnce(line, pace, plan).filter((each) => tells(each, "task-twice"));
  return atTheirPlaces(subject, twice);
}

function atTheirPlaces({ line, reading }: CheckSubject, faults: readonly Finding[]): PlanFinding[] {
  const numbers = new Map(line.tasks.map(({ id }, number) => [idKey(id), number]));
  const stationOfTask = (task: string | null) => {
    const [first] = task === null ? [] : reading.places.task(numbers.get(idKey(task)) ?? -1);
    return first?.station ?? null;
  };
  return faults.map((found) => {
    const rule = ruleOf(found);
    const station = found.station ?? stationOfTask(found.task);
    const number = found.task === null ? -1 : (numbers.get(idKey(found.task)) ?? -1);
    const written = reading.places.task(number);
    const own = written.filter((each) => each.station === station);
    const isTwice = tells(found, "task-twice");
    const last = isTwice ? written.at(-1) : own[0];
    const listed = tells(found, "missing-task") ? reading.places.stations : null;
    const place = last?.place ?? (station === null ? listed : reading.places.station(station));
    const message = isTwice
      ? `task ${found.task} is ${placesWords(written.map((each) => each.station))}`
      : found.message;
    return planFinding({ ...found, rule, message, station, file: reading.file, place });
  });
}

/** The verifier has one rule for tasks that are missing and for those that are there twice. */
function ruleOf(found: Finding): string {
  if (tells(found, "missing-task")) return "missing-task";
  return tells(found, "task-twice") ? "task-twice" : found.rule;
}

/** Stations of the plan that the floor does not have. */
export function checkFloor({ line, plan, reading }: CheckSubject): PlanFinding[] {
  const known = line.floor.map(({ id }) => id);
  const nearest = nearestWordsAmong(known);
  return plan.stations
    .filter(({ id }) => isBehindFloor(line, id))
    .map(({ id }) =>
      planFinding({
        rule: "behind-floor",
        severity: "warning",
        message: `${id} does not stand on the floor${nearest(id) || `, which has ${known.join(", ")}`}; it counts as one more station behind it`,
        file: reading.file,
        place: reading.places.station(id),
        station: id,
      }),
    );
}
