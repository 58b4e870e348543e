import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readPlan } from "../../../src/plan/file/read-plan.js";
import { fingerprintOf } from "../../../src/plan/fingerprint.js";
import type { Plan } from "../../../src/plan/plan.js";
import { writePlanFile } from "../../../src/plan/plan-file.js";
import { planFrom } from "../../tools/floor-line.js";
import { paceOf, shortLine } from "../../tools/line-of.js";

const line = shortLine(["a 10", "b 10", "c 10", "d 10", "e 10", "f 10"]);
const print = fingerprintOf(line);

/** The plan file after it became the plan of these rows; "B1: ..." behind a bar is a bench. */
function rewrite(present: string, rows: string[], benches: string[] = [], seconds = 60): string {
  const plan: Plan = { ...planFrom(line, rows), benches: planFrom(line, benches).stations };
  return writePlanFile(line, paceOf(seconds), plan, "short.line.yaml", present);
}

const AGREED = `# Agreed on Monday.
format:   linepoise-plan/1
line: short.line.yaml   # beside this file

made-for: {line-cycle: 60 s,   fingerprint: ${print}}  # kept by the program
stations:
  # the frame zone
  - {id: S1,  tasks: [a,  b]}  # two blanks
  - id: S2   # in several lines
    tasks:
      - c    # by hand
      # the big one
      - d

  # the end
  -   {tasks: [e], id: "S3"}
benches:
  - {id: B1, tasks: [f]}	# a tab
# bye
`;
const ROWS = ["S1: a b", "S2: c d", "S3: e"];

/** Lines of the second text that are not in the first one, in order. */
const newLines = (before: string, after: string) =>
  after.split("\n").filter((each) => !before.split("\n").includes(each));

