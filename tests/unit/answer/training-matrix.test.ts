import { describe, expect, it } from "vitest";
import { trainingMatrix } from "../../../src/answer/sheets/training-matrix.js";
import { type Plan, planOf } from "../../../src/plan/plan.js";
import { fitnessWords } from "../../../src/report/words/sheet-words.js";
import { lineOf } from "../../tools/line-of.js";

const TASKS = [
  "  {weld: {time: 30, skill: weld, training: 2 h}, paint: {time: 20, skill: paint}, label: 20}",
];

/** What Ann (weld), Bo (paint), Cy (none) and Di (both) are to a station of two people; tasks in natural order: label, paint, weld. */
function fitness(
  rows: readonly string[],
  station: Partial<Plan["stations"][number]>,
): (string | undefined)[] {
  const people = "people: {Ann: weld, Bo: paint, Cy: [], Di: [weld, paint]}";
  const line = lineOf(["line: x", "unit: s", people, ...rows, "tasks:", ...TASKS, ""].join("\n"));
  const stations = planOf([[2, 1, 0]]).stations.map((each) => ({ ...each, crew: 2, ...station }));
  const { people: found, places } = trainingMatrix(line, { stations })!;
  const words = found.map(({ id, at }) => `${id} ${fitnessWords(at[0]!)}`);
  return [...words, `stand-ins: ${places[0]!.standIns.join(" ")}`];
}

describe("The training matrix of two people at a place judges each by the work of one of them", () => {
  it("who share a unit: person 1 welds and paints, person 2 labels and needs no skill", () => {
    expect(fitness(["max-crew: 2"], { persons: [[1], [1], [2]] })).toEqual([
      "Ann can stand in as person 2",
      "Bo can stand in as person 2",
      "Cy can stand in as person 2",
      "Di works here",
      "stand-ins: Ann Bo Cy",
    ]);
  });

  it("who share a unit: person 1 welds, person 2 paints and labels", () => {
    expect(fitness(["max-crew: 2"], { persons: [[1], [2], [2]] })).toEqual([
      "Ann works here",
      "Bo works here",
      "Cy lacks weld (2 h to train)",
      "Di can stand in",
      "stand-ins: Di",
    ]);
  });

  it("who are at all tasks together: one has what a task needs, the other need not", () => {
    expect(fitness([], {}).at(2)).toBe("Cy can stand in beside somebody with the skills");
  });
});

it("One person at a place has every skill of its work, and lacks what is missing", () => {
  expect(fitness([], { crew: 1 })).toEqual([
    "Ann lacks paint",
    "Bo lacks weld (2 h to train)",
    "Cy lacks paint and weld",
    "Di works here",
    "stand-ins: ",
  ]);
});
