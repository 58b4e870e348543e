import { expect, it } from "vitest";
import { readAnswer } from "../../tools/read-answer.js";

/*
 * At a line cycle of 360 s the bed, the engine and the cover stand at three stations: 300 + 100 s is too much for one. The engine takes 8 of
 * the strain, more than the 5 of one person, so somebody must stand with whoever does it: only the two of the badge can. The badge fits the
 * bed and the cover just as well, where it would be of no use, from whichever end stations are filled.
 */
const TASKS = [
  "  bed: {time: 300, people: 2}",
  "  engine: {time: 100, after: bed, uses: {strain: 8}}",
  "  cover: {time: 300, people: 2, after: engine}",
  "  badge: {time: 50, people: 2}",
];
const file = (...more: readonly string[]) =>
  ["unit: s", "limits: {strain: {per: person, most: 5}}", "tasks:", ...TASKS, ...more, ""].join("\n");

it.each([
  ["alone", []],
  ["beside shorter work of one person that could stand in its place", ["  bell: {time: 40}"]],
  ["before work that waits for it", ["  bell: {time: 5, after: badge}"]],
])("Work of two people stands where it helps to keep a limit per person, %s", async (_, more) => {
  const { outcome, measures, stations } = await readAnswer(file(...more), ["--cycle", "360"]);
  expect([outcome, measures.operators, measures.stations]).toEqual(["proved", 6, 3]);
  expect(stations.find(({ tasks }) => tasks.includes("engine"))!.tasks).toContain("badge");
});

it("Without somebody to share it, what is too much for one person has no station", async () => {
  const one = file().replace("badge: {time: 50, people: 2}", "badge: {time: 50}");
  const { outcome, findings } = await readAnswer(one, ["--cycle", "360"], 1);
  expect([outcome, findings.map(({ rule }) => rule)]).toEqual(["infeasible", ["no-plan"]]);
});
