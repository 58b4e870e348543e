import { finding } from "../findings/finding.js";
import type { Line, Task } from "../line/line.js";
import { type BusyMachine, busyMachines } from "../plan/machine-busy.js";
import type { BalanceOptions } from "../solve/balance.js";
import type { FloorBalance } from "../solve/floor/balance-floor.js";
import { explainInfeasible } from "../solve/floor/explain-infeasible.js";
import type { Pace } from "../time/pace.js";
import type { BalanceAnswer } from "./balance-answer.js";
import { machineWords } from "./find-shop-notes.js";

/** Why there is no plan: clauses that no plan can keep together, and the finding that names them. */
export async function findReasons(
  line: Line,
  pace: Pace,
  found: FloorBalance,
  options: BalanceOptions,
): Promise<Pick<BalanceAnswer, "obstacles" | "findings">> {
  const say = (rule: string, message: string, task: Task | null = null) =>
    finding({
      rule,
      severity: "error",
      message,
      file: line.file,
      place: task?.place ?? null,
      task: task?.id ?? null,
    });
  if (found.outcome !== "infeasible") {
    const message =
      found.search === null
        ? `${options.method} runs into a rule of the line; whether another plan keeps them all is open: --method best looks for one`
        : "no plan that keeps the rules of the line was found before the search was stopped; whether there is one is open";
    return { obstacles: [], findings: [say("no-plan-found", message)] };
  }
  const why = await explainInfeasible(line, pace, options.strictLimit);
  if (why === null) {
    const open =
      "the search ruled out every plan; the reasons could not be singled out in the partial plans allowed";
    return { obstacles: [], findings: [say("no-plan", `no plan keeps the rules of the line: ${open}`)] };
  }
  const machines = why.tasks.flatMap((task) => scarceMachines(line, pace, task));
  const obstacles = [...why.reasons, ...machines.map((machine) => machineWords(line, pace, machine))];
  const smallest = why.isSmallest ? "" : " (some of these may not be needed: not all could be tried without)";
  const message = `no plan keeps the rules of the line: ${obstacles.join("; ")}${smallest}`;
  const [first] = why.tasks;
  return { obstacles, findings: [say("no-plan", message, first === undefined ? null : line.tasks[first]!)] };
}

/** Machines that one task keeps busy longer than those that exist have time for. */
function scarceMachines(line: Line, pace: Pace, task: number): BusyMachine[] {
  return busyMachines(line, pace, { tasks: [task] }).filter(
    ({ name, needed }) => name !== null && needed > (line.equipment.get(name) ?? needed),
  );
}
