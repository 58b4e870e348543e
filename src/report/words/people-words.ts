import { countOf, countPeople } from "../../findings/count-of.js";
import type { Line } from "../../line/line.js";
import type { PeopleInAll } from "../../plan/figures/people.js";

type PeopleOfPlan = Omit<PeopleInAll, "atATime">;

/** What everybody that a plan takes at a time is made of: "12 on the line + 1 repairer, at the same time; 26 per day in 2 shifts". */
export function splitOfPeople(line: Line, people: PeopleOfPlan): string {
  const [where] = besideLine(people);
  const atATime = where === undefined ? "on the line at the same time" : `${where}, at the same time`;
  return [atATime, ...ofDay(line, people)].join("; ");
}

/** The same without what goes without saying: "12 on the line + 1 repairer; 26 per day in 2 shifts"; empty where all are on a line of one shift. */
export const splitInShort = (line: Line, people: PeopleOfPlan): string =>
  [...besideLine(people), ...ofDay(line, people)].join("; ");

const besideLine = ({ onLine, atBenches, repair }: PeopleOfPlan): string[] => {
  const beside = [
    ...(atBenches === 0 ? [] : [`${atBenches} at benches`]),
    ...(repair === 0 ? [] : [countOf(repair, "repairer")]),
  ];
  return beside.length === 0 ? [] : [[`${onLine} on the line`, ...beside].join(" + ")];
};

function ofDay({ calendar }: Line, { perDay }: PeopleOfPlan): string[] {
  const shifts = calendar?.shifts.length ?? 1;
  return perDay === null || shifts === 1 ? [] : [`${perDay} per day in ${shifts} shifts`];
}

/** "1 person" or "12 people"; where others repair beside the line, "12 people on the line". */
export function peopleOnLine(count: number, repair: number | null): string {
  return repair === 0 || repair === null ? countPeople(count) : `${countPeople(count)} on the line`;
}

/** "12 people are needed"; where others repair beside the line, "12 people are needed on the line". */
export const neededWords = (count: number, repair: number | null): string =>
  `${countPeople(count)} ${count === 1 ? "is" : "are"} needed${repair === 0 || repair === null ? "" : " on the line"}`;

/** Whose time an efficiency is a share of: repairs are no work of a plan. */
export const overWhom = (repair: number): string =>
  repair === 0 ? "over all people" : "over all people but those for repairs";
