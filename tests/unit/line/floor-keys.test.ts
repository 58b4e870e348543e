import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { ratio } from "../../../src/time/ratio.js";
import { lineOf } from "../../tools/line-of.js";

const SEED = 7;

const SILENT = {
  maxPlaces: null,
  holds: null,
  maxCrew: null,
  planTo: null,
  keepPace: null,
  limits: [],
  driftRoom: null,
};

describe("What stands on the floor is read", () => {
  test("station by station in the order of the file, blanks around names aside", () => {
    const line = lineOf(
      [
        "stations:",
        "  - {id: S2, zone: frame, equipment: [press, hoist, press], skills: b, max-places: 3, holds: 2, max-crew: 4, plan-to: 85 %}",
        "  - {id: first, skills: []}",
        "  - {id: 7}",
        "equipment: {press: 1, hoist: 2}",
        "max-places: 2",
        "holds: 3",
        "max-crew: 2",
        'people: {late: [b, a], early: " a ", none: []}',
        "tasks:",
        "  t1: {time: 5 s, zone: frame, equipment: ' press', skill: [' b'], people: 2}",
        "  t2: {time: 5 s, station: [7, S2, 7], not-before: S2, not-after: 7}",
      ].join("\n"),
    );
    expect(line.floor).toEqual([
      {
        id: "S2",
        zone: "frame",
        equipment: ["hoist", "press"],
        skills: ["b"],
        maxPlaces: 3,
        holds: 2,
        maxCrew: 4,
        planTo: ratio(17, 20),
        keepPace: null,
        limits: [],
        driftRoom: null,
      },
      {
        id: "first",
        zone: null,
        equipment: [],
        skills: [],
        ...SILENT,
      },
      {
        id: "7",
        zone: null,
        equipment: [],
        skills: null,
        ...SILENT,
      },
    ]);
    expect([...line.equipment]).toEqual([
      ["hoist", 2],
      ["press", 1],
    ]);
    expect([line.maxPlaces, line.holds, line.maxCrew]).toEqual([2, 3, 2]);
    expect(line.people).toEqual([
      { id: "early", skills: [" a "] },
      { id: "late", skills: [" a ", "b"] },
      { id: "none", skills: [] },
    ]);
    expect(line.tasks).toMatchObject([
      { zone: "frame", equipment: ["press"], skills: ["b"], people: 2, stations: null, notBefore: null },
      { zone: null, equipment: [], skills: [], people: 1, stations: [0, 2], notBefore: 0, notAfter: 2 },
    ]);
  });

  test("as many plain stations as the highest number that a task names, where the file lists none", () => {
    const line = lineOf("tasks: {a: {time: 5 s, station: [S3, S1]}, b: {time: 5 s, not-after: S2}, c: 1 s}");
    expect(line.floor.map((station) => station.id)).toEqual(["S1", "S2", "S3"]);
    expect(line.floor[2]).toEqual({
      id: "S3",
      zone: null,
      equipment: [],
      skills: null,
      ...SILENT,
    });
    expect(line.tasks.map((task) => [task.stations, task.notBefore, task.notAfter])).toEqual([
      [[0, 2], null, null],
      [null, null, 1],
      [null, null, null],
    ]);
  });
});

describe("A name is the same name", () => {
  test("whatever its accents are made of, spelt as where it is defined first", () => {
    const [composed, parted] = ["zone \u00e9", "zone e\u0301"];
    const line = lineOf(
      `stations: [{id: "${parted}", zone: "${parted}"}]\ntasks: {a: {time: 5 s, zone: "${composed}", station: "${composed}"}}`,
    );
    expect(line.tasks[0]).toMatchObject({ zone: parted, stations: [0] });
  });
});

describe("Groups of tasks", () => {
  test("that are kept together and share a task become one", () => {
    const line = lineOf(
      "together: [[d, c], [f, e], [c, a]]\ntasks: {a: 1 s, b: 1 s, c: 1 s, d: 1 s, e: 1 s, f: 1 s}",
    );
    expect(line.together).toEqual([
      [0, 2, 3],
      [4, 5],
    ]);
  });

  test("that are kept apart stand once, whatever the order of the file", () => {
    const groups = [
      ["a", "c"],
      ["b", "a", "b"],
      ["c", "a"],
      ["c", "b", "a"],
    ];
    fc.assert(
      fc.property(fc.shuffledSubarray(groups, { minLength: groups.length }), (order) => {
        const line = lineOf(`apart: ${JSON.stringify(order)}\ntasks: {a: 1 s, b: 1 s, c: 1 s}`);
        expect(line.apart).toEqual([
          [0, 1],
          [0, 1, 2],
          [0, 2],
        ]);
      }),
      { seed: SEED },
    );
  });
});

describe("A floor of a thousand stations and a group of a thousand tasks", () => {
  test("are read without looking at every pair", () => {
    const ids = Array.from({ length: 1000 }, (_, at) => `t${at}`);
    const tasks = ids.map((id) => `  ${id}: {time: 1 s, not-before: S1000}`).join("\n");
    const { line, findings } = readLine("line.yaml", `together: [[${ids.join(", ")}]]\ntasks:\n${tasks}\n`);
    expect(findings).toEqual([]);
    expect([line!.floor.length, line!.together[0]!.length]).toEqual([1000, 1000]);
  });
});
