import { expect, test } from "vitest";
import { askFloor, withoutPrecedences } from "../../../../src/answer/order/ask-floor.js";
import { type Before, isLoopFree } from "../../../../src/line/precedence.js";
import { reducedOrder } from "../../../../src/line/reduced-order.js";
import { withOrder } from "../../../../src/line/with-order.js";
import { peopleOfPlan } from "../../../../src/plan/figures/people.js";
import { balance } from "../../../../src/solve/balance.js";
import { taktSum } from "../../../../src/time/takt.js";
import { readPage } from "../../../readme/read-page.js";
import { idsOf, lineOf, numbersOf } from "../../../tools/line-of.js";

test("On a line with a test, machine time and a roller bench the questions are those that balancing it without each precedence finds", async () => {
  const line = lineOf(readPage("examples/cargo-bike.line.yaml"));
  const takt = taktSum({ ...line, demand: line.demand! });
  if (!takt.ok) throw new Error(takt.problem);
  const { pace } = takt.value;
  const habits = [
    "mount-box fit-bars",
    "mount-box fit-brakes",
    "mount-box fit-chain",
    "close-battery route-harness",
  ];
  const added = habits.map((each) => numbersOf(line, ...each.split(" ")));
  const whole: Before = line.before.map((earlier, task) => [
    ...earlier,
    ...added.flatMap(([from, to]) => (to === task ? [from!] : [])),
  ]);
  expect(isLoopFree(whole)).toBe(true);
  const before = reducedOrder(whole);
  const arrows = before.flatMap((earlier, after) => earlier.map((each) => ({ before: each, after })));
  const options = { nodes: 400_000, doublings: 0, strictLimit: false, checkpoint: () => null };
  const found = await askFloor(line, pace, before, arrows, options);
  const ofRig = new Set(numbersOf(line, "hook-up", "roller-run", "read-result"));
  const wanted: string[] = [];
  for (const each of arrows) {
    if (ofRig.has(each.before) && ofRig.has(each.after)) continue;
    const alone = withOrder(line, withoutPrecedences(before, [each]));
    const { plan, proved } = await balance(alone, pace, {
      ...options,
      method: "best",
      level: false,
      explain: false,
    });
    expect(proved).toBe(true);
    if (peopleOfPlan(alone, pace, plan!).atATime < found.size!.people)
      wanted.push(idsOf(line, [each.before, each.after]).join(" "));
  }
  const told = found.questions.flatMap(({ precedences }) =>
    precedences.map((each) => idsOf(line, [each.before, each.after]).join(" ")),
  );
  expect(wanted.length).toBeGreaterThan(0);
  expect(told.sort()).toEqual(wanted.sort());
  expect([found.open, found.notLookedAt]).toEqual([0, 0]);
});
