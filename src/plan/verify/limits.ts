import type { Limit, Line, Task } from "../../line/line.js";
import { MICROS_IN } from "../../time/units.js";
import { type Check, fault } from "./fault.js";
import type { StationView } from "./plan-view.js";
import { isWholeCount } from "./whole-times.js";

/**
 * What tasks take of a limit, added up over a station, is no more than the limit allows. For a person it is shared by the people at a
 * place; for a shift it counts as often as the work is done in the longest one, shared by the places that take units in turn.
 */
export const checkLimits: Check = ({ line, stations }) =>
  stations.flatMap((at) => {
    const { places, crew } = at.station;
    if (!isWholeCount(places) || !isWholeCount(crew)) return [];
    const own = at.floor?.limits ?? [];
    const ofLine = line.limits.filter((limit) => !own.some(({ name }) => name === limit.name));
    return [...ofLine, ...own].flatMap((limit) => {
      const used = usedAt(line, at, limit);
      if (used === null || used.num * limit.most.den <= limit.most.num * used.den) return [];
      const [shown, most] = showApart(used, limit.most);
      const unit = limit.unit === "" ? "" : ` ${limit.unit}`;
      const who = limit.per.startsWith("person") ? `each person at ${at.id} takes` : `${at.id} takes`;
      const when = limit.per.endsWith("shift") ? " in the longest shift" : "";
      const words = `${who} ${shown}${unit} of ${limit.name}${when}, more than the limit of ${most}${unit}`;
      return [fault("limit", words, at.id, null, { kind: "overfull", what: "limit" })];
    });
  });

/** A share of whole numbers, not reduced. */
interface Share {
  readonly num: bigint;
  readonly den: bigint;
}

/** Null where the limit is per shift and the line does not say what a shift makes. */
function usedAt(line: Line, { tasks, station }: StationView, { name, per }: Limit): Share | null {
  const units = per.endsWith("shift") ? unitsOfLongestShift(line) : { num: 1n, den: 1n };
  if (units === null) return null;
  let [num, den] = [0n, 1n];
  for (const task of tasks.map((number) => line.tasks[number]!)) {
    for (const { limit, amount } of task.uses) {
      if (limit !== name) continue;
      const often = per.endsWith("shift") ? doneForAGoodUnit(line, task) : { num: 1n, den: 1n };
      [num, den] = [
        num * amount.den * often.den + amount.num * often.num * den,
        den * amount.den * often.den,
      ];
    }
  }
  const people = per.startsWith("person") ? BigInt(station.crew) : 1n;
  const places = per.endsWith("shift") ? BigInt(station.places) : 1n;
  return { num: num * units.num, den: den * units.den * people * places };
}

/** The mean of the visits over the models by their shares. */
function doneForAGoodUnit(line: Line, { visits }: Task): Share {
  let [num, den] = [0n, 1n];
  for (const [model, often] of visits.entries()) {
    const share = line.models[model]?.share ?? { num: 1n, den: 1n };
    [num, den] = [num * often.den * share.den + often.num * share.num * den, den * often.den * share.den];
  }
  return { num, den };
}

/** Units started, wanted / yield, in the period of the demand x available time of the longest shift / that of the period. */
function unitsOfLongestShift({ demand, calendar, yield: good }: Line): Share | null {
  if (demand === null || calendar === null) return null;
  const lengths = calendar.shifts.map(({ gross, overtime, breaks, stops, changeovers }) =>
    [...breaks, ...stops, ...changeovers].reduce(
      (left, { count, each }) => left - count * each,
      gross + overtime,
    ),
  );
  const longest = BigInt(lengths.reduce((most, each) => Math.max(most, each), 0));
  const day = BigInt(lengths.reduce((sum, each) => sum + each, 0));
  let [num, den] = [demand.units.num * longest * good.den, demand.units.den * good.num];
  if (demand.period === "hour") return { num, den: den * BigInt(MICROS_IN.h) };
  if (day <= 0n) return null;
  if (demand.period === "shift") return { num: num * BigInt(lengths.length), den: den * day };
  den *= day;
  const { daysPerWeek, daysPerMonth, daysPerYear, weeksPerYear } = calendar;
  const weeks = daysPerYear === null ? [daysPerWeek, weeksPerYear] : [daysPerYear];
  const days = { day: [], week: [daysPerWeek], month: [daysPerMonth], year: weeks }[demand.period];
  for (const count of days) {
    if (count === null) return null;
    [num, den] = [num * count.den, den * count.num];
  }
  return { num, den };
}

/** Both with so many decimals that they differ; the first is larger. */
function showApart(used: Share, most: Share): readonly [string, string] {
  for (let decimals = 3; ; decimals += 3) {
    const shown = [used, most].map((each) => show(each, decimals)) as [string, string];
    if (shown[0] !== shown[1] || decimals > MOST_DECIMALS) return shown;
  }
}

const MOST_DECIMALS = 30;

/** Rounded half up, without zeros at the end. */
function show({ num, den }: Share, decimals: number): string {
  const scaled = (2n * num * 10n ** BigInt(decimals) + den) / (2n * den);
  const digits = scaled.toString().padStart(decimals + 1, "0");
  return `${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`.replace(/\.?0+$/u, "");
}
