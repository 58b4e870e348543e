import { finding } from "../../findings/finding.js";
import type { Line, Task } from "../../line/line.js";
import { type BusyMachine, keptAlong, keptBy, machineNeed } from "../../plan/figures/machines.js";
import { noneFoundWords, whyWords } from "../../report/words/obstacle-words.js";
import type { Balance, BalancingOptions } from "../../solve/balance.js";
import { explainInfeasible, type Infeasibility } from "../../solve/explain/explain-infeasible.js";
import type { Pace } from "../../time/pace.js";
import { findLongTasks } from "../long-tasks/find-long-tasks.js";
import { findRuledOutTasks, tellTasksWithoutStation } from "../long-tasks/ruled-out-tasks.js";
import type { BalanceAnswer } from "./balance-answer.js";
import type { Obstacle } from "./obstacle.js";
import { nameShortage } from "./obstacle.js";

/** Why there is no plan, and the tasks that no station can hold, by their time or by what else rules them out. */
export async function findNoPlan(
  line: Line,
  pace: Pace,
  found: Balance,
  options: BalancingOptions,
): Promise<
  Pick<BalanceAnswer, "outcome" | "obstacles" | "findings"> & { readonly tasks: readonly number[] }
> {
  const { strictLimit } = options;
  const long = findLongTasks(line, pace, strictLimit);
  const ruledOut = findRuledOutTasks(line, pace, strictLimit);
  const tasks = [...new Set([...long, ...ruledOut].map(({ task }) => task))].sort((one, two) => one - two);
  // One smallest set of reasons names one of several tasks only.
  if (long.length === 0 && ruledOut.length <= 1) {
    const proved = ruledOut.length === 0 ? found : { ...found, outcome: "infeasible" as const };
    const reasons = await findReasons(line, pace, proved, options);
    if (ruledOut.length === 0 || reasons.obstacles.length > 0) return { ...reasons, tasks };
  }
  const findings = tellTasksWithoutStation(line, pace, long, ruledOut, strictLimit);
  return { outcome: "infeasible", obstacles: [], findings, tasks };
}

/** Clauses that no plan can keep together, and the finding that names them. */
async function findReasons(
  line: Line,
  pace: Pace,
  found: Balance,
  options: BalancingOptions,
): Promise<Pick<BalanceAnswer, "outcome" | "obstacles" | "findings">> {
  const say = (rule: string, message: string, task: Task | null = null) =>
    finding({
      rule,
      severity: "error",
      message,
      file: line.file,
      place: task?.place ?? null,
      task: task?.id ?? null,
      fact: { kind: "no-plan" },
    });
  // A ranking that runs into a rule proves nothing; where the reasons can be singled out, no other plan keeps them either.
  const isOneRule = found.search === null;
  const why =
    found.outcome === "infeasible" || isOneRule
      ? await explainInfeasible(line, pace, options.strictLimit, options)
      : null;
  if (why === null && found.outcome !== "infeasible") {
    const message = isOneRule
      ? `${options.method} fails: a shop-floor rule blocks every task that is left; --method best looks for a plan that keeps them all`
      : `no plan found that keeps the rules of the line, after examining ${noneFoundWords(found)}; whether there is one is open`;
    return {
      outcome: found.outcome,
      obstacles: [],
      findings: [say("no-plan-found", message)],
    };
  }
  const outcome = "infeasible";
  if (why === null) {
    const open =
      "the search ruled out every plan; the reasons could not be singled out in the partial plans allowed";
    return {
      outcome,
      obstacles: [],
      findings: [say("no-plan", `no plan keeps the rules of the line: ${open}`)],
    };
  }
  const obstacles = obstaclesOf(line, pace, why);
  const message = `no plan keeps the rules of the line${whyWords(line.unit, obstacles)}`;
  const first = why.shortage?.held[0] ?? why.tasks[0];
  return {
    outcome,
    obstacles,
    findings: [say("no-plan", message, first === undefined ? null : line.tasks[first]!)],
  };
}

/** Clauses that no plan can keep together, machines of which too few exist among them. */
export function obstaclesOf(line: Line, pace: Pace, why: Infeasibility): Obstacle[] {
  const machines = why.binding.includes("machines") ? scarceMachines(line, pace, why) : [];
  const { shortage } = why;
  return [
    ...(shortage === null ? [] : [{ kind: "shortage", shortage: nameShortage(line, shortage) } as const]),
    ...why.reasons.map((reason, at): Obstacle => {
      return { kind: "rule", reason, earliest: why.earliest.get(at) ?? null };
    }),
    ...machines.map((machine): Obstacle => ({ kind: "machines", need: machineNeed(line, pace, machine) })),
    ...(why.isSmallest ? [] : [{ kind: "not-smallest" } as const]),
  ];
}

/**
 * Counted equipment that the tasks keep for longer than those that exist have time for: together, from the first to the last of those that
 * follow each other, or else each task that needs more than one.
 */
function scarceMachines(line: Line, pace: Pace, { scarce, timed, reasons }: Infeasibility): BusyMachine[] {
  return scarce.flatMap((name) => {
    const users = timed.filter((task) =>
      reasons.some(
        (each) => each.kind === "equipment" && each.equipment === name && each.task === line.tasks[task]!.id,
      ),
    );
    if (users.length === 0) return [];
    const isShort = ({ needed }: BusyMachine) => needed > line.equipment.get(name)!;
    const single = users.map((task) => keptBy(line, pace, name, [task]));
    const short = single.filter(isShort);
    if (short.length > 0) return short;
    const all = keptBy(line, pace, name, users);
    if (isShort(all)) return [all];
    const along = keptAlong(line, pace, name, users);
    return isShort(along) ? [along] : single.filter(({ needed }) => needed > 1);
  });
}
