import { describe, expect, it } from "vitest";
import { hasTraining, trainingFor } from "../../../src/line/parts/training.js";
import { MICROS_IN } from "../../../src/time/units.js";
import { lineOf, numbersOf } from "../../tools/line-of.js";

const line = lineOf(`unit: s
training: {brakes: 4 h, wheels: 90 min}
tasks:
  bleed: {time: 70, skill: brakes}
  adjust: {time: 30, skill: [brakes, wheels], training: 2 h}
  true: {time: 40, skill: [wheels, brakes]}
  wipe: 10
  glue: {time: 20, skill: gluing}
`);
const learn = (ids: string, ...known: string[]) => {
  const { time, unknown } = trainingFor(line, numbersOf(line, ...ids.split(" ")), new Set(known));
  return [time / MICROS_IN.h, unknown.map((task) => line.tasks[task]!.id)];
};

describe("Training of one person who takes over tasks", () => {
  it("is what each task says, whatever skills it needs", () => {
    expect(learn("adjust")).toEqual([2, []]);
    expect(learn("adjust", "brakes", "wheels")).toEqual([2, []]);
  });

  it("is that of the skills of tasks that say nothing, each skill once: 4 h of brakes, 1.5 h of wheels", () => {
    expect(learn("bleed true")).toEqual([5.5, []]);
    expect(learn("bleed true adjust")).toEqual([7.5, []]);
  });

  it("is nothing for skills that are known at the station", () => {
    expect(learn("bleed true", "brakes")).toEqual([1.5, []]);
    expect(learn("bleed", "brakes")).toEqual([0, []]);
  });

  it("is not known of tasks without skills, or with others than are named", () => {
    expect(learn("wipe glue bleed")).toEqual([4, ["wipe", "glue"]]);
  });

  it("is told only where the line says anything of it", () => {
    expect(hasTraining(line)).toBe(true);
    expect(hasTraining(lineOf("tasks: {a: {time: 4 s, training: 0}}\n"))).toBe(true);
    expect(hasTraining(lineOf("tasks: {a: 4 s}\n"))).toBe(false);
  });
});

it("training is a number of hours in the unit that is written, however the skill is spelt", () => {
  const { trainings, tasks } = lineOf(
    'unit: s\ntraining: {"Cafe\\u0301": 30 min}\ntasks: {a: {time: 1, skill: "Caf\\u00e9", training: 40 h}}\n',
  );
  expect([trainings.get(tasks[0]!.skills[0]!), tasks[0]!.training]).toEqual([
    30 * MICROS_IN.min,
    40 * MICROS_IN.h,
  ]);
});
