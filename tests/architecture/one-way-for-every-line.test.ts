import { describe, expect, it } from "vitest";
import { type RefusedWay, sourceFiles, textOf } from "./source-files.js";

/** Where constraints live: only they know what a line asks of its stations. */
const HOME = "src/solve/station/";

const files = sourceFiles.filter((file) => !file.startsWith(HOME));

/** Ways to ask whether a line has rules at all, each with code that does and code that does not. */
const WAYS: readonly RefusedWay[] = [
  {
    what: "a line, a work or a balance is asked for it by name",
    pattern:
      /\b(?:(?:has|asks|is|by|no)(?:Floor|Shop|Line)?(?:Rules|TimeOnly)|timeOnly|isPlainLine|onlyTime)\b/u,
    planted: [
      "const plan = found.timeOnly ? flagTightTasks(line, pace, plan) : null;",
      "if (hasFloorRules(line)) return searchFloor(line);",
      "export const makesWholePlans = (work: Work): boolean => asksTimeOnly(work);",
      "const isPlain = !hasRules(work);",
    ],
    fine: ["const rules = options.explain ? answerRules(line) : null;", "lineRules(line).map(toReason)"],
    may: {},
  },
  {
    what: "the constraints of a station are looked at from outside",
    pattern: /\.constraints\b|\bconstraintsOf\(/u,
    planted: ["new OpenStation(work).constraints.length === 0", "station.constraints.every(isTime)"],
    fine: ["station.supports.every((each) => each.anyOrder)"],
    may: {},
  },
  {
    what: "the rules of a work are held against none",
    pattern: /\brulesOf\(.*\)\s*[!=]==\s*null/u,
    planted: [
      "if (rulesOf(layOutWork(line, limits)) === null) return fillByTime(line);",
      "rulesOf(low) !== null",
    ],
    fine: ["StationCloser.suit({ rules: rulesOf(work) })"],
    may: {
      "src/solve/lay-out-work.ts": "handling counted once is tried where that alone makes rules",
      "src/solve/level/line-cycles.ts": "says of the times of stations whether any that keep them are a plan",
      "src/solve/search/run-search.ts": "states that carry nothing on take less memory",
      "src/solve/time-alone.ts": "a bound by time alone says whether it leaves anything out",
    },
  },
];

describe.each(WAYS)("No way is chosen where $what", ({ pattern, planted, fine, may }) => {
  it("but where the list says why", () => {
    expect(files.filter((file) => pattern.test(textOf(file)))).toEqual(Object.keys(may).sort());
  });

  it("and planted violations are found", () => {
    expect(planted.filter((code) => !pattern.test(code))).toEqual([]);
    expect(fine.filter((code) => pattern.test(code))).toEqual([]);
  });
});

describe("The home of constraints", () => {
  it("has files, so that leaving it out of the list is no accident", () => {
    expect(sourceFiles.length - files.length).toBeGreaterThan(10);
    expect(files.length).toBeGreaterThan(300);
  });
});
