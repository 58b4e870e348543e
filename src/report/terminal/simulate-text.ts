import { visibleText } from "../../findings/visible-text.js";
import type { SimulationAnswer } from "../../simulate/simulation-answer.js";
import { percent } from "../../time/show-values.js";
import { cautionsOfPlan } from "../cautions.js";
import { limitWords, runWords, simulationWords } from "../words/simulate-words.js";
import { cautionText } from "./cautions-text.js";
import { headed, paragraph, titleText } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { formatTable } from "./table.js";

/** The whole answer of `simulate` for a person. */
export function simulateText(answer: SimulationAnswer, look: Look): string {
  const { line, plan } = answer;
  const parts = [
    `${titleText(line, look)}${paragraph(simulationWords(answer), look)}`,
    headed("stations", stationsText(answer, look), look),
    headed("how it was run", paragraph(runWords(answer), look), look),
    headed("what is left out", answer.leftOut.map(({ message }) => paragraph(message, look)).join(""), look),
    cautionText(cautionsOfPlan(line, plan), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

function stationsText({ stations, bottleneck, lineCycle }: SimulationAnswer, look: Look): string {
  const paint = paintFor(look);
  const isPaced = lineCycle !== null;
  const table = formatTable(
    [
      { head: "station", givesWay: true },
      { head: "busy", align: "right" },
      { head: "starved", align: "right" },
      { head: "blocked", align: "right" },
      { head: "down", align: "right" },
      ...(isPaced ? [{ head: "overruns", align: "right" as const }] : []),
      { head: "" },
    ],
    stations.map(({ id, shares, overrun }) => [
      visibleText(id),
      percent(shares.busy),
      percent(shares.starved),
      percent(shares.blocked),
      percent(shares.down),
      ...(isPaced ? [overrun === null ? "-" : percent(overrun)] : []),
      id === bottleneck ? limitWords(stations.length) : "",
    ]),
    look.width,
    (text, row) => (row < 0 ? paint.faint(text) : text),
  );
  const overruns = isPaced ? "; overruns: units that take longer than the line cycle leaves them" : "";
  return `${table}${paragraph(`starved: no unit is there; blocked: its unit is done and cannot go on${overruns}. The rest of the time it is busy, or down.`, look)}`;
}
