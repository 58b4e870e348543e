import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { readPlan } from "../../../src/plan/file/read-plan.js";
import { fingerprintOf } from "../../../src/plan/fingerprint.js";
import { planOf } from "../../../src/plan/plan.js";
import { lineOfPlanFile, writePlanFile } from "../../../src/plan/plan-file.js";
import { ratio } from "../../../src/time/ratio.js";
import { type FloorTerms, floorLine, planFrom, s } from "../../tools/floor-line.js";
import { lineOf, paceOf, shortLine } from "../../tools/line-of.js";

const line = shortLine(["a 30", "b 20 a", "c 40 b"]);
const write = (stations: number[][], present: string | null = null, of = line) =>
  writePlanFile(of, paceOf(60), planOf(stations), "short.line.yaml", present);

describe("a plan file", () => {
  it("has one line a station, tasks in order of work", () => {
    expect(write([[0, 1], [2]])).toBe(
      [
        "format: linepoise-plan/1",
        "line: short.line.yaml",
        `made-for: {line-cycle: 60 s, fingerprint: ${fingerprintOf(line)}}`,
        "stations:",
        "  - {id: S1, tasks: [a, b]}",
        "  - {id: S2, tasks: [c]}",
        "",
      ].join("\n"),
    );
  });

  it("keeps comments and other keys when it is written again, and changes only the stations that moved", () => {
    const present = write([[0, 1], [2]])
      .replace("stations:", "# agreed with the night shift\nstations:")
      .replace("[a, b]}", "[a, b]} # by the window");
    const again = write([[0, 1], [2]], present);
    expect(again).toBe(present);
    const moved = write([[0], [1, 2]], present).split("\n");
    expect(moved.filter((each, at) => each !== present.split("\n")[at])).toEqual([
      "  - {id: S1, tasks: [a]} # by the window",
      "  - {id: S2, tasks: [b, c]}",
    ]);
  });

  it("quotes ids that other YAML readers would take for numbers, times or truth values", () => {
    const odd = lineOf("line: x\nunit: s\ntasks:\n  NO: 1\n  1:30: 1\n  '007': 1\n  1e3: 1\n  on: 1\n");
    const text = write([odd.tasks.map((_, at) => at)], null, odd);
    const ids = parse(text, { version: "1.1" }).stations[0].tasks;
    expect(ids).toEqual(odd.tasks.map((task) => task.id));
  });

  it("is known by its format, and names its line", () => {
    expect(lineOfPlanFile(write([[0, 1], [2]]))).toBe("short.line.yaml");
    expect(lineOfPlanFile("line: short.line.yaml\n")).toBeNull();
    expect(lineOfPlanFile("not: [a plan")).toBeNull();
  });
});

describe("a plan file of a line with sides", () => {
  const sided = floorLine(["a 30", "b 20", "c 10", "'NO' 5"], {
    tasks: { a: { side: "left" }, b: { side: "either" }, c: { people: 2 } },
    floor: [{ id: "on" }],
  });
  const writeSides = (rows: string[], present: string | null = null) =>
    writePlanFile(sided, paceOf(60), planFrom(sided, rows), "short.line.yaml", present);
  const first = writeSides(["on: a/left b/right", "S2 x2: c/both NO/left"]);

  it("says on which side the tasks stand that may stand on either", () => {
    expect(first.split("\n").slice(4)).toEqual([
      '  - {id: "on", tasks: [a, b], sides: {b: right}}',
      '  - {id: S2, places: 2, tasks: [c, "NO"], sides: {"NO": left}}',
      "",
    ]);
    expect(parse(first, { version: "1.1" }).stations[1].sides).toEqual({ NO: "left" });
  });

  it("keeps the lines of stations whose sides stay, and changes and drops those that do not", () => {
    const present = first.replace("right}}", "right}} # far from the wall");
    expect(writeSides(["on: a/left b/right", "S2 x2: c/both NO/left"], present)).toBe(present);
    expect(writeSides(["on: a/left b/left", "S2 x2: c/both NO/left"], present)).toBe(
      present.replace("{b: right}", "{b: left}"),
    );
    expect(writeSides(["on: a/left b/right NO/left", "S2 x2: c/both"], present).split("\n").slice(4)).toEqual(
      [
        '  - {id: "on", tasks: [a, b, "NO"], sides: {b: right, "NO": left}} # far from the wall',
        "  - {id: S2, places: 2, tasks: [c]}",
        "",
      ],
    );
  });
});

