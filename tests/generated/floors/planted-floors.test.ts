import { describe, it } from "vitest";
import { expectPlantedOrBetter } from "../../tools/balance-planted.js";
import { plantFloor } from "../../tools/floors/plant-floor.mjs";

describe("a floor around a planted plan has a balance with no more people than it", () => {
  it.each(Array.from({ length: 20 }, (_, at) => at + 1))("seed %i", async (seed) => {
    await expectPlantedOrBetter(plantFloor({ seed, fewest: 24, most: 36 }), [
      "--nodes",
      "50000",
      "--no-level",
    ]);
  });
});