describe("A plan file that is written again", () => {
  it("keeps every byte where nothing changes", () => {
    expect(rewrite(AGREED, ROWS, ["B1: f"])).toBe(AGREED);
    const windows = AGREED.replaceAll("\n", "\r\n");
    expect(rewrite(windows, ROWS, ["B1: f"])).toBe(windows);
    const unended = AGREED.replace("\n# bye\n", "");
    expect(rewrite(unended, ROWS, ["B1: f"])).toBe(unended);
  });

  it("changes only the line cycle where only that differs", () => {
    const again = rewrite(AGREED, ROWS, ["B1: f"], 56);
    expect(again).toBe(AGREED.replace("60 s", "56 s"));
  });

  it("changes only the lists of tasks that differ", () => {
    expect(rewrite(AGREED, ["S1: a", "S2: c b d", "S3: e"], ["B1: f"])).toBe(
      AGREED.replace("[a,  b]", "[a]").replace("      # the big one", "      - b\n      # the big one"),
    );
    expect(rewrite(AGREED, ["S1: a b", "S2: d", "S3: e c"], ["B1: f"])).toBe(
      AGREED.replace("      - c    # by hand\n", "").replace("[e]", "[e, c]"),
    );
  });

  it("moves the lines of stations with the comments above them", () => {
    const moved = rewrite(AGREED, ["S3: e", "S1: a b", "S2: c d"], ["B1: f"]);
    expect(newLines(AGREED, moved)).toEqual([]);
    expect(moved.indexOf("# the end")).toBeLessThan(moved.indexOf("# the frame zone"));
    expect(moved.split("\n").sort()).toEqual(AGREED.split("\n").sort());
  });

  it("drops the lines of a station that goes, and keeps the comments above them", () => {
    expect(rewrite(AGREED, ["S2: c d", "S3: e a b"], ["B1: f"])).toBe(
      AGREED.replace("  - {id: S1,  tasks: [a,  b]}  # two blanks\n", "").replace("[e]", "[e, a, b]"),
    );
    expect(rewrite(AGREED, ["S1: a b e", "S2: c d"], ["B1: f"])).toBe(
      AGREED.replace('  -   {tasks: [e], id: "S3"}\n', "").replace("[a,  b]", "[a, b, e]"),
    );
  });

  it("adds stations, places and benches in lines of their own, with the line ends of the file", () => {
    const rows = ["S1 x2: a b", "S2: c", "S4: d", "S3: e"];
    const again = rewrite(AGREED.replaceAll("\n", "\r\n"), rows, ["B1: f"]);
    expect(again.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    expect(newLines(AGREED.replaceAll("\n", "\r\n"), again)).toEqual([
      "  - {id: S1, places: 2,  tasks: [a,  b]}  # two blanks\r",
      "  - {id: S4, tasks: [d]}\r",
    ]);
    const withoutBenches = AGREED.replace(/benches:\n.*\n/u, "");
    expect(rewrite(withoutBenches, ["S1: a b", "S2: c d", "S3: e"], ["B1: f"])).toBe(
      withoutBenches.replace('"S3"}\n', '"S3"}\nbenches:\n  - {id: B1, tasks: [f]}\n'),
    );
  });

  it("takes places and benches out again", () => {
    const more = AGREED.replace("id: S1,", "id: S1, places: 2,").replace(
      "  - id: S2   # in several lines\n",
      "  - id: S2   # in several lines\n    places: 3\n",
    );
    expect(rewrite(more, ROWS, ["B1: f"])).toBe(AGREED);
    expect(rewrite(AGREED, ["S1: a b", "S2: c d", "S3: e f"])).toBe(
      AGREED.replace(/benches:\n.*\n/u, "").replace("[e]", "[e, f]"),
    );
  });

  it("gives a plan without made-for and line both of them", () => {
    const bare = "format: linepoise-plan/1 # by hand\nstations:\n- tasks: [a, b, c]\n- tasks: [d, e, f]\n";
    expect(rewrite(bare, ["S1: a b c", "S2: d e f"])).toBe(
      bare.replace(
        "by hand\n",
        `by hand\nline: short.line.yaml\nmade-for: {line-cycle: 60 s, fingerprint: ${print}}\n`,
      ),
    );
  });

  it("is written anew where its lines cannot be kept", () => {
    const odd = `{format: linepoise-plan/1, line: short.line.yaml, stations: [{id: S1, tasks: [a]}]}\n`;
    const again = rewrite(odd, ["S1: a b", "S2: c d e f"]);
    expect(again).toBe(
      writePlanFile(line, paceOf(60), planFrom(line, ["S1: a b", "S2: c d e f"]), "short.line.yaml", null),
    );
    const shared =
      "format: linepoise-plan/1\nline: short.line.yaml\nstations:\n  - &one {id: S1, tasks: [a]}\n  - *one\n";
    expect(rewrite(shared, ["S1: a b"])).toContain("tasks: [a, b]");
  });
});

describe("Whatever a plan becomes", () => {
  const plans = fc
    .record({
      order: fc.shuffledSubarray([0, 1, 2, 3, 4, 5], { minLength: 6 }),
      cuts: fc.array(fc.nat(5), { maxLength: 4 }),
    })
    .map(({ order, cuts }) => {
      const ends = [...new Set([...cuts, 5])].sort();
      return ends.map((end, at) => {
        const tasks = order.slice(at === 0 ? 0 : ends[at - 1]! + 1, end + 1);
        return `S${at + 1}: ${tasks.map((task) => line.tasks[task]!.id).join(" ")}`;
      });
    });

  it("the file reads back as that plan, keeps its comments, and becomes the same from any start", () => {
    fc.assert(
      fc.property(plans, plans, (first, second) => {
        const one = rewrite(AGREED, first);
        const two = rewrite(one, second);
        for (const [text, rows] of [
          [one, first],
          [two, second],
        ] as const) {
          const { plan, findings } = readPlan("p.yaml", text, line);
          expect(findings).toEqual([]);
          expect(plan).toEqual(planFrom(line, [...rows]));
          expect(rewrite(text, [...rows])).toBe(text);
          for (const comment of ["# Agreed on Monday.", "# beside this file", "# the frame zone", "# bye"])
            expect(text).toContain(comment);
        }
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});