describe("a plan file of a line whose people share a unit", () => {
  const shared = floorLine(["a 30", "b 20", "lift 10", "'NO' 5"], {
    tasks: { lift: { people: 2 } },
    maxCrew: 2,
  });
  const writeShared = (rows: string[], present: string | null = null) =>
    writePlanFile(shared, paceOf(60), planFrom(shared, rows), "short.line.yaml", present);
  const first = writeShared(["S1: a/1 b/2 lift/1+2", "S2: NO"]);

  it("says who does each task, and nothing where people work together", () => {
    expect(first.split("\n").slice(4)).toEqual([
      "  - {id: S1, tasks: [a, b, lift], persons: {a: 1, b: 2, lift: [1, 2]}}",
      '  - {id: S2, tasks: ["NO"]}',
      "",
    ]);
  });

  it("keeps the lines of stations whose persons stay, and changes and drops those that do not", () => {
    const present = first.replace("[1, 2]}}", "[1, 2]}} # by the window");
    expect(writeShared(["S1: a/1 b/2 lift/1+2", "S2: NO"], present)).toBe(present);
    expect(writeShared(["S1: a/2 b/2 lift/1+2", "S2: NO"], present)).toBe(
      present.replace("{a: 1,", "{a: 2,"),
    );
    expect(writeShared(["S1: a b lift", "S2: NO"], present)).toBe(
      present.replace(", persons: {a: 1, b: 2, lift: [1, 2]}", ""),
    );
    expect(writeShared(["S1: a/1 b/2 lift/1+2", "S2: NO/1"], present)).toBe(
      present.replace('["NO"]}', '["NO"], persons: {"NO": 1}}'),
    );
  });

  it("reads back as the plan that it was written from", () => {
    const plan = planFrom(shared, ["S1: a/1 b/2 lift/1+2", "S2: NO"]);
    expect(readPlan("p", first, shared).plan).toEqual(plan);
  });

  it.each([
    ["{a: 1, b: 2}", "S1 says who does its tasks, and not who does lift; add it: persons: {lift: 1}"],
    ["{a: 1, b: 2, lift: 1, c: 2}", 'S1: persons name "c", which is no task of this station'],
    [
      "{a: 1, b: 0, lift: 1}",
      'stations, persons, b: "0" is not a number of people: a whole number from 1 is expected, in plain digits',
    ],
  ])("is told what is wrong with persons: %s", (persons, words) => {
    const text = first.replace("{a: 1, b: 2, lift: [1, 2]}", persons);
    expect(readPlan("p", text, shared).findings.map(({ message }) => message)).toContain(words);
  });
});

