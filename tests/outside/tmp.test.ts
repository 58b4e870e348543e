import fc from "fast-check";
import highsModule, { type Highs } from "highs";
import { expect, it } from "vitest";
import { costOf, PEOPLE_FIRST } from "../../src/solve/cost.js";
import { layOutWork } from "../../src/solve/lay-out-work.js";
import { runSearchBelow } from "../../src/solve/search/run-search.js";
import { floorCases } from "../tools/floor-random-line.js";
import { scheduleCases } from "../tools/schedule-cases.js";
import { floorProgramme, PERSON } from "./floor-programme.js";
import { isTold } from "./floor-programme-of-schedules.js";

const loadHighs = highsModule as unknown as () => Promise<Highs>;
const highs = await loadHighs();
const ANY = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
it.each([
  ["together", 100, 19, { fewest: 4, most: 7, isFull: true }, true],
  ["shared", 60, 20, { fewest: 3, most: 5, isShared: true }, true],
  ["sides", 60, 21, { fewest: 3, most: 5, isSided: true }, true],
  ["floor", 40, 17, { fewest: 6, most: 9, isFull: true }, false],
  ["floor sides", 30, 17, { fewest: 3, most: 7, isSided: true }, false],
] as const)(
  "%s",
  async (name, count, seed, terms, isSchedule) => {
    let [a, b] = [0, 0];
    const t0 = Date.now();
    const told = (isSchedule ? scheduleCases(terms) : floorCases(terms)).filter(({ line }) => isTold(line));
    for (const given of fc.sample(told, { seed, numRuns: count })) {
      const { line, pace, strictLimit } = given;
      const { plan, ended } = await runSearchBelow(
        layOutWork(line, { pace, strictLimit, slowest: null, free: false }),
        ANY,
        PEOPLE_FIRST,
        { nodes: 1e6, memory: 1e5 },
        () => null,
      );
      expect(ended).toBe("proved");
      const people = plan === null ? undefined : costOf(plan).people;
      const ours = plan === null ? null : PERSON * people! + plan.length;
      const gaps = line.waits.reduce((sum, each) => sum + each.stations - 1, 0);
      const behind = Math.min(people ?? line.tasks.length, line.tasks.length) + gaps;
      const { Status, ObjectiveValue } = highs.solve(floorProgramme(given, behind), { random_seed: 1 });
      expect(["Optimal", "Infeasible"]).toContain(Status);
      const theirs = Status === "Optimal" ? Math.round(ObjectiveValue) : null;
      if (ours !== theirs) console.log(name, ours, theirs, fc.stringify([given]));
      if (theirs === null) b++;
      else a++;
    }
    console.log(name, a, b, (Date.now() - t0) / 1000);
  },
  900000,
);
