import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Line } from "../../../src/line/line.js";
import { lineFileKeys } from "../../../src/line/line-file.js";
import { readLine } from "../../../src/line/read-line.js";
import { STARTER_LINE_FILE } from "../../../src/line/starter.js";
import { ONE, ratio, ZERO } from "../../../src/time/ratio.js";

const SEED = 5;
const FILE = "lines/cargo-bike.line.yaml";

function lineOf(text: string): Line {
  const { line, findings } = readLine(FILE, text);
  expect(findings.filter((each) => each.severity === "error")).toEqual([]);
  return line!;
}

const rulesOf = (text: string) => readLine(FILE, text).findings.map((each) => each.rule);

/** The arrows of a line by ids, so that lines can be compared whatever numbers their tasks have. */
const arrowsOf = (line: Line) =>
  line.before.flatMap((earlier, task) =>
    earlier.map((each) => `${line.tasks[each]!.id} -> ${line.tasks[task]!.id}`),
  );

/** Keys that a line needs once its floor, its failures or its models matter. */
const LATER_KEYS =
  /^(?:keep-pace|stations|max-places|holds|max-crew|equipment|people|move-costs|training|learning|together|apart|limits|models|sequence|model-overload|drift-room|spacing|level|benches|attendance|relief|options|rates|policy|supply|part-list|delivery|variation|pacing|buffer|buffers|breakdowns)\b|^tasks\.NAME\.(?:test|after\.|walking|machine-time|move-cost|training|learning|variation|measured|every|kind|side|people|skill|equipment|zone|station|not-before|not-after|uses|parts|check|lifting|spread|readings)/;

const PLAIN_TASK = {
  walking: 0,
  machineTime: 0,
  every: 1,
  visits: [ONE],
  people: 1,
  side: null,
  skills: [],
  equipment: [],
  zone: null,
  stations: null,
  notBefore: null,
  notAfter: null,
  uses: [],
  parts: [],
  checks: [],
  lifting: null,
  moveCost: null,
  training: null,
  learning: null,
  variation: null,
  test: null,
  kind: null,
};

const WITHOUT_FLOOR_RULES = {
  waits: [],
  floor: [],
  isFloorListed: false,
  equipment: new Map(),
  together: [],
  apart: [],
  limits: [],
  moveCosts: new Map(),
  trainings: new Map(),
  flow: { pacing: "unpaced", buffer: 0, buffers: [], breakdowns: [] },
  maxPlaces: 1,
  holds: 1,
  maxCrew: 1,
  people: [],
  models: [],
  sequence: null,
  modelOverload: null,
  keepPace: null,
  driftRoom: null,
  spacings: [],
  levelled: [],
  partList: [],
  delivery: { every: null, trip: null, packs: null, replenish: null, safety: null },
  benches: [],
  options: [],
  rates: null,
  attendance: ONE,
  relief: ZERO,
  policy: { maxLoad: ONE, minEfficiency: null, maxStations: null, maxPeople: null, maxAboveLeast: null },
  supplies: [],
};

