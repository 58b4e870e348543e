import { describe, expect, it } from "vitest";
import { sourceFiles, textOf } from "./source-files.js";

/** Where figures are defined. */
const HOME = "src/plan/figures/";

/** Whole numbers of the search, and the arithmetic of the verifier: each stands apart from the figures on purpose. */
const APART = ["src/solve/", "src/plan/verify/"];

const elsewhere = sourceFiles.filter((file) => ![HOME, ...APART].some((folder) => file.startsWith(folder)));

/** Functions that a file declares, arrow functions among them. */
function functionsOf(text: string): string[] {
  const declared = /^\s*(?:export )?(?:async )?function (\w+)/gmu;
  const arrows =
    /^\s*(?:export )?const (\w+)(?:: [^=;]+)? =\s+(?:async )?(?:<[^>]*>)?(?:\w+|\([^;]*?\)(?:: [^=;]+)?) =>/gmu;
  return [...text.matchAll(declared), ...text.matchAll(arrows)].map(([, name]) => name!);
}

/** Words of the figures; "peopleWords" and the like are no figures. */
const FIGURE =
  /efficien|idle|balanceDelay|^cycleOf|smoothness|workContent|workingTime|stationLimit|stationTime|overload|personTime|output(?:Per|By|Of)|unitsPer|goodUnits|peopleNeeded|peopleByWork|peopleOf|peopleAt/iu;

/** Functions elsewhere that are named after a figure, each with why it is no second definition. */
const NAMED: Readonly<Record<string, string>> = {
  "src/answer/compare/figures.ts efficiencyAtPace": "hands the posts of an option to the figure",
  "src/answer/compare/figures.ts efficiencyAtSlowest": "hands the posts of an option to the figure",
  "src/answer/compare/figures.ts idleHours": "hands the posts of an option to the figure",
  "src/answer/compare/figures.ts idleHoursPerDay": "hands the posts of an option to the figure",
  "src/answer/compare/figures.ts idleHoursIn": "hands the posts of an option to the figure",
  "src/answer/compare/figures.ts outputPerShift": "hands the slowest cycle of an option to the figure",
  "src/answer/compare/figures.ts outputByShift": "hands the slowest cycle of an option to the figure",
  "src/answer/compare/figures.ts outputPerDay": "hands the slowest cycle of an option to the figure",
  "src/answer/compare/figures.ts personTimePerDay":
    "attendance of a day, breaks included: what is paid by the hour",
  "src/line/parts/limits.ts unitsPerShift": "good units that are wanted, not what a plan makes",
  "src/plan/check/check-empty-stations.ts efficiencyWords": "words",
  "src/plan/check/check-policy.ts judgeEfficiency": "compares the figure with the policy",
  "src/time/pace.ts noWorkingTime": "words",
};

/** Arithmetic that only a figure does, and the other files that may, each with why. */
const SUMS: readonly {
  readonly what: string;
  readonly pattern: RegExp;
  readonly planted: string;
  readonly may: Readonly<Record<string, string>>;
}[] = [
  {
    what: "person-time: load x people",
    pattern: /multiply\([^;]{0,60}\bload\b[^;]{0,60}\bpeople\b/u,
    planted: "tasks.map((task) => multiply(line.tasks[task]!.load, ratio(line.tasks[task]!.people)))",
    may: {},
  },
  {
    what: "output: time x uptime or yield",
    pattern: /multiply\([^;]{0,60}\b(?:uptime|yield)\b/u,
    planted: "const started = divide(multiply(ratio(available), line.uptime), pace.lineCycle);",
    may: {
      "src/benches/bench-stock.ts": "how much lies between bench and line, not what a plan makes",
      "src/plan/figures/units-tested.ts": "units to start, from yield and tests",
      "src/time/pace.ts": "the line cycle itself",
      "src/time/takt.ts": "the line cycle itself, term by term",
    },
  },
  {
    what: "working time: places x line cycle - handling",
    pattern: /subtract\([^;]{0,60}lineCycle[^;]{0,60}handling/u,
    planted: "return subtract(multiply(ratio(station.places), pace.lineCycle), ratio(pace.handling));",
    may: {
      "src/time/pace.ts": "the pace of one place, before there is a plan",
      "src/answer/long-tasks/least-line-cycle.ts": "the pace of one place, at another line cycle",
    },
  },
  {
    what: "cycle: (busy + handling) / places",
    pattern: /divide\(\s*add\([^;]{0,60}handling[^;]{0,30}\),\s*(?:ratio\()?[\w.]*places/u,
    planted: "return divide(add(stationTime(line, station), ratio(pace.handling)), ratio(station.places));",
    may: {
      "src/answer/long-tasks/least-line-cycle.ts": "a line cycle of the search, in its own parts",
      "src/plan/post.ts": "which station gets the next unit of equipment, before a post is whole",
    },
  },
];

const isSum = (text: string, pattern: RegExp): boolean => pattern.test(text.replace(/\s+/gu, " "));

describe("Every figure has one definition", () => {
  it("and no other file has a function that is named after one, but for those listed with why", () => {
    const found = elsewhere.flatMap((file) =>
      functionsOf(textOf(file))
        .filter((name) => FIGURE.test(name))
        .map((name) => `${file} ${name}`),
    );
    expect([...new Set(found)].sort()).toEqual(Object.keys(NAMED).sort());
  });

  it("and a function of an option that has the name of a figure calls it", () => {
    const file = "src/answer/compare/figures.ts";
    const text = textOf(file);
    for (const name of ["efficiencyAtPace", "efficiencyAtSlowest", "outputPerShift", "outputByShift"])
      expect(text).toMatch(new RegExp(`\\w+\\.${name}\\(`, "u"));
    expect(text).toMatch(/from "\.\.\/\.\.\/plan\/figures\/efficiency\.js"/u);
    expect(text).toMatch(/from "\.\.\/\.\.\/plan\/figures\/output\.js"/u);
  });

  it("and each file of figures says what its functions are, all those that others may call", () => {
    for (const file of sourceFiles.filter((each) => each.startsWith(HOME))) {
      const bare = [...textOf(file).matchAll(/(^|\n)(.*)\nexport (?:function|const) (\w+)/gu)]
        .filter(([, , before]) => !before!.trim().endsWith("*/"))
        .map(([, , , name]) => name);
      expect([file, bare]).toEqual([file, []]);
    }
  });

  it.each(SUMS)("and nobody else works out $what", ({ pattern, planted, may }) => {
    expect(isSum(planted, pattern)).toBe(true);
    const found = [...elsewhere, ...sourceFiles.filter((file) => file.endsWith("units-tested.ts"))].filter(
      (file) => isSum(textOf(file), pattern),
    );
    expect(found.sort()).toEqual(Object.keys(may).sort());
  });

  it("and a function planted elsewhere is found, however it is written", () => {
    expect(functionsOf("export function idlePerShift(line: Line) {}\n")).toEqual(["idlePerShift"]);
    expect(functionsOf("const efficiencyOf = (plan: Plan): Ratio | null => null;\n")).toEqual([
      "efficiencyOf",
    ]);
    expect(functionsOf("export const outputOf: Figure<number> = ({ posts }) => null;\n")).toEqual([
      "outputOf",
    ]);
    expect(functionsOf("export const idleAt = (\n  post: Post,\n): Ratio => ZERO;\n")).toEqual(["idleAt"]);
  });
});
