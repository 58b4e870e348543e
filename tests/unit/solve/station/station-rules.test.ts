import { describe, expect, it } from "vitest";
import { isAllowed, stationsAllowed } from "../../../../src/solve/station/station-rules.js";
import { rulesOf } from "../../../../src/solve/station/task-rules.js";

import { type FloorTerms, floorLine } from "../../../tools/floor-line.js";
import { floorProblemOf } from "../../../tools/floor-plans.js";
import { numbersOf } from "../../../tools/line-of.js";

/** Numbers of the stations that may hold task a; one more than the floor has stands for any behind it. */
function allowedAt(terms: FloorTerms): number[] {
  const line = floorLine(["a 10", "b 10"], terms);
  return [...line.floor, null].flatMap((station, at) =>
    isAllowed(line, line.tasks[0]!, station, at) ? [at] : [],
  );
}

const floor = [{ id: "S1" }, { id: "S2" }, { id: "S3" }];

describe("a task may stand", () => {
  it("anywhere where nothing is said", () => {
    expect(allowedAt({ floor })).toEqual([0, 1, 2, 3]);
  });

  it("only at the stations that it lists, never behind the floor", () => {
    expect(allowedAt({ floor, tasks: { a: { stations: [0, 2] } } })).toEqual([0, 2]);
  });

  it("only in its zone where the floor has zones", () => {
    const zoned = [{ id: "S1", zone: "paint" }, { id: "S2" }, { id: "S3", zone: "assembly" }];
    expect(allowedAt({ floor: zoned, tasks: { a: { zone: "paint" } } })).toEqual([0]);
    expect(allowedAt({ floor: zoned })).toEqual([0, 1, 2, 3]);
    expect(allowedAt({ floor, tasks: { a: { zone: "paint" } } })).toEqual([0, 1, 2, 3]);
  });

  it("only where its equipment stands, unless no station lists it", () => {
    const equipped = [
      { id: "S1", equipment: ["press", "crane"] },
      { id: "S2", equipment: ["press"] },
    ];
    const needs = (...equipment: string[]) => allowedAt({ floor: equipped, tasks: { a: { equipment } } });
    expect(needs("press")).toEqual([0, 1]);
    expect(needs("press", "crane")).toEqual([0]);
    expect(needs("torque gun")).toEqual([0, 1, 2]);
  });

  it("only where its skills are, of those that any station states", () => {
    const skilled = [{ id: "S1", skills: ["brakes"] }, { id: "S2", skills: [] }, { id: "S3" }];
    const needs = (...skills: string[]) => allowedAt({ floor: skilled, tasks: { a: { skills } } });
    expect(needs("brakes")).toEqual([0]);
    expect(needs("brakes", "wheels")).toEqual([0]);
    expect(needs("wheels")).toEqual([0, 1, 2, 3]);
    expect(needs()).toEqual([0, 1, 2, 3]);
    expect(allowedAt({ floor, tasks: { a: { skills: ["brakes"] } } })).toEqual([0, 1, 2, 3]);
  });
});

describe("tasks that must share a station", () => {
  const rows = ["a 10", "b 10 a", "c 10"];
  const share = (terms: FloorTerms, ...ids: string[]) => {
    const line = floorLine(rows, terms);
    const together = numbersOf(line, ...ids);
    const rest = [...line.tasks.keys()].filter((task) => !together.includes(task));
    const blockOf = [...line.tasks.keys()].map((task) => (together.includes(task) ? 0 : 1));
    const [own] = stationsAllowed(line, [together, rest], blockOf);
    return own!.some(Boolean);
  };

  it("do not where they are of two zones, wait for each other, or are kept apart", () => {
    const zones = { a: { zone: "paint" }, b: { zone: "assembly" } };
    expect(share({ tasks: zones }, "a", "b")).toBe(false);
    expect(share({ tasks: zones }, "a", "c")).toBe(true);
    expect(share({ waits: [{ after: "b", on: "a" }] }, "a", "b")).toBe(false);
    expect(share({ waits: [{ after: "b", on: "a" }] }, "b", "c")).toBe(true);
    expect(share({ apart: [["a", "b"]] }, "a", "b")).toBe(false);
    expect(share({ apart: [["a", "b"]] }, "a", "c")).toBe(true);
  });
});

it("has no rules until something beyond precedence and one limit for all of them is said", () => {
  const has = (terms: FloorTerms) => rulesOf(floorProblemOf(floorLine(["a 10", "b 10 a"], terms))) !== null;
  const ofTask = { floor: [], tasks: {} };
  expect(has(ofTask)).toBe(false);
  // Equipment that is not counted and skills where nobody is listed bind nothing.
  expect(has({ tasks: { a: { equipment: ["press"] } } })).toBe(false);
  expect(has({ tasks: { a: { skills: ["brakes"] } } })).toBe(false);
  const rules: FloorTerms[] = [
    { tasks: { a: { people: 2 } } },
    { tasks: { a: { side: "either" } } },
    { tasks: { a: { zone: "paint" }, b: { zone: "assembly" } } },
    { tasks: { a: { equipment: ["press"] } }, equipment: { press: 1 } },
    { tasks: { a: { skills: ["brakes"] } }, people: [{ id: "early-1", skills: ["brakes"] }] },
    { floor },
    { maxPlaces: 2 },
    { together: [["a", "b"]] },
    { apart: [["a", "b"]] },
    { waits: [{ after: "b", on: "a" }] },
  ];
  expect(rules.filter((terms) => !has(terms))).toEqual([]);
});