describe("A line file becomes a line", () => {
  test("with every value in exact numbers and every task at its place", () => {
    const line = lineOf(
      [
        "line: Cargo bike",
        "unit: min",
        "demand: 176 per day",
        "calendar:",
        "  shifts:",
        '    night: {from: "22:00", to: "06:00", breaks: 45 min}',
        "    day: {length: 8 h, stops: {b: 5 min, a: 2 x 1 min}, overtime: 30 min}",
        "  days-per-month: 21.67",
        "uptime: 94 %",
        "yield: 99.5%",
        "handling: 0.1",
        "plan-to: 95 %",
        "tasks:",
        "  fit-fork: {time: 0:41, quantity: 2, after: load-frame, name: ' Fit fork '}",
        "  load-frame: {time: 0.5, on-base: true, lift: 19 kg, caution: Use the hoist}",
      ].join("\n"),
    );
    const night = { name: "night", from: "22:00", to: "06:00", gross: 28_800_000_000, overtime: 0 };
    const day = { name: "day", from: null, to: null, gross: 28_800_000_000, overtime: 1_800_000_000 };
    const plain = { ...PLAIN_TASK, onBase: false, caution: null, lift: null };
    expect(line).toEqual({
      file: FILE,
      name: "Cargo bike",
      unit: "min",
      demand: { units: ratio(176), period: "day" },
      calendar: {
        shifts: [
          {
            ...day,
            breaks: [],
            stops: [
              { name: "a", count: 2, each: 60_000_000 },
              { name: "b", count: 1, each: 300_000_000 },
            ],
            changeovers: [],
          },
          {
            ...night,
            breaks: [{ name: "breaks", count: 1, each: 2_700_000_000 }],
            stops: [],
            changeovers: [],
          },
        ],
        daysPerWeek: null,
        daysPerMonth: ratio(2167, 100),
        daysPerYear: null,
        weeksPerYear: null,
      },
      uptime: ratio(47, 50),
      yield: ratio(199, 200),
      planTo: ratio(19, 20),
      handling: 6_000_000,
      given: ["demand", "calendar", "uptime", "yield", "handling", "plan-to"],
      tasks: [
        {
          ...plain,
          id: "fit-fork",
          name: "Fit fork",
          quantity: 2,
          times: [82_000_000],
          load: ratio(82_000_000),
          place: { line: 14, column: 3, endColumn: 11 },
        },
        {
          ...PLAIN_TASK,
          id: "load-frame",
          name: null,
          quantity: 1,
          times: [30_000_000],
          load: ratio(30_000_000),
          onBase: true,
          caution: "Use the hoist",
          lift: "19 kg",
          place: { line: 15, column: 3, endColumn: 13 },
        },
      ],
      before: [[1], []],
      ...WITHOUT_FLOOR_RULES,
    });
  });

  test("with nothing set where the file is silent, named after the file", () => {
    const line = lineOf("tasks: {load-frame: 38 s}");
    expect(line).toMatchObject({
      name: "cargo-bike",
      unit: null,
      demand: null,
      calendar: null,
      handling: 0,
      given: [],
    });
    expect([line.uptime, line.yield, line.planTo]).toEqual([ONE, ONE, ONE]);
    expect(readLine("-", "tasks: {load-frame: 38 s}").line!.name).toBe("-");
  });

  test("with the same tasks and arrows from `after`, `chains` or both", () => {
    const chained = lineOf("chains: [[a, b, c], [b, d]]\ntasks: {a: 1 s, b: 1 s, c: 1 s, d: 1 s}");
    const both = lineOf(
      "chains: [[a, b]]\ntasks: {a: 1 s, b: {time: 1 s, after: [a]}, c: {time: 1 s, after: b}, d: {time: 1 s, after: b}}",
    );
    expect(arrowsOf(chained)).toEqual(["a -> b", "b -> c", "b -> d"]);
    expect(arrowsOf(both)).toEqual(arrowsOf(chained));
  });

  test("with ids as typed, whatever they look like to a computer", () => {
    const ids = [
      "0x1A",
      "1e3",
      "007",
      "12345678901234567890",
      "NO",
      "__proto__",
      "constructor",
      "hasOwnProperty",
      "toString",
    ];
    const line = lineOf(
      `tasks: {${ids.map((id) => `${id}: 5 s`).join(", ")}, box: {time: 1 s, after: [${ids.join(", ")}]}}`,
    );
    expect(line.tasks.map((task) => task.id)).toEqual([
      ...ids.slice(0, 5),
      "__proto__",
      "box",
      ...ids.slice(6),
    ]);
    expect(line.before[6]).toEqual([0, 1, 2, 3, 4, 5, 7, 8, 9]);
  });

  test("with thousandths of a minute, centiminutes and TMU added without a rounding", () => {
    const times = lineOf("tasks: {a: 0.1 min, b: 0.2 min, c: 0.3 min, d: 1500 tmu, e: 60 cmin}").tasks.map(
      (task) => task.times[0],
    );
    expect(times).toEqual([6_000_000, 12_000_000, 18_000_000, 54_000_000, 36_000_000]);
  });
});

describe("The order of a file means nothing:", () => {
  const tasks = [
    "t10: {time: 5 s, after: [t9, t2]}",
    "t9: 4 s",
    "t2: {time: 3 s, after: T}",
    "T: 2 s",
    "007: 1 s",
    "7: {time: 2 s, after: 007}",
  ];

  test("tasks in any order give the same line and the same warnings, apart from places", () => {
    const read = (order: readonly string[]) => {
      const { line, findings } = readLine(FILE, `tasks:\n${order.map((each) => `  ${each}\n`).join("")}`);
      const told = findings.map((each) => each.rule);
      return { before: line!.before, tasks: line!.tasks.map((task) => ({ ...task, place: null })), told };
    };
    const expected = read(tasks);
    fc.assert(
      fc.property(fc.shuffledSubarray(tasks, { minLength: tasks.length }), (order) => {
        expect(read(order)).toEqual(expected);
      }),
      { seed: SEED },
    );
  });
});

describe("Aliases", () => {
  test("are taken for honest uses, a hundred and twenty of them", () => {
    const tasks = Array.from({ length: 120 }, (_, number) => `  t${number}: {time: *piece}`);
    const line = lineOf(`unit: s\nhandling: &piece 4\ntasks:\n${tasks.join("\n")}\n`);
    expect(line.tasks).toHaveLength(120);
    expect(new Set(line.tasks.map((task) => task.times[0]))).toEqual(new Set([4_000_000]));
  });
});