describe("the fingerprint of a line", () => {
  const of = (tasks: string) => fingerprintOf(lineOf(`line: x\nunit: s\ntasks: ${tasks}\n`));

  it("stays with order of tasks, names and comments", () => {
    expect(of("{b: {time: 20, name: Bolt}, a: 30} # why")).toBe(of("{a: 30 s, b: 20}"));
  });

  it("changes with a time, a quantity, an arrow and a task", () => {
    const all = [
      of("{a: 30, b: 20}"),
      of("{a: 31, b: 20}"),
      of("{a: 30, b: {time: 10, quantity: 2}}"),
      of("{a: 30, b: {time: 20, after: a}}"),
      of("{a: 30, b: 20, c: 0}"),
    ];
    expect(new Set(all).size).toBe(all.length);
  });

  it("is the one it always was where the line says nothing of its floor", () => {
    expect(fingerprintOf(line)).toBe("949167b5b32de23b");
    expect(fingerprintOf(floorLine(["a 30", "b 20 a", "c 40 b"]))).toBe("949167b5b32de23b");
  });

  it("changes with everything on the floor that a plan depends on", () => {
    const rows = ["a 30", "b 20 a"];
    const said: FloorTerms[] = [
      {},
      { tasks: { a: { walking: s(1) } } },
      { tasks: { a: { machineTime: s(1) } } },
      { tasks: { a: { every: 2 } } },
      { tasks: { a: { visits: ratio(4, 3) } } },
      { tasks: { a: { people: 2 } } },
      { tasks: { b: { people: 2 } } },
      { tasks: { a: { side: "left" } } },
      { tasks: { a: { side: "either" } } },
      { tasks: { a: { skills: ["press"] } } },
      { tasks: { a: { equipment: ["press"] } } },
      { tasks: { a: { zone: "press" } } },
      { tasks: { a: { stations: [0] } }, floor: [{ id: "S1" }] },
      { tasks: { a: { notBefore: 0 } }, floor: [{ id: "S1" }] },
      { tasks: { a: { notAfter: 0 } }, floor: [{ id: "S1" }] },
      { floor: [{ id: "S1" }] },
      { floor: [{ id: "S1" }, { id: "S2" }] },
      { floor: [{ id: "S2" }, { id: "S1" }] },
      { floor: [{ id: "S1", zone: "paint" }] },
      { floor: [{ id: "S1", equipment: ["press"] }] },
      { floor: [{ id: "S1", skills: [] }] },
      { floor: [{ id: "S1", maxPlaces: 2 }] },
      { floor: [{ id: "S1", planTo: ratio(9, 10) }] },
      { equipment: { press: 1 } },
      { equipment: { press: 2 } },
      { together: [["a", "b"]] },
      { apart: [["a", "b"]] },
      { waits: [{ on: "a", after: "b", wait: 600 }] },
      { waits: [{ on: "a", after: "b", stations: 2 }] },
      { maxPlaces: 2 },
      { people: [{ id: "Kim", skills: ["press"] }] },
      { people: [{ id: "Kim", skills: [] }] },
      { tasks: { a: { test: { failures: "scrapped", scrap: ratio(1, 10) } } } },
      {
        tasks: {
          a: {
            test: { failures: "repaired", fail: ratio(1, 10), repair: s(60), returnTo: 0, retest: "once" },
          },
        },
      },
      {
        tasks: {
          a: {
            test: { failures: "repaired", fail: ratio(1, 10), repair: s(60), returnTo: 0, retest: "scrap" },
          },
        },
      },
      { models: [{ id: "city", share: ratio(1) }] },
      { models: [{ id: "cargo", share: ratio(1) }] },
      { models: [{ id: "city", share: ratio(1) }], modelOverload: ratio(0) },
    ];
    const all = said.map((terms) => fingerprintOf(floorLine(rows, terms)));
    expect(new Set(all).size).toBe(all.length);
  });

  it("stays with the order of models, people, groups and equipment, and with kinds of work", () => {
    const [city, cargo] = [
      { id: "city", share: ratio(2, 3) },
      { id: "cargo", share: ratio(1, 3) },
    ];
    const [kim, lee] = [
      { id: "Kim", skills: ["brakes", "press"] },
      { id: "Lee", skills: [] },
    ];
    const rows = ["a 30", "b 20 a", "c 10"];
    const one = floorLine(rows, {
      models: [city, cargo],
      people: [kim, lee],
      equipment: { press: 1, crane: 2 },
      apart: [
        ["a", "b"],
        ["b", "c"],
      ],
      tasks: { a: { times: [s(30), null], kind: "waste", skills: ["press", "brakes"] } },
    });
    const two = floorLine(rows, {
      models: [cargo, city],
      people: [lee, { ...kim, skills: ["press", "brakes"] }],
      equipment: { crane: 2, press: 1 },
      apart: [
        ["c", "b"],
        ["b", "a"],
      ],
      tasks: { a: { times: [null, s(30)], skills: ["brakes", "press"] } },
    });
    expect(fingerprintOf(one)).toBe(fingerprintOf(two));
  });
});
