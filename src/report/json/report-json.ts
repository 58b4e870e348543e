import { CAUTION } from "../cautions.js";
import type { Reported } from "../report-sections.js";
import { balanceAsJson } from "./balance-json.js";
import { loadChartFacts, orderChartFacts } from "./charts-json.js";
import { benchesJson } from "./check-json.js";
import { comparisonFacts } from "./compare-json.js";
import { asText, resultDocument } from "./result-document.js";
import { simulationFacts } from "./simulate-json.js";

/** The result document of `report`: the plan that stands, what changed, and the facts of the pictures. */
export function reportDocument({
  shown,
  benches,
  loads,
  order,
  file,
  fingerprint,
  before,
  moves,
  options,
  simulation,
}: Reported) {
  const { line } = shown;
  return resultDocument("report", {
    file,
    fingerprint,
    ...balanceAsJson(shown),
    benches: benchesJson(line, benches),
    against:
      before === null
        ? null
        : {
            file: before.file,
            plan: balanceAsJson(before.shown),
            moves: moves.map(({ task, from, to }) => ({ task: line.tasks[task]!.id, from, to })),
          },
    loads: loadChartFacts(loads),
    order: orderChartFacts(order),
    options: options && comparisonFacts(options),
    simulation: simulation && simulationFacts(simulation),
    caution: CAUTION,
  });
}

export const reportJson = asText(reportDocument);
