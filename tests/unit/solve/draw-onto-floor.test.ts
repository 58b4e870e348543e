import { describe, expect, it } from "vitest";
import { drawOntoFloor } from "../../../src/solve/draw-onto-floor.js";
import { fixStations } from "../../../src/solve/fix-stations.js";
import { layOutWork, withoutPace } from "../../../src/solve/lay-out-work.js";
import type { BlockPlan } from "../../../src/solve/work.js";
import { type FloorTerms, floorLine } from "../../tools/floor-line.js";

const FLOOR = [{ id: "A1" }, { id: "A2" }, { id: "A3" }];

function drawn(stations: readonly (readonly [number, ...number[]])[], terms: FloorTerms = {}): number[] {
  const line = floorLine(["a 10", "b 10 a", "c 10 b"], { floor: FLOOR, ...terms });
  const plan: BlockPlan = stations.map(([position, ...blocks]) => ({ position, blocks, places: 1, crew: 1 }));
  return drawOntoFloor(layOutWork(line, withoutPace(line)), plan).map(({ position }) => position);
}

describe("stations behind a floor of three", () => {
  it("go to places that are free there, the latest first, and those before them make room", () => {
    expect(
      drawn([
        [0, 0],
        [1, 1],
        [3, 2],
      ]),
    ).toEqual([0, 1, 2]);
    expect(
      drawn([
        [2, 0],
        [3, 1],
        [4, 2],
      ]),
    ).toEqual([0, 1, 2]);
    expect(
      drawn([
        [2, 0, 1],
        [5, 2],
      ]),
    ).toEqual([1, 2]);
  });

  it("stay where the floor may not hold them, by its stations or by a wait", () => {
    expect(
      drawn(
        [
          [2, 0],
          [3, 1, 2],
        ],
        { tasks: { a: { stations: [2] } } },
      ),
    ).toEqual([2, 3]);
    const waits = [{ after: "c", on: "a", wait: 1, stations: 3 }];
    expect(
      drawn(
        [
          [0, 0, 1],
          [3, 2],
        ],
        { waits },
      ),
    ).toEqual([0, 3]);
  });

  it("are drawn as far as the floor has room, the first of them", () => {
    expect(
      drawn(
        [
          [0, 0],
          [3, 1],
          [4, 2],
        ],
        { tasks: { c: { notBefore: 3 } } },
      ),
    ).toEqual([0, 2, 4]);
  });

  it("are not used by a fixed number of stations that the floor has: two of 20 s at A2 and A3", async () => {
    const line = floorLine(["a 20", "b 10", "c 10 a"], { floor: FLOOR, tasks: { a: { stations: [1] } } });
    const { plan } = await fixStations(line, 2, 10_000, () => null);
    expect(plan!.stations.map(({ id }) => id)).toEqual(["A2", "A3"]);
  });
});