describe("What an editor leaves in a file does no harm:", () => {
  const text =
    "line: Cargo bike\nunit: s\ntasks:\n  load-frame: 38\n  fit-fork: {time: 41, after: load-frame}\n";

  test("a byte order mark and line ends of another system", () => {
    expect(lineOf(`\ufeff${text.replaceAll("\n", "\r\n")}`)).toEqual(lineOf(text));
  });

  test("a document start, a document end and comments", () => {
    const marked = lineOf(`# a comment\n---\n${text}...\n`);
    expect({ ...marked, tasks: marked.tasks.length }).toEqual({ ...lineOf(text), tasks: 2 });
  });
});

describe("Whatever the text is, reading it throws nothing:", () => {
  const piece = fc.constantFrom(
    ...[
      "tasks",
      "calendar",
      "shifts",
      "after",
      "time",
      "chains",
      "a",
      "b",
      "<<",
      "5",
      "s",
      "&x",
      "*x",
      "!!int",
      "? ",
    ],
    ...[
      ":",
      ": ",
      "- ",
      "\n",
      "\n  ",
      "\n    ",
      "\t",
      "[",
      "]",
      "{",
      "}",
      ", ",
      '"',
      "'",
      "|\n",
      ">-\n",
      "#",
      "---\n",
      "%YAML 1.1\n",
    ],
    ...["\u001b", "\u0000", "\r", "\ud800", "\ufeff", "東", "\\"],
  );
  const mess = fc.array(piece, { maxLength: 40 }).map((parts) => parts.join(""));

  test("pieces of line files in any order", () => {
    fc.assert(
      fc.property(mess, (text) => {
        const { line, findings } = readLine(FILE, text);
        expect(line === null).toBe(findings.some((each) => each.severity === "error"));
      }),
      { seed: SEED, numRuns: 3000 },
    );
  });

  test("a good line file with a stretch cut out or put in", () => {
    fc.assert(
      fc.property(fc.nat(STARTER_LINE_FILE.length), fc.nat(30), mess, (from, length, put) => {
        const text = STARTER_LINE_FILE.slice(0, from) + put + STARTER_LINE_FILE.slice(from + length);
        expect(() => readLine(FILE, text)).not.toThrow();
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  test.each([
    ["lists in lists", "[".repeat(200_000)],
    ["maps in maps", "{a: ".repeat(100_000)],
    ["list marks on one line", "- ".repeat(100_000)],
    ["key marks on one line", "? ".repeat(2_000)],
    [
      "maps, each line further in",
      Array.from({ length: 300 }, (_, depth) => `${" ".repeat(depth)}a:`).join("\n"),
    ],
  ])("a hundred thousand %s", (_, text) => {
    expect(rulesOf(text)).toEqual(["yaml-too-deep"]);
  });
});

describe("Nothing fills the memory", () => {
  const named = (count: number, name: string, value: string) =>
    Array.from({ length: count }, (_, number) => `${name}${number}: ${value}`).join(", ");

  test.each([
    ["tasks", `tasks:\n${"  a: 5\n".repeat(20_001)}`],
    ["names in a list", `tasks: {a: {time: 5, after: [${"b, ".repeat(20_001)}]}}`],
    ["brackets that close nothing", "]".repeat(20_001)],
    ["documents", "---\n".repeat(20_002)],
    ["blank lines", "\n".repeat(500_000)],
    [
      "models of tasks",
      `unit: s\ndemand: 1 per hour\nmodels: {${named(600, "m", "1")}}\ntasks: {${named(600, "t", "5")}}`,
    ],
  ])("of more %s than a line has", (_, text) => {
    expect(rulesOf(text)).toEqual(["too-large"]);
  });

  test("a file of comments says nothing, whatever its length", () => {
    expect(rulesOf("# a\n".repeat(30_000))).toEqual(["empty-file"]);
  });
});

describe("The starter file", () => {
  test("reads without a finding", () => {
    expect(readLine("starter.yaml", STARTER_LINE_FILE).findings).toEqual([]);
  });

  test("shows the keys of a first line: its pace, its order and its tasks", () => {
    const keys = lineFileKeys().map(({ key }) => key);
    const shown = keys.filter((key) => new RegExp(`\\b${key.split(".").at(-1)}:\\s`).test(STARTER_LINE_FILE));
    const first = keys.filter((key) => !LATER_KEYS.test(key));
    expect(shown.filter((key) => first.includes(key))).toEqual(first);
  });
});
