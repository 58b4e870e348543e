import { idKey } from "../../line/ids.js";
import { compare } from "../../time/ratio.js";
import type { PlanFinding } from "./plan-finding.js";

/**
 * For each finding whether it was there before and is no worse now: the same rule, station and task, not a larger amount. Each
 * finding of before stands for one of now.
 */
export function findKnown(now: readonly PlanFinding[], before: readonly PlanFinding[]): boolean[] {
  const left = new Map<string, PlanFinding[]>();
  for (const each of before) left.set(keyOf(each), [...(left.get(keyOf(each)) ?? []), each]);
  const known = now.map(() => false);
  // The worst first, so that it does not find its match taken by one that a smaller would have matched.
  const worstFirst = [...now.keys()].sort((one, two) => compareAmounts(now[two]!, now[one]!) || one - two);
  for (const at of worstFirst) {
    const candidates = left.get(keyOf(now[at]!)) ?? [];
    const match = candidates.findIndex((each) => compareAmounts(now[at]!, each) <= 0);
    if (match < 0) continue;
    candidates.splice(match, 1);
    known[at] = true;
  }
  return known;
}

function compareAmounts(one: PlanFinding, two: PlanFinding): number {
  return one.amount === null || two.amount === null ? 0 : compare(one.amount, two.amount);
}

const keyOf = ({ rule, severity, station, task }: PlanFinding): string =>
  JSON.stringify([rule, severity, idKey(station ?? ""), idKey(task ?? "")]);
