import type { LongTaskAnswer, SlowerPace } from "../../answer/long-tasks/long-task-answers.js";
import type { OffLineAnswer } from "../../answer/off-line/off-line-answer.js";
import { countOf } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import { type ShowTime, showTimesApart, showTimesDownIn, showTimesIn } from "../../time/show-in-unit.js";
import { decimal, percent, upToMinutes } from "../../time/show-values.js";
import { labelled, paragraph } from "./sections.js";
import { type Look, paintFor } from "./style.js";

type Row = [string, string, string];

/** For every task that is too long the answers that exist, each with its number, and what is next once it is helped. */
export function longTasksText(answer: OffLineAnswer, look: Look): string {
  const { answers, withPlaces } = answer.longTasks;
  if (answers.length === 0) return "";
  const show = showTimesIn(answer.line.unit);
  const all =
    withPlaces === null
      ? ""
      : paragraph(
          `Parallel workplaces for all of them: ${countOf(withPlaces.stations, "station")} with ${countOf(withPlaces.places, "place")} and ${withPlaces.people} people in all (${withPlaces.outcome})${withPlaces.efficiency === null ? "" : `, efficiency ${percent(withPlaces.efficiency)} at the pace`}.`,
          look,
        );
  const tables = answers.map((each) => {
    const task = visibleText(answer.line.tasks[each.task]!.id);
    const title = `  ${paintFor(look).strong(task)}\n`;
    return `${title}${labelled(rowsOf(answer, each, show), look)}`;
  });
  return `${tables.join("\n")}${all === "" ? "" : `\n${all}`}`;
}

function rowsOf(answer: OffLineAnswer, each: LongTaskAnswer, show: ShowTime): Row[] {
  const { line, pace } = answer;
  const isLong = each.isOverWorkingTime;
  const [takes, working, limit] = showTimesApart(
    line.unit,
    each.taskTime,
    pace.workingTime,
    pace.stationLimit,
  );
  const over = each.isImpossible
    ? isLong
      ? `over the working time of ${working}`
      : "what it needs, or what is kept with it, leaves it no station"
    : `over the station limit of ${limit}; stands alone`;
  const bench: Row =
    each.bench === null
      ? [
          "bench",
          "-",
          answer.isGuess ? "not known, as no task says `on-base: true`" : "it cannot leave the line",
        ]
      : [
          "bench",
          String(each.bench.places),
          visibleText(
            `bench ${each.bench.places === 1 ? "place" : "places"} for ${each.bench.tasks.map((task) => line.tasks[task]!.id).join(", ")}; joins at ${line.tasks[each.bench.joinsAt]!.id}`,
          ),
        ];
  return [
    ["takes", takes!, over],
    each.places === 1 ? NO_PLACES : ["parallel workplaces", String(each.places), "units taken in turn"],
    bench,
    each.parts === 1
      ? NO_PARTS
      : [
          "split",
          String(each.parts),
          isLong || !each.isImpossible
            ? `parts of at most ${showTimesDownIn(line.unit)(pace.stationLimit)}, ${show(each.partTime)} if even`
            : `parts, ${show(each.partTime)} on average if even`,
        ],
    ["slower pace", show(each.slower.lineCycle), `line cycle; ${rateWords(each.slower)}`],
    ...overtimeRow(each.slower),
    ["helped alone", show(each.helpedAlone.lineCycle), helpedWords(each.helpedAlone)],
  ];
}

/** The others set a line cycle only where it is longer than the one asked for. */
const helpedWords = (helped: SlowerPace): string =>
  helped.isSlower
    ? `line cycle that the others then set; ${rateWords(helped)}`
    : "line cycle, as asked for: no other task needs a longer one";

const NO_PLACES: Row = ["parallel workplaces", "-", "more places alone do not help"];
const NO_PARTS: Row = ["split", "-", "parts do not help"];

function rateWords({ unitsPerHour, units, demand }: SlowerPace): string {
  const perHour = `${decimal(unitsPerHour, 2)} good units an hour`;
  return units === null || demand === null || demand.period === "hour"
    ? perHour
    : `${perHour}, ${decimal(units, 1)} instead of ${decimal(demand.units, 2)} per ${demand.period}`;
}

function overtimeRow({ overtime, fitsDay }: SlowerPace): Row[] {
  if (overtime === null) return [];
  const words = fitsDay
    ? "a shift at that pace keeps the demand"
    : "a shift at that pace; a day has not so many hours";
  return [["overtime", upToMinutes(overtime), words]];
}
