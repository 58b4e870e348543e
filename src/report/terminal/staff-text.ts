import type { Roster, StaffAnswer, StaffRow } from "../../answer/staff/staff-answer.js";
import { countOf, thousands } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { PeopleOfShift } from "../../plan/figures/people.js";
import { showTimesRoughlyIn, showTimesUpIn } from "../../time/show-in-unit.js";
import { beforeRounding, decimal } from "../../time/show-values.js";
import { cautionsOf } from "../cautions.js";
import { staffWords } from "../words/answer-words.js";
import { cautionText } from "./cautions-text.js";
import { headed, labelled, paragraph, scopeText, titleText } from "./sections.js";
import { staffRowsText } from "./staff-rows-text.js";
import { staffStepsText } from "./staff-steps-text.js";
import { staffWaysText, waysHeading } from "./staff-ways-text.js";
import { demandWords } from "./staff-words.js";
import type { Look } from "./style.js";
import { formatTable } from "./table.js";

/** The whole answer of `staff` for a person. Empty parts are left out; ends in a newline. */
export function staffText(answer: StaffAnswer, look: Look): string {
  const { line } = answer;
  const parts = [
    `${titleText({ ...line, demand: null }, look)}${scopeText(line, answer.shown, look)}\n${paragraph(staffWords(answer), look)}`,
    headed("people as demand moves", staffRowsText(answer, look), look),
    headed("shift roster", staffRosterText(answer, look), look),
    headed("where people change", staffStepsText(answer, look), look),
    headed("by work content alone", byWorkText(answer, look), look),
    headed("machines", machinesText(answer, look), look),
    headed(waysHeading(answer), staffWaysText(answer, look), look),
    headed("proof", proofText(answer, look), look),
    cautionText(cautionsOf(answer.rows.map(({ plan }) => ({ tasks: line.tasks, plan }))), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

/** The first and the last row. */
const endsOf = (rows: readonly StaffRow[]): StaffRow[] =>
  rows.length < 2 ? [...rows] : [rows[0]!, rows.at(-1)!];

/** How far the work is from that of one person fewer; what is to be saved is rounded up, so that it is enough. */
function byWorkText({ line, rows }: StaffAnswer, look: Look): string {
  const [show, up] = [showTimesRoughlyIn(line.unit), showTimesUpIn(line.unit)];
  const told = endsOf(rows).flatMap(({ demand, byWork, takt, people }): [string, string, string][] => {
    if (byWork === null || takt === null) return [];
    const { exact, whole, lessWork } = byWork;
    const each = show(takt.pace.stationLimit);
    const limit = whole === 1 ? `person at ${each}` : `people at ${each} each`;
    const saving = lessWork === null || whole < 2 ? "" : `; ${up(lessWork)} less work saves a person`;
    const plan =
      people === null || people.onLine === whole
        ? ""
        : `; ${people.onLine} with indivisible tasks and the rules of the floor`;
    return [[demandWords(demand), `${beforeRounding(exact)} -> ${whole}`, `${limit}${saving}${plan}`]];
  });
  return told.length === 0 ? "" : labelled(told, look);
}

/** Each equipment that runs by itself, at both ends of the range, and where those that exist become too few. */
function machinesText({ rows }: StaffAnswer, look: Look): string {
  const names = [...new Set(rows.flatMap(({ machines }) => machines.map(({ equipment }) => equipment)))];
  const told = names.map((name): [string, string, string] => {
    const needs = rows.flatMap(({ demand, machines }) => {
      const machine = machines.find(({ equipment }) => equipment === name);
      return machine === undefined ? [] : [{ demand, machine }];
    });
    const ends = needs.length < 2 ? needs : [needs[0]!, needs.at(-1)!];
    const words = ends.map(
      ({ demand, machine }) =>
        `${beforeRounding(machine.exact)} -> ${machine.units} at ${demandWords(demand)}`,
    );
    const short = needs.find(({ machine }) => machine.units > machine.counted);
    const few = short === undefined ? [] : [`too few at ${demandWords(short.demand)}`];
    return [visibleText(name), `${needs[0]!.machine.counted} counted`, [...words, ...few].join("; ")];
  });
  return told.length === 0 ? "" : labelled(told, look);
}

function proofText({ outcome, nodes, doublings, isCut }: StaffAnswer, look: Look): string {
  const words: Record<StaffAnswer["outcome"], string> = {
    proved: "The fewest people are proved at every demand that has a plan, and every change is exact.",
    found: "Not everything is proved: more partial plans (--nodes) may find fewer people, or prove these.",
    infeasible: "No demand of the range has a plan.",
    stopped: "No plan was found in the partial plans allowed.",
  };
  const cut = isCut ? "Stopped before the end. Of what was reached: " : "";
  const effort = `Each row is the balance of its demand alone${doublings > 0 ? "" : `, after examining ${countOf(nodes, "partial plan")}`}.`;
  return paragraph(`${cut}${words[outcome]} ${effort}`, look);
}

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
