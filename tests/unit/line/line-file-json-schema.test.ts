import { readFileSync, writeFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { z } from "zod";
import { lineFileJsonSchema, lineFileKeys } from "../../../src/line/line-file.js";
import { STARTER_LINE_FILE } from "../../../src/line/starter.js";

const committed = new URL("../../../shared/line-file.schema.json", import.meta.url);
const demo = readFileSync(new URL("../../../examples/cargo-bike.line.yaml", import.meta.url), "utf8");

/** What an editor does: parse the file by YAML's own rules, with numbers and booleans, and check the result. */
function accepts(text: string): boolean {
  const schema = z.fromJSONSchema(JSON.parse(lineFileJsonSchema()));
  return schema.safeParse(parse(text)).success;
}

test("The committed JSON Schema is the one that is generated", () => {
  if (process.env.UPDATE === "1") writeFileSync(committed, lineFileJsonSchema());
  expect(readFileSync(committed, "utf8")).toBe(lineFileJsonSchema());
});

describe("The JSON Schema accepts what an editor's YAML parser makes", () => {
  test("of the demo line and of the starter file", () => {
    expect([accepts(demo), accepts(STARTER_LINE_FILE)]).toEqual([true, true]);
  });

  test("of options and rates", () => {
    const options =
      "options: {a: {off-line: [[1, 2], wheels], demand: 176 per day, stations: 4}, b: {tables: 6}}";
    expect(accepts(`${options}\nrates: {person-hour: 32.5, overtime: 150 %}\ntasks: {1: 5, 2: 6}`)).toBe(
      true,
    );
  });

  test("of limits and what tasks use of them", () => {
    const limits = "limits: {shelf: {per: station, most: 1.2 m}, marks: {per: person-and-shift, most: 300}}";
    expect(accepts(`${limits}\ntasks: {a: {time: 5, uses: {shelf: 0.3 m, marks: 4}}}`)).toBe(true);
  });

  test("of numbers and texts as ids, times and counts", () => {
    expect(accepts("tasks: {7: 38, fit-fork: {time: 41.5, after: [7], quantity: 2, on-base: true}}")).toBe(
      true,
    );
    expect(accepts("tasks: {a: 0:40, b: {time: 41 s, after: 7}}")).toBe(true);
    expect(accepts("chains: [[1, 2, c]]\nhandling: 4\ntasks: {1: 5}")).toBe(true);
    expect(accepts("tasks: {a: 1, b: {time: 5, after: [a, {task: a, wait: 600, stations: 2}]}}")).toBe(true);
    expect(accepts("models: {a: 120, b: 80}\ntasks: {t: {time: {a: 5, b: '-'}}}")).toBe(true);
    expect(accepts("stations: [{id: 1, zone: 2, skills: [3]}]\ntasks: {1: {time: 5, station: [1]}}")).toBe(
      true,
    );
  });
});

describe("The JSON Schema refuses", () => {
  test.each([
    ["an unknown key", "tasks: {a: 5}\ncolour: blue"],
    ["a key that is not honoured yet", "tasks: {a: 5}\nreadings: {}"],
    ["an unknown key of a task", "tasks: {a: {time: 5, tiem: 6}}"],
    ["a task without a time", "tasks: {a: {name: Load frame}}"],
    ["a file without tasks", "line: Cargo bike"],
    ["a list of tasks", "tasks: [a, b]"],
    ["a blank time", "tasks: {a: }"],
    ["an unknown unit", "unit: sec\ntasks: {a: 5}"],
    ["a mark that is neither true nor false", "tasks: {a: {time: 5, on-base: maybe}}"],
    ["a limit for nobody known", "limits: {shelf: {per: place, most: 1 m}}\ntasks: {a: {time: 5}}"],
    ["a share that lost its %", "uptime: 0.95\ntasks: {a: 5}"],
  ])("%s", (_, text) => {
    expect(accepts(text)).toBe(false);
  });
});

test("Every key has its meaning, and the keys are those of the schema", () => {
  const keys = lineFileKeys();
  expect(keys.filter((each) => each.meaning === "")).toEqual([]);
  expect(keys.map((each) => each.key)).toEqual([
    "line",
    "unit",
    "demand",
    "calendar",
    "calendar.shifts",
    "calendar.shifts.NAME.from",
    "calendar.shifts.NAME.to",
    "calendar.shifts.NAME.length",
    "calendar.shifts.NAME.breaks",
    "calendar.shifts.NAME.stops",
    "calendar.shifts.NAME.changeovers",
    "calendar.shifts.NAME.overtime",
    "calendar.days-per-week",
    "calendar.days-per-month",
    "calendar.days-per-year",
    "calendar.weeks-per-year",
    "uptime",
    "yield",
    "handling",
    "plan-to",
    "keep-pace",
    "stations",
    "stations.id",
    "stations.zone",
    "stations.equipment",
    "stations.skills",
    "stations.max-places",
    "stations.holds",
    "stations.max-crew",
    "stations.plan-to",
    "stations.keep-pace",
    "stations.limits",
    "stations.limits.NAME.per",
    "stations.limits.NAME.most",
    "stations.drift-room",
    "max-places",
    "holds",
    "max-crew",
    "equipment",
    "move-costs",
    "people",
    "training",
    "learning",
    "learning.share",
    "learning.by",
    "learning.time-at",
    "learning.least",
    "learning.built",
    "chains",
    "together",
    "apart",
    "limits",
    "limits.NAME.per",
    "limits.NAME.most",
    "models",
    "sequence",
    "model-overload",
    "drift-room",
    "spacing",
    "level",
    "part-list",
    "part-list.NAME.name",
    "part-list.NAME.unit",
    "part-list.NAME.pack",
    "part-list.NAME.from",
    "part-list.NAME.replenish",
    "part-list.NAME.safety",
    "delivery",
    "delivery.every",
    "delivery.trip",
    "delivery.packs",
    "delivery.replenish",
    "delivery.safety",
    "benches",
    "benches.NAME.tasks",
    "benches.NAME.shifts",
    "benches.NAME.stations",
    "benches.NAME.share",
    "benches.NAME.pieces",
    "benches.NAME.holds",
    "benches.NAME.hand-over",
    "benches.NAME.take-over",
    "benches.NAME.space",
    "benches.NAME.stop",
    "benches.NAME.bunch",
    "attendance",
    "relief",
    "variation",
    "variation.shape",
    "variation.cv",
    "pacing",
    "buffer",
    "buffers",
    "breakdowns",
    "breakdowns.NAME.every",
    "breakdowns.NAME.of",
    "breakdowns.NAME.lasts",
    "options",
    "options.NAME.off-line",
    "options.NAME.demand",
    "options.NAME.calendar",
    "options.NAME.calendar.shifts",
    "options.NAME.calendar.shifts.NAME.from",
    "options.NAME.calendar.shifts.NAME.to",
    "options.NAME.calendar.shifts.NAME.length",
    "options.NAME.calendar.shifts.NAME.breaks",
    "options.NAME.calendar.shifts.NAME.stops",
    "options.NAME.calendar.shifts.NAME.changeovers",
    "options.NAME.calendar.shifts.NAME.overtime",
    "options.NAME.calendar.days-per-week",
    "options.NAME.calendar.days-per-month",
    "options.NAME.calendar.days-per-year",
    "options.NAME.calendar.weeks-per-year",
    "options.NAME.uptime",
    "options.NAME.yield",
    "options.NAME.handling",
    "options.NAME.plan-to",
    "options.NAME.max-places",
    "options.NAME.stations",
    "options.NAME.times",
    "options.NAME.tables",
    "options.NAME.tables.people",
    "options.NAME.tables.walking",
    "options.NAME.once",
    "options.NAME.note",
    "rates",
    "rates.person-hour",
    "rates.bench-hour",
    "rates.overtime",
    "rates.currency",
    "policy",
    "policy.max-load",
    "policy.min-efficiency",
    "policy.max-stations",
    "policy.max-people",
    "policy.max-above-least",
    "supply",
    "tasks",
    "tasks.NAME.name",
    "tasks.NAME.time",
    "tasks.NAME.quantity",
    "tasks.NAME.after",
    "tasks.NAME.after.task",
    "tasks.NAME.after.wait",
    "tasks.NAME.after.model",
    "tasks.NAME.after.stations",
    "tasks.NAME.walking",
    "tasks.NAME.machine-time",
    "tasks.NAME.move-cost",
    "tasks.NAME.training",
    "tasks.NAME.learning",
    "tasks.NAME.learning.share",
    "tasks.NAME.learning.by",
    "tasks.NAME.learning.time-at",
    "tasks.NAME.learning.least",
    "tasks.NAME.learning.built",
    "tasks.NAME.variation",
    "tasks.NAME.variation.shape",
    "tasks.NAME.variation.cv",
    "tasks.NAME.measured",
    "tasks.NAME.every",
    "tasks.NAME.kind",
    "tasks.NAME.side",
    "tasks.NAME.test",
    "tasks.NAME.test.fail",
    "tasks.NAME.test.repair",
    "tasks.NAME.test.return-to",
    "tasks.NAME.test.retest",
    "tasks.NAME.test.scrap",
    "tasks.NAME.people",
    "tasks.NAME.skill",
    "tasks.NAME.equipment",
    "tasks.NAME.zone",
    "tasks.NAME.station",
    "tasks.NAME.not-before",
    "tasks.NAME.not-after",
    "tasks.NAME.uses",
    "tasks.NAME.parts",
    "tasks.NAME.on-base",
    "tasks.NAME.check",
    "tasks.NAME.caution",
    "tasks.NAME.lift",
    "tasks.NAME.lifting",
    "tasks.NAME.lifting.reach",
    "tasks.NAME.lifting.from",
    "tasks.NAME.lifting.to",
    "tasks.NAME.lifting.turn",
    "tasks.NAME.lifting.grip",
    "tasks.NAME.lifting.per-minute",
    "tasks.NAME.lifting.lasts",
    "tasks.NAME.spread",
    "tasks.NAME.readings",
  ]);
});
