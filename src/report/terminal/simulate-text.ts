import { visibleText } from "../../findings/visible-text.js";
import type { SimulationAnswer } from "../../simulate/simulation-answer.js";
import { percent } from "../../time/show-values.js";
import { cautionsOfPlan } from "../cautions.js";
import {
  helpWords,
  intervalWords,
  limitWords,
  moreWords,
  planToWords,
  runWords,
  simulationWords,
} from "../words/simulate-words.js";
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
    headed("what would help", whatHelpsText(answer, look), look),
    headed("how it was run", paragraph(runWords(answer), look), look),
    headed("what is left out", answer.leftOut.map(({ message }) => paragraph(message, look)).join(""), look),
    cautionText(cautionsOfPlan(line, plan), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

/** Reruns with one thing changed, ranked by what they bring; empty where nobody asked. */
function whatHelpsText({ whatHelps, confidence }: SimulationAnswer, look: Look): string {
  if (whatHelps === null) return "";
  const { helps, planTo } = whatHelps;
  const table = formatTable(
    [
      { head: "change", wraps: true, narrowest: 12 },
      { head: "good units an hour", align: "right" },
      { head: "more", align: "right" },
    ],
    helps.map((help) => [visibleText(helpWords(help)), intervalWords(help.perHour), moreWords(help)]),
    look.width,
  );
  const words = `Each row is the line run again with one change and the same random numbers. What it brings is counted replication by replication, with its interval of ${percent(confidence)} confidence.`;
  const ofPlanTo = planTo === null ? "" : paragraph(planToWords(planTo, confidence), look);
  return `${helps.length === 0 ? "" : `${table}${paragraph(words, look)}`}${ofPlanTo}`;
}

function stationsText({ stations, bottlenecks, lineCycle }: SimulationAnswer, look: Look): string {
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
      bottlenecks.includes(id) ? limitWords(stations.length, bottlenecks.length) : "",
    ]),
    look.width,
    (text, row) => (row < 0 ? paint.faint(text) : text),
  );
  const overruns = isPaced ? "; overruns: units that take longer than the line cycle leaves them" : "";
  return `${table}${paragraph(`starved: no unit is there; blocked: its unit is done and cannot go on${overruns}. The rest of the time it is busy, or down.`, look)}`;
}
