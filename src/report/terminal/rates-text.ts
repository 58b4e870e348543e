import type { BalanceAnswer } from "../../off-line/answer-balance.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { decimal } from "../../time/show-values.js";
import { type Look, paintFor } from "./style.js";
import { formatTable } from "./table.js";

/** What the number of stations asked for can give, beside one station fewer and one more. */
export function ratesText({ line, rates, plan }: BalanceAnswer, look: Look): string {
  if (rates === null) return "";
  const [show, paint] = [showTimesIn(line.unit), paintFor(look)];
  const asked = rates.findIndex((rate) => rate.stations === plan?.stations.length);
  const columns = ["stations", "people", "cycle", "units/h", "units/person-h", "units/shift", ""];
  const rows = rates.map((rate) => [
    String(rate.stations),
    String(rate.operators),
    show(rate.cycleOfPlan),
    rate.unitsPerHour === null ? "-" : decimal(rate.unitsPerHour, 2),
    rate.unitsPerPersonHour === null ? "-" : decimal(rate.unitsPerPersonHour, 3),
    rate.outputPerShift === null ? "-" : String(rate.outputPerShift),
    rate.outcome === "proved" ? "proved" : `not proved, at least ${show(rate.cycleBound)}`,
  ]);
  return formatTable(
    columns.map((head, at) => ({ head, align: at === columns.length - 1 ? "left" : "right" })),
    rows,
    look.width,
    (text, row) => (row === asked ? paint.strong(text) : row < 0 ? paint.faint(text) : text),
  );
}
