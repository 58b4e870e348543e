import { expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

const reasonOf = async (line: string, ...more: string[]) => {
  const args = ["balance", "line.yaml", "--json", ...more];
  return JSON.parse((await runLinepoise({ args, files: { "line.yaml": line } })).stdout).bound.reason;
};

const models = `line: Cargo bike
unit: s
models: {city: 50 %, cargo: 50 %}
model-overload: 0 %
`;

it("shares what a model takes among the people of a crew, and says that it is a crew", async () => {
  // cargo takes 60 + 60 s: two people do that in 60 s, one in 120 s.
  const tasks = "tasks:\n  a: {time: {city: 20, cargo: 60}}\n  b: {time: {city: 40, cargo: 60}}\n";
  expect(await reasonOf(`${models}max-crew: 2\n${tasks}`, "--stations", "1")).toBe(
    "cargo takes 120 s at 1 station with 2 people, and may not be above the working time",
  );
  expect(await reasonOf(`${models}${tasks}`, "--stations", "1")).toBe(
    "cargo takes 120 s, and may not be above the working time",
  );
});

it("says of sides that both work on the model", async () => {
  const sided =
    "tasks:\n  a: {time: {city: 20, cargo: 60}, side: left}\n  b: {time: {city: 40, cargo: 60}, side: right}\n";
  expect(await reasonOf(`${models}${sided}`, "--stations", "1")).toBe(
    "cargo takes 120 s at 1 station with both sides, and may not be above the working time",
  );
});

it("counts a station of a shared crew with all its people where the stations are bounded by work", async () => {
  // 12 x 20 s = 240 s of work: / 60 s = 4 people; / (2 x 60 s) = 2 stations.
  const tasks = Array.from({ length: 12 }, (_, at) => `  t${at + 1}: {time: 20}\n`).join("");
  const line = `line: Cargo bike\nunit: s\ndemand: 60 per hour\nmax-crew: 2\ntasks:\n${tasks}`;
  expect(await reasonOf(line)).toBe(
    "240 s of work / 60 s a person = 4, rounded up. For the stations: 240 s of work / 120 s a station with 2 people = 2, rounded up",
  );
});
