import type { OffLineAnswer } from "../../answer/off-line/off-line-answer.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { percent } from "../../time/show-values.js";
import { cautionLines } from "./cautions-text.js";
import { answersText } from "./off-line-asked-text.js";
import { blocksText, setsText } from "./off-line-blocks-text.js";
import { longTasksText } from "./off-line-long-text.js";
import { overWhom, splitOfPeople } from "./people-words.js";
import { headed, labelled, paragraph, scopeText, titleText } from "./sections.js";
import type { Look } from "./style.js";

/** The whole answer of `off-line` for a person. Empty parts are left out; ends in a newline. */
export function offLineAnswerText(answer: OffLineAnswer, look: Look): string {
  const { line } = answer;
  const parts = [
    `${titleText(line, look)}${scopeText(line, answer.shown, look)}\n`,
    headed("everything on the line", beforeText(answer, look), look),
    answersText(answer, look),
    headed("blocks that may go", blocksText(answer, look), look),
    headed("best benches together", setsText(answer, look), look),
    headed("longer than a station may take", longTasksText(answer, look), look),
    headed("caution", cautionText(answer, look), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

function beforeText({ line, pace, before }: OffLineAnswer, look: Look): string {
  const show = showTimesIn(line.unit);
  const cycle: [string, string, string] = [
    "line cycle",
    show(pace.lineCycle),
    `station limit ${show(pace.stationLimit)}`,
  ];
  if (before.plan === null) {
    const none = before.outcome === "infeasible" ? "No balance" : "No balance was found";
    return `${labelled([cycle], look)}${paragraph(`${none} with everything on the line; the figures of blocks stand alone.`, look)}`;
  }
  const { stations, people, cycleOfPlan, slowestStation, efficiency } = before;
  const { linePeople, repairPeople: repair, peopleOfDay } = before;
  const split = { onLine: linePeople!, repair, perDay: line.calendar === null ? null : peopleOfDay };
  const least =
    before.outcome === "proved" ? "proved least" : `not proved; at least ${before.leastStations} are needed`;
  return labelled(
    [
      cycle,
      ["stations", String(stations), least],
      ["people", String(people), splitOfPeople(line, split)],
      [
        "cycle of plan",
        cycleOfPlan === null ? "-" : show(cycleOfPlan),
        `${slowestStation}, the slowest station`,
      ],
      ["efficiency", efficiency === null ? "-" : percent(efficiency), `at the pace, ${overWhom(repair)}`],
    ],
    look,
  );
}

/** The cautions of what may leave the line: they go with the tasks. */
function cautionText(answer: OffLineAnswer, look: Look): string {
  const benches = [
    ...(answer.asked ?? answer.stated ?? []).flatMap(({ rated }) => rated?.bench ?? []),
    ...(answer.blocks ?? []).map(({ bench }) => bench),
  ];
  const moved = new Set(benches.flatMap(({ tasks }) => tasks));
  const tasks = answer.line.tasks.filter((_, task) => moved.has(task));
  return cautionLines({ ...answer.line, tasks }, look);
}
