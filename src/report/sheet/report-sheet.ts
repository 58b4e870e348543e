import type { ReportAnswer } from "../../answer/report/answer-report.js";
import type { Sheet, SheetCell } from "../../table/sheet.js";
import { plainNumber } from "../../time/show-numbers.js";
import { plainSeconds } from "../../time/show-values.js";

const text = (words: string): SheetCell => ({ text: words });
const number = (value: number | string): SheetCell => ({ number: String(value) });

/** A row for each task of a plan with its station, whose figures stand on each of its rows; times in seconds, the load a fraction. */
export function reportSheet({ shown, moves }: ReportAnswer): Sheet {
  const from = new Map(moves.map((each) => [each.task, each.from]));
  const rows = shown.stations.flatMap((station) =>
    station.tasks.map((task, at): SheetCell[] => {
      const { id, name } = shown.line.tasks[task]!;
      const was = from.get(task);
      return [
        text(station.id),
        number(at + 1),
        text(id),
        name === null ? null : text(name),
        number(secondsOf(station.starts[at]!)),
        was === undefined ? null : text(was),
        number(station.operators),
        number(station.places),
        number(secondsOf(station.stationTime)),
        number(secondsOf(station.stationLimit)),
        number(plainNumber(station.load)),
        number(secondsOf(station.idle)),
      ];
    }),
  );
  const heads = [
    "station",
    "turn",
    "task",
    "name",
    "starts at (s)",
    "was at",
    "people",
    "places",
    "station time (s)",
    "station limit (s)",
    "load",
    "idle (s)",
  ];
  return [heads.map(text), ...rows];
}

const secondsOf = (time: Parameters<typeof plainSeconds>[0]): string =>
  plainSeconds(time).replace(/ s$/u, "");
