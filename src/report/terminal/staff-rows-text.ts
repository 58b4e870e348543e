import stringWidth from "string-width";
import type { StaffAnswer, StaffRow } from "../../answer/staff/staff-answer.js";
import { thousands } from "../../findings/count-of.js";
import { showTimesRoughlyIn } from "../../time/show-in-unit.js";
import { decimal, percent, upToMinutes } from "../../time/show-values.js";
import { paragraph } from "./sections.js";
import { demandWords } from "./staff-words.js";
import { type Look, paintFor } from "./style.js";
import { formatTable } from "./table.js";

interface Figure {
  readonly head: string;
  /** What the figure is, for the words below the table. */
  readonly meaning: string | null;
  cell(row: StaffRow): string;
}

/** One row a demand; figures that the width has no room for are named instead, the least asked for first. */
export function staffRowsText(answer: StaffAnswer, look: Look): string {
  const { rows } = answer;
  if (rows.length === 0) return paragraph("Stopped before any demand was looked at.", look);
  const wanted = figuresOf(answer);
  const shown: Figure[] = [];
  let room = look.width;
  for (const figure of wanted) {
    const cells = [figure.head, ...rows.map((row) => figure.cell(row))];
    const wide = 2 + Math.max(...cells.map((each) => stringWidth(each)));
    if (wide > room) continue;
    room -= wide;
    shown.push(figure);
  }
  const columns = inOrder(shown);
  const paint = paintFor(look);
  const table = formatTable(
    columns.map(({ head }, at) => ({ head, align: at === columns.length - 1 ? "left" : "right" })),
    rows.map((row) => columns.map((figure) => figure.cell(row))),
    look.width,
    (text, row, column) =>
      row < 0 ? paint.faint(text) : columns[column]!.head === "people" ? paint.strong(text) : text,
  );
  const meanings = columns.flatMap(({ head, meaning }) => (meaning === null ? [] : [`${head}: ${meaning}`]));
  const left = wanted.filter((figure) => !shown.includes(figure)).map(({ head }) => head);
  const missing = left.length === 0 ? [] : [`${left.join(", ")} left out for width; see --json`];
  return `${table}${paragraph([...meanings, ...missing].join("; "), look)}`;
}

/** How the columns follow each other. */
const ORDER = [
  "demand",
  "line cycle",
  "stations",
  "people",
  "on line",
  "per day",
  "to hire",
  "efficiency",
  "idle",
  "output",
  "hours",
  "moves",
  "cost",
  "proof",
];

function inOrder(shown: readonly Figure[]): Figure[] {
  return shown.toSorted((one, two) => ORDER.indexOf(one.head) - ORDER.indexOf(two.head));
}

const orDash = <Value>(value: Value | null | undefined, show: (value: Value) => string): string =>
  value === null || value === undefined ? "-" : show(value);

/** What the line has something of, the most asked for first. */
function figuresOf({ line, range, rows, crew, hiresMore }: StaffAnswer): Figure[] {
  const show = showTimesRoughlyIn(line.unit);
  const shifts = line.calendar?.shifts.length ?? 1;
  const some = (has: (row: StaffRow) => boolean, ...figures: Figure[]) => (rows.some(has) ? figures : []);
  const whole = (value: number | null | undefined) => orDash(value, thousands);
  const isMoved = rows.some(({ moves }) => moves !== null);
  const byWhichPlan = isMoved ? " by the plan with those moves" : ", loads evened out";
  return [
    {
      head: "demand",
      meaning: `good units per ${range.period}`,
      cell: ({ demand }) => decimal(demand.units, 6),
    },
    { head: "people", meaning: "everybody at the same time", cell: ({ people }) => whole(people?.atATime) },
    { head: "proof", meaning: null, cell: outcomeCell },
    {
      head: "efficiency",
      meaning: "at the pace",
      cell: ({ measures }) => orDash(measures?.efficiencyAtPace, (share) => percent(share)),
    },
    { head: "stations", meaning: null, cell: ({ measures }) => whole(measures?.stations) },
    ...some(({ moves }) => moves !== null, {
      head: "moves",
      meaning: "from today's plan, * not proved fewest",
      cell: ({ moves }) =>
        orDash(moves, ({ count, outcome }) => `${count}${outcome === "proved" ? "" : " *"}`),
    }),
    ...some(({ costPerUnit }) => costPerUnit !== null, {
      head: "cost",
      meaning: `of a unit${line.rates?.currency == null ? "" : `, in ${line.rates.currency}`}`,
      cell: ({ costPerUnit }) => orDash(costPerUnit, (cost) => decimal(cost, 2)),
    }),
    ...some(({ people }) => (people?.repair ?? 0) > 0, {
      head: "on line",
      meaning: "those who do not repair beside it",
      cell: ({ people }) => whole(people?.onLine),
    }),
    ...some(({ hired }) => hiresMore && hired !== null, {
      head: "to hire",
      meaning: `at ${percent(line.attendance, 4)} attendance and ${percent(line.relief, 4)} relief`,
      cell: ({ hired }) => whole(hired),
    }),
    ...some(({ people }) => shifts > 1 && people !== null, {
      head: "per day",
      meaning: `everybody in ${shifts} shifts`,
      cell: ({ people }) => whole(people?.perDay),
    }),
    ...some(({ hours }) => hours !== null, {
      head: "hours",
      meaning: `what ${crewWords(crew)} must work a shift instead`,
      cell: ({ hours }) => orDash(hours, upToMinutes),
    }),
    { head: "line cycle", meaning: null, cell: ({ takt }) => orDash(takt?.pace.lineCycle, show) },
    ...some(({ measures }) => measures?.outputPerShift != null, {
      head: "output",
      meaning: `whole good units a shift${byWhichPlan}`,
      cell: ({ measures }) => whole(measures?.outputPerShift),
    }),
    ...some(({ outputPerDay }) => outputPerDay !== null, {
      head: "output",
      meaning: `whole good units a day${byWhichPlan}`,
      cell: ({ outputPerDay }) => whole(outputPerDay),
    }),
    {
      head: "idle",
      meaning: null,
      cell: ({ measures }) => orDash(measures?.balanceDelayAtPace, (share) => percent(share)),
    },
  ];
}

function crewWords(crew: StaffAnswer["crew"]): string {
  return crew === null || crew.demand === null ? "today's crew" : `the crew for ${demandWords(crew.demand)}`;
}

function outcomeCell({ outcome, leastPeople, people }: StaffRow): string {
  if (outcome === "proved") return "proved";
  if (outcome === "infeasible") return "no plan";
  if (outcome === "stopped") return "open";
  return leastPeople === people?.atATime ? "people proved" : `at least ${leastPeople}`;
}
