import { describe, expect, it } from "vitest";
import { ONE_PERSON } from "../../../src/plan/plan.js";
import { whoStandsWhere } from "../../../src/plan/who-stands-where.js";
import { lineOf, numbersOf } from "../../tools/line-of.js";

const lineWith = (people: string) =>
  lineOf(
    `unit: s\npeople: {${people}}\ntasks: {a: {time: 40, skill: wheels}, b: {time: 40, skill: brakes, after: a}, c: {time: 20, after: b}}\n`,
  );

describe("who stands where", () => {
  const names = (people: string, places = 1) => {
    const line = lineWith(people);
    const station = (id: string, count: number) => ({
      ...ONE_PERSON,
      id: id.toUpperCase(),
      tasks: numbersOf(line, id),
      places: count,
    });
    const found = whoStandsWhere(line, [station("a", places), station("b", 1), station("c", 1)]);
    return found && [...found].map(([id, who]) => [id, who.map(({ name }) => name)]);
  };

  it("gives each place that needs skills a person of its own, and none to places that need nothing", () => {
    // Ann can do both; only Ben the wheels, so Ann is left for the brakes.
    expect(names("ann: [wheels, brakes], ben: wheels")).toEqual([
      ["A", ["ben"]],
      ["B", ["ann"]],
    ]);
    expect(names("ann: [wheels, brakes], ben: wheels, cleo: wheels", 2)).toEqual([
      ["A", ["ben", "cleo"]],
      ["B", ["ann"]],
    ]);
  });

  it("names nobody where people are too few", () => {
    expect(names("ann: [wheels, brakes], ben: wheels", 2)).toBeNull();
  });
});
