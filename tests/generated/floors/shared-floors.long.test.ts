import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { expectPlantedOrBetter } from "../../tools/balance-planted.js";

// The floors of shared/floors, made for this project by a seeded generator: what a plan is held against was drawn before the line.

const FOLDER = new URL("../../../shared/floors/", import.meta.url);
const NAMES = readdirSync(FOLDER)
  .filter((name) => name.endsWith(".line.yaml"))
  .map((name) => name.slice(0, -".line.yaml".length))
  .sort((one, two) => Number(one.slice(1)) - Number(two.slice(1)));

const textOf = (name: string) => readFileSync(new URL(name, FOLDER), "utf8");

describe("a floor of the shared folder has a balance with no more people than its plan, within the usual limit", () => {
  // Evening out takes as long again and changes no number of people: every fourth is evened out as well.
  const cases = NAMES.map((name, at) => ({ name, options: at % 4 === 0 ? [] : ["--no-level"] }));
  it.each(cases)("$name", async ({ name, options }) => {
    const planted = { line: textOf(`${name}.line.yaml`), plan: textOf(`${name}.plan.yaml`) };
    await expectPlantedOrBetter(planted, options);
  });

  it("is one of 20", () => expect(NAMES).toHaveLength(20));
});
