import type { ChartRowOf, StationChart } from "../../answer/show/station-chart.js";
import type { Line } from "../../line/line.js";
import { CAUTION, cautionsJson, cautionsOfStation } from "../cautions.js";
import { numberJson, secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/** The result document of `show --station` and of `chart --of station`: one unit at one place of a station over time. */
export function chartDocument(chart: StationChart, command: "show" | "chart") {
  const { line, station, model, tasks, equipment, rows } = chart;
  return resultDocument(command, {
    line: line.name,
    station: station.id,
    model: model === null ? null : line.models[model]!.id,
    shareOfUnits: numberJson(chart.share),
    withEvery: chart.due,
    withoutEvery: chart.notDue,
    places: chart.places,
    holds: chart.holds,
    intervalSeconds: secondsJson(chart.interval),
    workingSeconds: secondsJson(chart.workingTime),
    dwellSeconds: secondsJson(chart.dwell),
    dwellLimitSeconds: secondsJson(chart.standingLimit),
    /** What handing over takes after that at the end of a bench; else null. */
    handOverSeconds: secondsJson(chart.handOver),
    tasks: tasks.map(({ task, who, start, handEnd, end }) => ({
      task: line.tasks[task]!.id,
      side: typeof who === "string" ? who : null,
      persons: typeof who === "string" ? null : who,
      startSeconds: secondsJson(start),
      handsDoneSeconds: secondsJson(handEnd),
      endSeconds: secondsJson(end),
    })),
    equipment: equipment.map(({ name, start, end }) => ({
      name,
      startSeconds: secondsJson(start),
      endSeconds: secondsJson(end),
    })),
    rows: rows.map(({ of }) => rowJson(line, of)),
    cautions: cautionsJson(cautionsOfStation(line, station)),
    caution: CAUTION,
  });
}

export const chartJson = asText(chartDocument);

/** What each row of the chart stands for. */
function rowJson(line: Line, of: ChartRowOf) {
  return of.kind === "machine" ? { kind: of.kind, task: line.tasks[of.task]!.id } : of;
}
