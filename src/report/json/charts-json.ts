import type { LoadChart } from "../../answer/charts/load-chart.js";
import type { OrderChart } from "../../answer/charts/order-chart.js";
import { CAUTION } from "../cautions.js";
import { numberJson, secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/** The result document of `chart`: the loads of the stations; shares are of the working time of each. */
export const loadChartJson = (chart: LoadChart): string =>
  documentOf({ line: chart.line.name, chart: "loads", ...loadChartFacts(chart) });

/** Loads by station, lane by lane. */
export function loadChartFacts({ line, rows }: LoadChart) {
  return {
    stations: rows.map(
      ({ id, people, lanes, time, limit, load, timeShare, limitShare, models, varying }) => ({
        id,
        people,
        seconds: secondsJson(time),
        limitSeconds: secondsJson(limit),
        load: numberJson(load),
        ofWorkingTime: numberJson(timeShare),
        limitOfWorkingTime: numberJson(limitShare),
        lanes: lanes.map(({ of, bars, nineInTen }) => ({
          of,
          bars: bars.map(({ task, kind, from, to }) => ({
            task: line.tasks[task]!.id,
            kind,
            from: numberJson(from),
            to: numberJson(to),
          })),
          nineInTenOfWorkingTime: numberJson(nineInTen),
        })),
        models: models.map(({ model, share }) => ({
          model: line.models[model]!.id,
          ofWorkingTime: numberJson(share),
        })),
        varying: varying.map((each) => ({
          task: line.tasks[each.task]!.id,
          seconds: secondsJson(each.time),
          deviationSeconds: secondsJson(each.deviation),
          nineInTenSeconds: secondsJson(each.nineInTen),
        })),
      }),
    ),
  };
}

/** The same of the order of work: stations and benches along the line, and the arrows that no others imply. */
export const orderChartJson = (chart: OrderChart): string =>
  documentOf({ line: chart.line.name, chart: "order", ...orderChartFacts(chart) });

/** Tasks by station and bench, the arrows that are needed, and what moved. */
export function orderChartFacts({ line, columns, arrows, movedFrom }: OrderChart) {
  const idOf = (task: number) => line.tasks[task]!.id;
  return {
    columns: columns.map(({ id, kind, tasks }) => ({ id, kind, tasks: tasks.map(idOf) })),
    arrows: arrows.map(({ from, to }) => ({ from: idOf(from), to: idOf(to) })),
    moved: [...movedFrom].map(([task, from]) => ({ task: idOf(task), from })),
  };
}

const documentOf = asText((facts: Record<string, unknown>) =>
  resultDocument("chart", { ...facts, caution: CAUTION }),
);
