import { expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

/** 28,800 s / 360 = 80 s. */
const lineWith = (more: string) => `unit: s
demand: 360 per day
calendar: {shifts: {day: {length: 8 h}}}
equipment: {rig: 1}
benches: {B1: {tasks: a}}
options: {beside: {off-line: [B1], stations: 2}}
tasks:
  a: {time: 56, equipment: rig}
${more}  b: {time: 43, after: a}
  c: {time: 30, people: 2}
`;

async function compareWith(more: string) {
  const files = { "line.yaml": lineWith(more) };
  const { status, stdout } = await runLinepoise({ args: ["compare", "line.yaml"], files });
  return { status, words: stdout.replaceAll(/\s+/gu, " ") };
}

it("An option whose bench keeps all of an equipment has its fixed stations without it", async () => {
  const { status, words } = await compareWith("");
  expect(status).toBe(0);
  // b (43 s) and c (30 s, two people) at a station each, and a at the bench: 1 + 2 + 1 people.
  expect(words).toContain("people per shift 3 ✓ 4 +1");
  expect(words).toContain("cycle of the plan 73 s 56 s ✓");
});

it("An option whose bench keeps equipment that the line still needs has no balance", async () => {
  const { words } = await compareWith("  e: {time: 5, equipment: rig, after: a}\n");
  expect(words).toContain("no rig is left for e: benches keep 1 of 1");
});
