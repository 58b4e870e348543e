import type { FloorQuestion, FloorQuestions, LineSize } from "../../answer/order/ask-floor.js";
import { countOf, countPeople, thousands } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import type { Line } from "../../line/line.js";

/** "Must B wait for A? If not: 11 people instead of 12." */
export function questionWords(
  { tasks }: Line,
  { precedences, without }: FloorQuestion,
  size: LineSize | null,
): string {
  const id = (task: number) => tasks[task]!.id;
  const [first, ...others] = precedences.map(({ before, after }) => `${id(after)} wait for ${id(before)}`);
  const asked = [`Must ${first}`, ...others.map((each) => `must ${each}`)];
  const answer = others.length === 0 ? "not" : "neither";
  return `${listOf(asked)}? If ${answer}: ${insteadWords(without, size)}.`;
}

function insteadWords({ people, stations }: LineSize, size: LineSize | null): string {
  if (size === null)
    return `${countPeople(people)} at ${countOf(stations, "station")}, where there is no plan now`;
  if (people < size.people) return `${countPeople(people)} instead of ${thousands(size.people)}`;
  return `${countOf(stations, "station")} instead of ${thousands(size.stations)}, with ${countPeople(people)} as before`;
}

/** What the answers rest on: what was looked at, and how far that proves anything. */
export function lookedAtWords(found: FloorQuestions): string[] {
  const { size, candidates, ruledOut, open, notLookedAt, noneHelps, questions, balances, nodes, pairs } =
    found;
  if (candidates > 0 && balances === 0)
    return [
      `${countOf(candidates, "direct precedence")} ${candidates === 1 ? "was" : "were"} not looked at: the line is long, and a few balances of it take ${thousands(found.nodesToAsk)} partial plans. Give --nodes ${found.nodesToAsk} or more for them.`,
    ];
  const alone = questions.filter(({ precedences }) => precedences.length === 1).length;
  const now =
    size === null
      ? "With all precedences no plan was found."
      : `With all precedences: ${countPeople(size.people)}, ${countOf(size.stations, "station")}${size.isProved ? " (proved least)" : " (found, not proved least)"}.`;
  const each = [
    ...(alone > 0 ? [`${thousands(alone)} would save by ${alone === 1 ? "itself" : "themselves"}`] : []),
    ...(ruledOut > 0
      ? [`${thousands(ruledOut)} ${ruledOut === 1 ? "is" : "are"} proved to save nothing alone`]
      : []),
    ...(open > 0
      ? [
          `${thousands(open)} ${open === 1 ? "is" : "are"} not settled, as no better plan was found without ${open === 1 ? "it" : "them"} and none ruled out`,
        ]
      : []),
    ...(notLookedAt > 0
      ? [
          `${thousands(notLookedAt)} ${notLookedAt === 1 ? "was" : "were"} not looked at alone, as those come first that keep a task from another station; give --nodes for a longer search`,
        ]
      : []),
  ];
  const which = `${countOf(candidates, "direct precedence")} may be asked about${each.length === 0 ? "" : `: ${each.join("; ")}`}.`;
  const two =
    pairs === "not-asked"
      ? []
      : pairs === "all"
        ? ["Every two of them together were looked at as well."]
        : ["Two together were looked at as well, not all of them within the limit."];
  const took = `That took ${countOf(balances, "balance")} and ${countOf(nodes, "partial plan")}.`;
  if (candidates === 0) return [now, "No precedence is left to ask about."];
  if (noneHelps)
    return [
      now,
      size === null
        ? "Without all that may be asked about there is no plan either (proved); what they imply together stays."
        : "No precedence costs a person or a station: without all that may be asked about, the line needs as many (proved).",
      took,
    ];
  return [now, which, ...two, took];
}
