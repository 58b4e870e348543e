import type { StationsRate } from "../../answer/balance/rate-stations.js";
import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import { thousands } from "../../findings/count-of.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { decimal, onePartIn } from "../../time/show-values.js";
import { type Look, paintFor } from "./style.js";
import { type Column, formatTable } from "./table.js";

/** What the number of stations asked for can give, beside one station fewer and one more. */
export function ratesText(answer: ShownBalance, look: Look): string {
  const { line, rates: all, plan } = answer;
  if (all === null) return "";
  // Where one station more is of no use, its plan is that of as many as were asked for.
  const rates = all.filter(({ stations }, at) => stations !== all[at - 1]?.stations);
  const [show, paint] = [showTimesIn(line.unit), paintFor(look)];
  const asked = rates.findIndex((rate) => rate.stations === plan?.stations.length);
  // Below this many columns the figure that can be worked out from the others makes room.
  const withPerson = look.width >= 76;
  const withPeople = rates.some(({ stations, people }) => people !== stations);
  const withShift = withPerson || (!withPeople && answer.shown.isPlain);
  // Shifts of different length have no output in common.
  const isByDay =
    rates.every(({ outputPerShift }) => outputPerShift === null) &&
    rates.some(({ outputByShift }) => outputByShift !== null);
  const heads = [
    "stations",
    ...(withPeople ? ["people"] : []),
    "cycle",
    "units/h",
    ...(withPerson ? ["units/person-h"] : []),
    ...(withShift ? [isByDay ? "units/day" : "units/shift"] : []),
    "",
  ];
  const rows = rates.map((rate) => [
    String(rate.stations),
    ...(withPeople ? [String(rate.people)] : []),
    show(rate.cycleOfPlan),
    rate.unitsPerHour === null ? "-" : decimal(rate.unitsPerHour, 2),
    ...(withPerson ? [rate.unitsPerPersonHour === null ? "-" : decimal(rate.unitsPerPersonHour, 3)] : []),
    ...(withShift ? [wholeUnits(rate)] : []),
    proofCell(rate, show(rate.cycleBound)),
  ]);
  const columns = heads.map(
    (head, at): Column =>
      at < heads.length - 1
        ? { head, align: "right" }
        : { head, wraps: true, ...(withShift ? {} : { narrowest: 8 }) },
  );
  return formatTable(columns, rows, look.width, (text, row) =>
    row === asked ? paint.strong(text) : row < 0 ? paint.faint(text) : text,
  );
}

function proofCell({ outcome, within }: StationsRate, least: string): string {
  if (outcome === "proved") return "proved";
  return within === null ? `not proved, at least ${least}` : `proved to ${onePartIn(within)}`;
}

const wholeUnits = ({ outputPerShift, outputPerDay }: StationsRate): string =>
  thousands(outputPerShift ?? outputPerDay ?? "-");
