import type { Roster, StaffAnswer } from "../../answer/staff/staff-answer.js";
import { thousands } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { PeopleOfShift } from "../../plan/figures/people.js";
import { decimal } from "../../time/show-values.js";
import { paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { formatTable } from "./table.js";

/** Who can be in a shift, in the order in which they are added up. */
const GROUPS = [
  ["onLine", "on the line"],
  ["repair", "repairers"],
  ["atBenches", "at the benches of today's plan"],
] as const;

/** The people of each shift and of the working day, a demand a row; "" where that is one shift of people on the line alone. */
export function staffRosterText({ rows, range }: StaffAnswer, look: Look): string {
  const rosters = rows.flatMap(({ roster }) => (roster === null ? [] : [roster]));
  const shifts = [...(rosters[0]?.shifts ?? [])];
  const groups = GROUPS.filter(([key]) =>
    rosters.some((roster) => roster.shifts.some((each) => each[key] > 0)),
  );
  if (shifts.length === 0 || (shifts.length === 1 && groups.length < 2)) return "";
  const cellOf = (people: PeopleOfShift | undefined): string => {
    if (people === undefined) return "-";
    const sum = groups.map(([key]) => people[key]).join(" + ");
    return groups.length < 2 ? thousands(people.inAll) : `${people.inAll} = ${sum}`;
  };
  const dayOf = (roster: Roster | null) => (roster === null ? "-" : thousands(roster.perDay));
  const table = formatTable(
    [
      { head: "demand", align: "right" },
      ...shifts.map(({ shift }, at) => ({
        head: shift === null ? `shift ${at + 1}` : visibleText(shift),
        align: "right" as const,
      })),
      { head: "per day", align: "right" },
    ],
    rows.map(({ demand, roster }) => [
      decimal(demand.units, 6),
      ...shifts.map((_, at) => cellOf(roster?.shifts[at])),
      dayOf(roster),
    ]),
    look.width,
  );
  const who = `people ${groups.length < 2 ? "" : "= "}${groups.map(([, words]) => words).join(" + ")}`;
  const meaning = `demand: good units per ${range.period}; each shift: ${who}; per day: all shifts`;
  return `${table}${paragraph(meaning, look)}`;
}
