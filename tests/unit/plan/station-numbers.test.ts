import { describe, expect, it } from "vitest";
import { planOf } from "../../../src/plan/plan.js";
import {
  floorStationOf,
  stationIds,
  stationNumber,
  stationNumbers,
} from "../../../src/plan/station-numbers.js";
import { floorLine, planFrom } from "../../tools/floor-line.js";

const rows = ["a 10", "b 10", "c 10"];
const numbers = (floor: string[], ids: string[]) => {
  const line = floorLine(rows, { floor: floor.map((id) => ({ id })) });
  return stationNumbers(
    line,
    planFrom(
      line,
      ids.map((id) => `${id}:`),
    ),
  );
};

describe("the numbers of stations along the floor", () => {
  it("are the order of the plan where the file names no stations", () => {
    const line = floorLine(rows);
    expect(stationNumbers(line, planOf([[0], [1], [2]]))).toEqual([0, 1, 2]);
    expect(numbers([], ["front", "back"])).toEqual([0, 1]);
  });

  it("are those of the floor, also where a plan leaves stations out, and count on behind it", () => {
    expect(numbers(["in", "paint", "out"], ["paint", "S4", "pack"])).toEqual([1, 3, 4]);
    expect(numbers(["in", "paint", "out"], ["in", "pack", "S6"])).toEqual([0, 3, 5]);
  });

  it("know a station by its id, blanks and the make-up of letters aside", () => {
    const line = floorLine(rows, { floor: [{ id: "caf\u00e9 " }] });
    expect(floorStationOf(line, "cafe\u0301")?.id).toBe("caf\u00e9 ");
    expect(floorStationOf(line, "S1")).toBeNull();
    expect(stationNumber(line, planFrom(line, ["cafe\u0301: a", "S2: b"]), 1)).toBe(1);
  });
});

describe("the ids of stations with given numbers", () => {
  it.each([
    [[], ["S1", "S2", "S3", "S5"]],
    [
      ["in", "out"],
      ["in", "out", "S3", "S5"],
    ],
    [
      ["S2", "S7"],
      ["S2", "S7", "S8", "S10"],
    ],
    [
      ["S1", "S2", "S3"],
      ["S1", "S2", "S3", "S5"],
    ],
  ])("on the floor %j are %j, and lead back to the numbers", (floor, expected) => {
    const line = floorLine(rows, { floor: floor.map((id) => ({ id })) });
    expect(stationIds(line, [0, 1, 2, 4])).toEqual(expected);
    expect(numbers(floor, expected)).toEqual([0, 1, 2, 4]);
  });
});
