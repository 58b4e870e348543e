import { describe, expect, it } from "vitest";
import { readAnswer } from "../tools/read-answer.js";
import { type BalancingExample, citation, readWorkedExamples } from "../tools/read-worked-examples.js";
import { lineOfExample } from "./line-of-example.js";

const { balancing } = readWorkedExamples();

function example(id: string): BalancingExample {
  const found = balancing.find((each) => each.id === id);
  if (!found) throw new Error(`no worked example ${id}`);
  return found;
}

const day = (length: string, more: Record<string, unknown> = {}) => ({
  shifts: { day: { length, ...more } },
});

/** The demand and working time that each source states; its station limit must come out. */
const stated: readonly { id: string; demand: string; calendar: Record<string, unknown> }[] = [
  { id: "chase-wagon-11", demand: "500 per day", calendar: day("420 min") },
  { id: "heizer-wing-9", demand: "40 per day", calendar: day("480 min") },
  { id: "krajewski-spreader-9", demand: "2400 per week", calendar: { ...day("8 h"), "days-per-week": 5 } },
  { id: "krajewski-sp2-10", demand: "192 per shift", calendar: day("8 h") },
  { id: "krajewski-app-11", demand: "30 per hour", calendar: day("8 h") },
  { id: "stevenson-renovation-7", demand: "240 per day", calendar: day("480 min") },
  { id: "stevenson-200-12", demand: "200 per day", calendar: day("400 min") },
  { id: "heizer-pda-5", demand: "180 per hour", calendar: day("8 h") },
  {
    id: "exercise-40ph-9",
    demand: "40 per shift",
    calendar: day("60 min", { stops: { unproductive: "3 min" } }),
  },
  { id: "exercise-240-7", demand: "240 per day", calendar: day("480 min") },
];

describe("the station limit that follows from demand and working time", () => {
  for (const { id, demand, calendar } of stated) {
    const { unit, limit, tasks, expected, title, source } = example(id);
    it(`is ${limit} ${unit} for ${demand} (${title}: ${citation(source)})`, async () => {
      const file = lineOfExample(id, unit, tasks, { demand, calendar });
      const { pace, outcome, measures } = await readAnswer(file, []);
      expect(pace.stationLimitSeconds).toBe(unit === "min" ? (limit * 60_000) / 1000 : limit);
      expect({ outcome, stations: measures.stations }).toEqual({
        outcome: "proved",
        stations: expected["least-stations"].value,
      });
    });
  }
});

const appliance = example("groover-appliance-12");

/** 57.6 per hour over 7.5 h at 96 % uptime: 7.5 x 60 x 0.96 / 1.00 = 432 a shift. */
it(`paces the appliance line by its longest station and its repositioning (${citation(appliance.source)})`, async () => {
  const file = lineOfExample(appliance.id, appliance.unit, appliance.tasks, {
    demand: "100000 per year",
    calendar: { ...day("7.5 h"), "days-per-week": 5, "weeks-per-year": 50 },
    uptime: "96 %",
    handling: "0.08 min",
  });
  const { pace, measures } = await readAnswer(file, ["--method", "positional-weight"]);
  expect(pace).toEqual({
    taktSeconds: 67.5,
    lineCycleSeconds: 64.8,
    handlingSeconds: 4.8,
    planTo: 1,
    stationLimitSeconds: 60,
  });
  expect(measures.stations).toBe(5);
  expect(measures.cycleOfPlanSeconds).toBe(60);
  expect(measures.outputPerShift).toBe(432);
  expect(measures.efficiencyAtPace).toBeCloseTo(0.8, 6);
  expect(measures.efficiencyAtSlowest).toBeCloseTo(0.8696, 4);
});

const toy = example("groover-toy-10");

it(`loads the toy line to its service time, not to its line cycle (${citation(toy.source)})`, async () => {
  const file = lineOfExample(toy.id, toy.unit, toy.tasks, {
    demand: "60 per shift",
    calendar: day("66 min"),
    handling: "0.1 min",
  });
  const { pace, measures } = await readAnswer(file, ["--method", "largest-candidate"]);
  expect([pace.lineCycleSeconds, pace.stationLimitSeconds]).toEqual([66, 60]);
  expect(measures.stations).toBe(5);
  expect(measures.efficiencyAtPace).toBeCloseTo(0.86, 6);
});

const printer = example("stevenson-printer-8");

it(`gives the printer line one station at 4.6 min and two at 2.3 min (${citation(printer.source)})`, async () => {
  const file = lineOfExample(printer.id, printer.unit, printer.tasks);
  const found: unknown[] = [];
  for (const limit of ["4.6", "2.3", "1.3"]) {
    const { outcome, measures } = await readAnswer(file, ["--cycle", limit]);
    found.push([limit, outcome, measures.stations]);
  }
  expect(found).toEqual([
    ["4.6", "proved", 1],
    ["2.3", "proved", 2],
    ["1.3", "proved", 4],
  ]);
});
