import { restOfLine } from "../../benches/rest-of-line.js";
import { cycleOfPlan, cycleWithReserve } from "../../plan/figures/cycle.js";
import { goodUnits, shiftTime } from "../../plan/figures/output.js";
import { peopleNeeded, peopleOf } from "../../plan/figures/people.js";
import { workOfLine } from "../../plan/figures/person-time.js";
import { ONE_PERSON } from "../../plan/plan.js";
import { type Post, postOf } from "../../plan/post.js";
import type { Watch } from "../../solve/watch-times.js";
import { availableTimeOf } from "../../time/calendar.js";
import { type Pace, paceFromDemand } from "../../time/pace.js";
import { compare, floor, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { RestBalancer } from "../off-line/balance-rest.js";
import { benchesOfOption, mostTables } from "./answer-option.js";
import type { AskedOption, WhereLinePays } from "./option-answer.js";

/**
 * Compares people as functions of the demand D, exactly. At tables they are ceil(D x work / time), work being that of one unit /
 * plan-to + handling, so m people are needed from D(m - 1) + 1 up to D(m) = floor(m x time / work). The line never needs fewer people
 * for more units: it needs fewer than m somewhere in there if it does at the first of these demands, and everywhere if it does at the
 * last; both are balanced. Line and tables work the calendar, the losses and the reserve of the line, with the people listed and their skills.
 *
 * @returns null where the number of stations of the line is fixed
 */
export async function whereLinePays(
  tables: Post,
  asked: AskedOption,
  watch: Watch,
): Promise<WhereLinePays | null> {
  const { line, option } = asked;
  const period = periodOf(asked);
  const time = availableTimeOf(line.calendar, period);
  if (!time.ok || option?.stations != null || compare(cycleWithReserve(tables), ZERO) <= 0) return null;
  const unitsBy = (people: number) =>
    people === 0 ? 0 : wholeUnits(line, time.value, cycleWithReserve({ ...tables, places: people }));
  const { limit, byTables } = limitOf(asked, time.value, unitsBy);
  let [first, always, most, outcome]: [WhereLinePays["first"], number | null, number, "proved" | "found"] = [
    null,
    null,
    0,
    "proved",
  ];
  const peopleFor = async (units: number, fewerThan: number) => {
    const paced = units < 1 ? null : paceFor(asked, units, period);
    const found = paced === null ? null : await fewestPeople(asked, paced, fewerThan, watch);
    if (found === null) return null;
    most = Math.max(most, units);
    if (!found.proved && found.people >= fewerThan) outcome = "found";
    return found.people;
  };
  let lastSpan: Span | null = null;
  for (let people = 1; people <= mostPeople(asked, limit); people++) {
    const [low, high] = [unitsBy(people - 1) + 1, Math.min(unitsBy(people), limit)];
    if (low > limit) break;
    if (high < low) continue;
    const atLow = await peopleFor(low, people);
    if (atLow === null) break;
    const pays = atLow < people;
    // With no fewer people at the first of these demands the line has none fewer at the others.
    if (!pays) most = high;
    if (pays) first ??= { units: low, onLine: atLow, atTables: people };
    const atHigh = pays ? await peopleFor(high, people) : atLow;
    if (pays) lastSpan = { low: atHigh !== null && atHigh < people ? high : low, high, people };
    if (atHigh === null || atHigh < people) always ??= pays ? low : null;
    else always = null;
    if (atHigh === null) break;
  }
  const last = always === null ? await lastOf(lastSpan, peopleFor) : null;
  return {
    line: asked.name,
    period,
    first,
    always,
    most,
    mostTables: byTables,
    last,
    outcome,
  };
}

const wholeUnits = (line: AskedOption["line"], time: Ratio, cycle: Ratio): number =>
  Number(floor(goodUnits(line, time, cycle)!));

/** Demands at which tables need so many people, and the line fewer at the least of them. */
interface Span {
  readonly low: number;
  readonly high: number;
  readonly people: number;
}

/** The most units of a span for which the line needs fewer people: for more it never needs fewer than for less. */
async function lastOf(
  span: Span | null,
  peopleFor: (units: number, fewerThan: number) => Promise<number | null>,
): Promise<number | null> {
  if (span === null) return null;
  let [low, high] = [span.low, span.high];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    const people = await peopleFor(middle, span.people);
    if (people !== null && people < span.people) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** What demands are counted in: the shift where the file states its own so and shifts are alike, else the day; the hour without a calendar. */
function periodOf({ line }: AskedOption): WhereLinePays["period"] {
  if (line.calendar === null) return "hour";
  return line.demand?.period === "shift" && shiftTime(line) !== null ? "shift" : "day";
}

/** Beyond these units its longest task alone keeps as many places as a station may have longer than they work; no limit without work. */
function mostUnits({ line, pace, option }: AskedOption, time: Ratio): number {
  const places = Math.max(line.maxPlaces, ...line.floor.map((station) => station.maxPlaces ?? 1));
  const away = new Set(option?.offLine.flatMap(({ tasks }) => tasks));
  const kept = [...line.tasks.keys()].filter((task) => !away.has(task));
  const cycle = cycleOfPlan(
    kept.map((task) => postOf(line, pace, { ...ONE_PERSON, id: "", tasks: [task], places })),
  );
  return compare(cycle, ZERO) > 0 ? wholeUnits(line, time, cycle) : Number.MAX_SAFE_INTEGER;
}

/** The same, or what those can build who have every skill where that is less. */
function limitOf(asked: AskedOption, time: Ratio, unitsBy: (people: number) => number) {
  const [ofLine, tables] = [mostUnits(asked, time), mostTables(asked.line)];
  const atTables = tables === null ? ofLine : unitsBy(tables);
  return atTables < ofLine ? { limit: atTables, byTables: tables } : { limit: ofLine, byTables: null };
}

/** Where there is no limit of units: a line needs no more people than it has places, so beyond these nothing changes. */
function mostPeople({ line }: AskedOption, limit: number): number {
  if (limit < Number.MAX_SAFE_INTEGER) return limit;
  const crew = Math.max(...line.tasks.map(({ people }) => people));
  const places = Math.max(line.maxPlaces, ...line.floor.map((station) => station.maxPlaces ?? 1));
  return line.tasks.length * places * crew + 1;
}

function paceFor({ line, pace }: AskedOption, units: number, period: WhereLinePays["period"]): Pace | null {
  const { calendar, uptime, yield: good } = line;
  const demand = { units: ratio(units), period };
  const { handling, planTo } = pace;
  const paced = paceFromDemand({ demand, calendar, uptime, yield: good, handling, planTo });
  return paced.ok ? paced.value : null;
}

/** The fewest people of the option at a pace, those at benches among them; null where it cannot keep the pace. */
async function fewestPeople(
  asked: AskedOption,
  pace: Pace,
  fewerThan: number,
  checkpoint: Watch,
): Promise<{ readonly people: number; readonly proved: boolean } | null> {
  const { line, nodes } = asked;
  const benches = await benchesOfOption(asked, pace, { nodes, checkpoint });
  const { rest } = restOfLine(line, benches);
  const away = benches.reduce((sum, bench) => sum + bench.people, 0);
  const least = leastPeople(rest, pace) + away;
  if (least >= fewerThan) return { people: least, proved: true };
  const search = { method: "best", nodes, level: false, strictLimit: false, explain: false, checkpoint };
  const { plan, outcome } = await new RestBalancer(line, pace, search).of(benches);
  return plan === null ? null : { people: peopleOf(plan) + away, proved: outcome === "proved" };
}

/** Nobody works longer than a line cycle for each unit. */
function leastPeople(rest: AskedOption["line"], pace: Pace): number {
  return peopleNeeded(workOfLine(rest), pace.lineCycle).whole;
}
