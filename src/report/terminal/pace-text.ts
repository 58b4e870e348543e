import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import { tells } from "../../findings/finding.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { decimal, longTime, percent } from "../../time/show-values.js";
import type { TaktSum } from "../../time/takt.js";
import { labelled, paragraph } from "./sections.js";
import type { Look } from "./style.js";

/** Takt, line cycle, working time and station limit, each with its sum. */
export function paceText(answer: ShownBalance, look: Look): string {
  const need = answer.rates === null ? undefined : needOf(answer);
  return `${labelled(paceRows(answer), look)}${need === undefined ? "" : paragraph(`${upper(need.message)}.`, look)}`;
}

const needOf = ({ findings }: ShownBalance) => findings.find((each) => tells(each, "pace-need"));

/** The same as rows of a label, a value and its sum. */
export function paceRows(answer: ShownBalance): [string, string, string][] {
  const { line, pace, takt, rates, shown } = answer;
  const show = showTimesIn(line.unit);
  if (rates !== null) {
    const need = needOf(answer);
    const who = need?.fact?.kind === "pace-need" ? `the ${need.fact.who}` : "the slowest station";
    const set = `set by ${who}, with ${show(pace.handling)} handling`;
    const rows: [string, string, string][] = [["line cycle", show(pace.lineCycle), set]];
    if (takt !== null) {
      const own = shown.ownLimits.map(
        (at) => `; at ${at.id} ${show(at.limit)}, ${percent(at.planTo, 4)} plan-to`,
      );
      const limit = `at the demand: ${percent(takt.pace.planTo, 4)} plan-to${own.join("")}; not asked of this plan`;
      rows.push(["demand needs", show(takt.pace.lineCycle), lineCycleTerms(takt)]);
      rows.push(["station limit", show(takt.pace.stationLimit), limit]);
    }
    return rows;
  }
  if (takt === null) {
    const loaded = line.keepPace === null ? "plan-to 100 %" : `keep-pace ${percent(line.keepPace.chance, 4)}`;
    const what = `given as the line cycle; also the station limit (no handling, ${loaded})`;
    return [["line cycle", show(pace.lineCycle), what]];
  }
  return [
    ["takt", show(takt.takt), taktTerms(takt)],
    ["line cycle", show(pace.lineCycle), lineCycleTerms(takt)],
    ["working time", show(pace.workingTime), `line cycle - ${show(pace.handling)} handling`],
    ["station limit", show(pace.stationLimit), limitTerms(answer)],
  ];
}

function limitTerms({ line: { keepPace }, pace }: ShownBalance): string {
  return keepPace === null ? `working time x ${percent(pace.planTo, 4)} plan-to` : keepPaceTerms(keepPace);
}

/** What holds in place of a plan-to. */
export const keepPaceTerms = ({ chance, score }: NonNullable<ShownBalance["line"]["keepPace"]>): string =>
  `the working time; mean + z x deviation is held within it (keep-pace ${percent(chance, 4)}: z = ${decimal(score, 4)})`;

const upper = (text: string): string => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;

/** Available time / good units, with the time in seconds beside its long form. */
export function taktTerms({ availablePerPeriod, terms }: TaktSum): string {
  const { units, period } = terms.demand;
  return `${longTime(availablePerPeriod)} available per ${period} / ${decimal(units, 6)} good units`;
}

export function lineCycleTerms({ terms }: TaktSum): string {
  return `takt x ${percent(terms.uptime, 4)} uptime x ${percent(terms.yield, 4)} yield`;
}
