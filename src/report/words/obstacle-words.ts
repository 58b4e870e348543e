import type { Obstacle } from "../../answer/balance/obstacle.js";
import { countOf, thousands } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import type { MachineNeed } from "../../plan/figures/machines.js";
import type { Balance } from "../../solve/balance.js";
import { showSumIn, showTimesApart } from "../../time/show-in-unit.js";
import type { TimeUnit } from "../../time/units.js";
import { reasonClause } from "./reason-words.js";
import { shortageWords } from "./shortage-words.js";

/** Why there is no plan, in a clause. */
export function obstacleWords(unit: TimeUnit | null, obstacle: Obstacle): string {
  switch (obstacle.kind) {
    case "rule": {
      const { reason, earliest } = obstacle;
      const late =
        earliest === null ? "" : ` (${earliest} is the earliest, by the times of the work before it)`;
      return `${reasonClause(unit, reason)}${late}`;
    }
    case "shortage":
      return shortageWords(unit, obstacle.shortage);
    case "machines":
      return machineWords(unit, obstacle.need);
    case "not-smallest":
      return "some of these may not be needed: not all could be tried without";
    case "short-at-benches": {
      const { equipment, needed, count } = obstacle;
      return `benches need ${needed} x ${equipment}, ${existWords(count)}${slowWords(unit, obstacle)}`;
    }
    case "none-left": {
      const { equipment, tasks, count } = obstacle;
      return `no ${equipment} is left for ${tasks.join(", ")}: benches keep ${count} of ${count}`;
    }
    case "few-left": {
      const { equipment, left, count } = obstacle;
      return `only ${left} x ${equipment} ${left === 1 ? "is" : "are"} left: benches keep ${count - left} of ${count}`;
    }
    case "too-long":
      return `${obstacle.tasks.join(", ")} ${obstacle.tasks.length === 1 ? "is" : "are"} too long for a station`;
    case "unstaffed-benches": {
      const { places, skills, able } = obstacle;
      const who = able.length === 0 ? "nobody listed can take it" : `only ${able.join(" and ")} can`;
      const needs = places === 1 ? "needs a person" : "need a person each";
      return `${countOf(places, "bench place")} ${needs} with ${skills.join(" and ")}; ${who}`;
    }
    case "unstaffed-line":
      return "whoever stands at the benches, those who are left have too few skills for the line";
    case "staffing-open":
      return "no people were found for both line and benches; whether there are any is open";
    case "fault":
      return obstacle.fault.message;
  }
}

/** A clause for each, precedences that follow on each other in one: "motor, wire and bleed come in this order". */
export function obstacleClauses(unit: TimeUnit | null, obstacles: readonly Obstacle[]): string[] {
  const chains: string[][] = [];
  for (const each of obstacles) {
    if (each.kind !== "rule" || each.reason.kind !== "order") continue;
    const { from, to } = each.reason;
    const [front, back] = [chains.find((c) => c.at(-1) === from), chains.find((c) => c[0] === to)];
    if (front === undefined && back === undefined) chains.push([from, to]);
    else if (front === undefined) back!.unshift(from);
    else front.push(...(back === undefined ? [to] : chains.splice(chains.indexOf(back), 1)[0]!));
  }
  const rest = chains.map(chainWords);
  return obstacles.flatMap((each) => {
    if (each.kind !== "rule" || each.reason.kind !== "order") return [obstacleWords(unit, each)];
    // Where the first precedence was, all of them are told.
    return rest.splice(0);
  });
}

/** A longer chain shows its ends and counts what is between. */
const MOST_IN_CHAIN = 6;

function chainWords(chain: readonly string[]): string {
  if (chain.length === 2) return `${chain[0]} comes before ${chain[1]}`;
  const between = countOf(chain.length - 4, "more task");
  const named = chain.length <= MOST_IN_CHAIN ? chain : [...chain.slice(0, 2), between, ...chain.slice(-2)];
  return `${listOf(named)} come in this order`;
}

/** All of them after a colon; "" where there are none. */
export function whyWords(unit: TimeUnit | null, obstacles: readonly Obstacle[], between = "; "): string {
  const words = obstacleClauses(unit, obstacles);
  return words.length === 0 ? "" : `: ${words.join(between)}`;
}

function slowWords(unit: TimeUnit | null, { slow }: Extract<Obstacle, { kind: "short-at-benches" }>): string {
  const words = slow.map(({ busy, due }) => {
    const [takes, every] = showTimesApart(unit, busy, due);
    return `loaded and running it is busy ${takes} for a unit, and one is due every ${every}`;
  });
  return words.length === 0 ? "" : ` (${words.join("; ")})`;
}

/** How many of a machine are needed, with the sum: "2 x tester needed: 8 s of loading + 25 s of running = 33 s, above ...". */
export function machineWords(
  unit: TimeUnit | null,
  { name, task, runs, held, busy, lineCycle, needed }: MachineNeed,
): string {
  const what = `${needed} x ${name ?? `machine for ${task}`} needed`;
  if (held !== null) {
    const [long, cycle] = showTimesApart(unit, busy, lineCycle);
    return `${what}: it holds each unit ${long} (${held.join(", ")}), above the line cycle of ${cycle}`;
  }
  const { terms, total, beside } = showSumIn(
    unit,
    runs.flatMap(({ loading, run }) => [loading, run]),
    lineCycle,
  );
  const hands = runs.some(({ run }) => run.num !== 0n) ? "loading" : "work";
  const sum = runs.flatMap(({ run }, at) => [
    `${terms[2 * at]} of ${hands}`,
    ...(run.num === 0n ? [] : [`${terms[2 * at + 1]} of running`]),
  ]);
  const all = sum.length === 1 ? "" : ` = ${total}`;
  return `${what}: ${sum.join(" + ")}${all}, above the line cycle of ${beside[0]}`;
}

/** "1 exists", "2 exist". */
export const existWords = (count: number): string => `${count} ${count === 1 ? "exists" : "exist"}`;

/** How much of a search found no plan: "400000 partial plans (the limit)". */
export function noneFoundWords({ search }: Pick<Balance, "search">): string {
  if (search === null) return countOf(0, "partial plan");
  const { nodes, nodeLimit, ended } = search;
  const limit = ended === "nodes" && nodeLimit !== null ? ` (limit ${thousands(nodeLimit)})` : "";
  return `${countOf(nodes, "partial plan")}${limit}`;
}
