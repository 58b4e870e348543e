import type { RampAnswer, RampDay, RampUnit } from "../../answer/ramp/ramp-answer.js";
import { thousands } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import { showTimesIn, showTimesRoughlyIn } from "../../time/show-in-unit.js";
import { difference, signOf } from "../../time/show-numbers.js";
import { beforeRounding, decimal, percent, toMinutes } from "../../time/show-values.js";
import { cautionsOfPlan } from "../cautions.js";
import { heldUpWords, keepsPaceWords, LEARNED_BY_WORDS, rampWords } from "../words/ramp-words.js";
import { cautionText } from "./cautions-text.js";
import { headed, labelled, paragraph, scopeText, titleText } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { type Column, formatTable, formatWithout } from "./table.js";

/** The whole answer of `ramp` for a person; `each` shows every day. Empty parts are left out; ends in a newline. */
export function rampText(answer: RampAnswer, each: boolean, look: Look): string {
  const { line, plan } = answer;
  const parts = [
    `${titleText(line, look)}${scopeText(line, answer.shown, look)}\n${paragraph([rampWords(answer), ...heldUpWords(answer)].join(" "), look)}`,
    headed("by day", daysText(answer, each, look), look),
    headed("by unit", unitsText(answer, look), look),
    headed("stations", stationsText(answer, look), look),
    headed("what learning takes", batchText(answer, look), look),
    headed("how it is learned", learningText(answer, look), look),
    cautionText(cautionsOfPlan(line, plan), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

/** Days that are shown one by one before the steps grow. */
const FIRST_DAYS = 5;
/** So many are shown whole. */
const FEW_DAYS = 12;

function daysText(answer: RampAnswer, each: boolean, look: Look): string {
  const { days, people, line, paceFrom } = answer;
  if (days === null) return "";
  const show = showTimesRoughlyIn(line.unit);
  const isHeld = days.some((each) => isHeldUp(each.first));
  const isWanted = days.some(({ behind }) => behind !== null);
  const shown = each || days.length <= FEW_DAYS ? days : someDays(days, paceFrom?.day ?? null);
  const rows = shown.map(({ day, made, madeInAll, first, behind, extraHands, hands }) => [
    thousands(day),
    thousands(made),
    thousands(madeInAll),
    ...(isWanted ? [behind === null ? "-" : decimal(behind, 1)] : []),
    show(first.outputCycle),
    beforeRounding(extraHands),
    hands === 0 ? String(people) : `${people} + ${hands}`,
  ]);
  const columns: Column[] = [
    { head: "day", align: "right" },
    { head: "made", align: "right" },
    { head: "in all", align: "right" },
    ...(isWanted ? [{ head: "behind", align: "right" } as const] : []),
    { head: "cycle at start", align: "right", breaks: true },
    { head: "extra hands", align: "right", breaks: true },
    { head: "people", align: "right" },
  ];
  // The cycle stands in the table of the units as well.
  const table = formatWithout("cycle at start", columns, rows, look.width);
  const wanted = isWanted ? "behind: good units of the batch wanted so far less those made; " : "";
  return `${table}${paragraph(`${wanted}extra hands: what keeps the pace at every unit, on the mean of the units made that day. At each unit: people x (what their work takes / line cycle - 1), over the slower stations whose people set their pace. People: + the whole people for what a station lacks over the day, as later units of the day may make up for earlier ones. The line takes the cycle of the plan for each unit${isHeld ? ", or what waits hold it to," : ","} and is never slowed to the pace.`, look)}`;
}

/** The first days, then the 10th, 20th, 50th, 100th, ..., the one on which the pace is met, and the last. */
function someDays(days: readonly RampDay[], met: number | null): RampDay[] {
  const isRound = (day: number) => /^[125]0+$/u.test(String(day));
  return days.filter(({ day }) => day <= FIRST_DAYS || isRound(day) || day === met || day === days.length);
}

/** Whether waits hold the line longer than its slowest station. */
const isHeldUp = ({ cycle, outputCycle }: RampUnit): boolean => difference(outputCycle, cycle) > 0;

function unitsText({ rows, line, pace }: RampAnswer, look: Look): string {
  const show = showTimesRoughlyIn(line.unit);
  const hasDays = rows.some(({ day }) => day !== null);
  const isHeld = rows.some(isHeldUp);
  const table = formatTable(
    [
      { head: "unit", align: "right" },
      ...(hasDays ? [{ head: "day", align: "right" } as const] : []),
      { head: "cycle of the plan", align: "right", breaks: true },
      ...(isHeld ? [{ head: "with waits", align: "right", breaks: true } as const] : []),
      { head: "slowest", givesWay: true },
      { head: "stations over the pace", align: "right", breaks: true },
      { head: "extra hands", align: "right", breaks: true },
    ],
    rows.map(({ unit, day, cycle, outputCycle, slowest, overPace, extraHands }) => [
      thousands(unit),
      ...(hasDays ? [day === null ? "" : thousands(day)] : []),
      show(cycle),
      ...(isHeld ? [show(outputCycle)] : []),
      slowest === null ? "-" : visibleText(slowest),
      thousands(overPace),
      decimal(extraHands, 2),
    ]),
    look.width,
  );
  return `${table}${paragraph(`The line cycle is ${showTimesIn(line.unit)(pace.lineCycle)}.`, look)}`;
}

/** Columns of units that fit beside a station. */
const fewUnits = ({ width }: Look): number => (width < 80 ? 2 : 4);

function stationsText({ posts, rows, line, pace }: RampAnswer, look: Look): string {
  const show = showTimesRoughlyIn(line.unit);
  const paint = paintFor(look);
  const round = rows.filter(({ unit }, at) => at === rows.length - 1 || /^10*$/u.test(String(unit)));
  const few = fewUnits(look);
  const shown = round.length <= few ? round : [...round.slice(0, few - 1), round.at(-1)!];
  const table = formatTable(
    [
      { head: "station", givesWay: true },
      { head: "people", align: "right" },
      ...shown.map(({ unit }) => ({
        head: `unit ${thousands(unit)}`,
        align: "right" as const,
        breaks: true,
      })),
      { head: "keeps the pace from", breaks: true },
    ],
    posts.map(({ id, people, paceFrom }, at) => [
      visibleText(id),
      String(people),
      ...shown.map(({ times }) => show(times[at]!)),
      keepsPaceWords(paceFrom),
    ]),
    look.width,
    (text, row, column) => (row >= 0 && column === shown.length + 2 ? paint.strong(text) : text),
  );
  const handling = pace.handling > 0 ? ", without handling" : "";
  return `${table}${paragraph(`Station times at each unit${handling}: the sum of what the busiest person of a place does.`, look)}`;
}

function batchText(answer: RampAnswer, look: Look): string {
  const { batch, atStatedTimes, extraHandsTime, units, unitsStarted } = answer;
  const rows: [string, string, string][] = [];
  if (unitsStarted !== null)
    rows.push(["started", decimal(unitsStarted, 1), `units for ${thousands(units)} good ones`]);
  rows.push(
    ["work", toMinutes(batch.work), `of all people, ${toMinutes(atStatedTimes.work)} at the file's times`],
    [
      "line",
      toMinutes(batch.line),
      `of available time, ${toMinutes(atStatedTimes.line)} at the file's times`,
    ],
  );
  if (signOf(extraHandsTime) > 0)
    rows.push([
      "extra hands",
      toMinutes(extraHandsTime),
      `of people to keep the pace over all ${thousands(units)} units`,
    ]);
  return labelled(rows, look);
}

function learningText({ learned, line, settled, unitsStarted }: RampAnswer, look: Look): string {
  if (learned.length === 0) return "";
  const rows = learned.map(({ learning, tasks }) => [
    tasksWords(tasks, line),
    percent(learning.share, 4),
    LEARNED_BY_WORDS[learning.by],
    thousands(learning.timeAt),
    percent(learning.least, 4),
    thousands(learning.built),
  ]);
  const table = formatTable(
    [
      { head: "tasks", wraps: true, narrowest: 6 },
      { head: "remains", align: "right" },
      { head: "of", breaks: true },
      { head: "time at unit", align: "right", breaks: true },
      { head: "least", align: "right" },
      { head: "built before", align: "right", breaks: true },
    ],
    rows,
    look.width,
  );
  const end =
    settled === null ? "" : ` From unit ${thousands(settled.unit)} of the batch on no time falls any more.`;
  return `${table}${paragraph(`remains: the share of the time at each doubling of the units; time at unit: the unit that takes the \`time\` of the file. Units are ${unitsStarted === null ? "those" : "the good ones"} of the line, whoever builds them. Walking, machines, waits and repairs are not learned.${end}`, look)}`;
}

/** Names before the rest is counted. */
const NAMED = 3;

function tasksWords(tasks: readonly number[], line: RampAnswer["line"]): string {
  if (tasks.length === line.tasks.length && tasks.length > NAMED) return `all ${tasks.length}`;
  const names = tasks.slice(0, NAMED).map((task) => visibleText(line.tasks[task]!.id));
  return tasks.length > NAMED ? `${names.join(", ")} and ${tasks.length - NAMED} more` : names.join(", ");
}
