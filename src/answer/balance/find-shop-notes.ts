import { countOf } from "../../findings/count-of.js";
import { type Finding, finding } from "../../findings/finding.js";
import { idKey } from "../../line/ids.js";
import type { Line } from "../../line/line.js";
import { findHands } from "../../plan/check/check-hands.js";
import { findUnnamed } from "../../plan/check/check-named.js";
import { findPeaks } from "../../plan/check/check-peaks.js";
import { findSpacing } from "../../plan/check/check-spacing.js";
import { findSlowingWaits } from "../../plan/check/check-waits.js";
import { machineNeed, machinesAt } from "../../plan/figures/machines.js";
import { shiftTime } from "../../plan/figures/output.js";
import type { Plan } from "../../plan/plan.js";
import { isBehindFloor } from "../../plan/station-numbers.js";
import { machineWords } from "../../report/words/obstacle-words.js";
import type { Pace } from "../../time/pace.js";
import { type AnswerModels, answerModels } from "./answer-models.js";

/** What a plan asks for that the line cycle alone does not show: machines, drift, units that take long, hands at two units, waits in the line, people. */
export function findShopNotes(line: Line, pace: Pace, plan: Plan, models: AnswerModels | null): Finding[] {
  return [
    ...findMachines(line, pace, plan),
    ...findDrift(line, models),
    ...(models === null ? [] : findSpacing(line, models.mix.proposed)),
    ...findPeaks(line, pace, plan, unitsInOrder(models)),
    ...findHands(line, pace, plan),
    ...findSlowingWaits(line, pace, plan),
    ...findUnnamed(line, plan),
  ];
}

const unitsInOrder = (models: AnswerModels | null): readonly number[] =>
  models === null ? [0] : (models.mix.given ?? models.mix.proposed.sequence);

/** For what reasons `balance` would say that this plan fails: work that runs past the end of a station farther than there is room. */
export function findTooFar(line: Line, pace: Pace, plan: Plan): Finding[] {
  if (line.driftRoom === null && line.floor.every(({ driftRoom }) => driftRoom === null)) return [];
  const units = unitsInOrder(answerModels(line, pace, plan));
  return findPeaks(line, pace, plan, units).filter(({ severity }) => severity === "error");
}

/** Machines of which one for each place does not keep up; a warning where the line does not say that there are enough. */
function findMachines(line: Line, pace: Pace, plan: Plan): Finding[] {
  return plan.stations.flatMap((station) =>
    machinesAt(line, pace, station)
      .filter(({ needed }) => needed > station.places)
      .map((machine) => {
        const task = line.tasks[machine.tasks[0]!.task]!;
        return finding({
          rule: "machine-needs",
          severity: line.equipment.has(machine.name ?? "") ? "note" : "warning",
          message: machineWords(line.unit, machineNeed(line, pace, machine)),
          file: line.file,
          place: task.place,
          task: task.id,
          station: station.id,
        });
      }),
  );
}

function findDrift(line: Line, models: AnswerModels | null): Finding[] {
  if (models === null) return [];
  const { mix } = models;
  const warn = (station: string, message: string) =>
    finding({ rule: "drift-grows", severity: "warning", message, file: line.file, station });
  const grows = mix.stations.flatMap(({ id, givenDrift, proposedDrift }) => {
    const drift = givenDrift ?? proposedDrift;
    if (drift.grows === null) return [];
    const why =
      drift.grows === "average"
        ? "the average over the models is above the working time"
        : "in this order the station, or one of its places, gets more work than it has time for";
    return [warn(id, `the drift at ${id} grows without end: ${why}`)];
  });
  return mix.proposed.note === null ? grows : [...grows, mix.proposed.note];
}

/** Stations that the floor does not have yet. */
export function findBehindFloor(line: Line, { stations }: Plan): Finding[] {
  const further = stations.filter(({ id }) => isBehindFloor(line, id)).map(({ id }) => id);
  if (further.length === 0) return [];
  const used = new Set(stations.map((station) => idKey(station.id)));
  const empty = line.floor.map(({ id }) => id).filter((id) => !used.has(idKey(id)));
  const left = empty.length === 0 ? "" : `, and leaves empty on it: ${empty.join(", ")}`;
  const message = `the plan has ${countOf(further.length, "station")} behind the floor: ${further.join(", ")}${left}`;
  return [finding({ rule: "behind-floor", severity: "warning", message, file: line.file })];
}

/** Says why a figure per shift is missing where shifts have different available times. */
export function findShiftNotes(line: Line): Finding[] {
  if (line.calendar === null || shiftTime(line) !== null) return [];
  const message = "the shifts have different available times, so no single figure per shift is given";
  const fact = { kind: "shifts-differ" } as const;
  return [finding({ rule: "shifts-differ", severity: "note", message, file: line.file, fact })];
}
