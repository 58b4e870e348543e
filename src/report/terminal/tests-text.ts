import type { ShownBalance, TestFacts } from "../../answer/balance/shown-balance.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line, Retest, Task } from "../../line/line.js";
import type { RepairLoad } from "../../plan/figures/repairs.js";
import type { ScrapPace } from "../../plan/figures/units-tested.js";
import { factorShown, showTimesIn } from "../../time/show-in-unit.js";
import { isOne } from "../../time/show-numbers.js";
import { decimal, percent } from "../../time/show-values.js";
import { labelled, paragraph } from "./sections.js";
import type { Look } from "./style.js";

type Row = [string, string, string];

const AGAIN: Readonly<Record<Retest, string>> = {
  "until-good": "tested again until it is good",
  once: "good after that",
  scrap: "scrapped if it fails again",
};

/** What every test sends to repair or scraps, who repairs, and what it makes of the pace and of the visits. */
export function testsText({ line, pace: { lineCycle }, measures, shown }: ShownBalance, look: Look): string {
  if (measures === null) return "";
  const { repairs, repairPeople } = measures;
  const paces = new Map(shown.scrapPaces.map((each) => [each.test, each]));
  const loads = new Map((repairs ?? []).map((each) => [each.test, each]));
  const tests = line.tasks.flatMap((task, at): Row[] => {
    const load = loads.get(at);
    if (load !== undefined) return [repairRow(line, task, load)];
    const pace = paces.get(at);
    return pace === undefined ? [] : [scrapRow(line, pace)];
  });
  if (tests.length === 0) return "";
  const show = showTimesIn(line.unit);
  const people: Row[] =
    repairPeople === null
      ? []
      : [
          [
            repairPeople === 1 ? "repairer" : "repairers",
            String(repairPeople),
            `${repairPeople === 1 ? "person" : "people"} beside the line: work of all repairs / ${show(lineCycle)}, rounded up`,
          ],
        ];
  return `${labelled([...tests, ...goodRow(shown), ...people], look)}${paragraph(visitsWords(line, shown), look)}`;
}

/** Of which units a test takes its share, where it is not all. */
function onUnits({ models }: Line, { every, times }: Task): string {
  const having = models.filter((_, model) => times[model] !== null).map(({ id }) => visibleText(id));
  const named = having.length === models.length ? "" : having.join(" and ");
  const often = every === 1 ? "" : `one unit in ${every}`;
  const parts = [often, named].filter((part) => part !== "");
  return parts.length === 0 ? "" : `of ${parts.join(" of ")} `;
}

function repairRow(line: Line, task: Task, { repairs, work }: RepairLoad): Row {
  const { id, test } = task;
  if (test?.failures !== "repaired") throw new Error(`${id} repairs nothing`);
  const show = showTimesIn(line.unit);
  const back = `back to ${line.tasks[test.returnTo]!.id}, ${AGAIN[test.retest]}`;
  const times = factorShown(repairs, { of: test.repair, total: work }, show, 4);
  const sum = `${times} ${times === "1" ? "repair" : "repairs"} of ${show(test.repair)} = ${show(work)} per good unit`;
  const byModel = test.failByModel?.flatMap((share, model) =>
    task.times[model] === null ? [] : [`${visibleText(line.models[model]!.id)} ${percent(share, 2)}`],
  );
  if (byModel !== undefined) return [id, "by model", `${byModel.join(", ")} fail: ${sum}; ${back}`];
  return [id, percent(test.fail, 2), `${onUnits(line, task)}fail: ${sum}; ${back}`];
}

function scrapRow(line: Line, { test, scrap, before, after }: ScrapPace): Row {
  const show = showTimesIn(line.unit);
  const words = `${onUnits(line, line.tasks[test]!)}scrapped: before it the pace is ${show(before)}, after it ${show(after)}`;
  return [line.tasks[test]!.id, percent(scrap, 2), words];
}

function goodRow({ goodShare: share }: TestFacts): Row[] {
  if (share === null || isOne(share)) return [];
  return [["good", percent(share, 2), "of the units started"]];
}

function visitsWords(line: Line, { unevenVisits: uneven }: TestFacts): string {
  if (uneven.length === 0) return "";
  const named = uneven.map(({ task, visits }) => `${line.tasks[task]!.id} ${decimal(visits, 4)}`);
  const rest = line.tasks.length - uneven.length;
  const others =
    rest === 0 ? "" : `; failures add none to the other ${rest === 1 ? "task" : `${rest} tasks`}`;
  return `Times performed per good unit: ${named.join(", ")}${others}.`;
}
