import { describe, expect, it } from "vitest";
import { verifyPlan } from "../../../../src/plan/verify-plan.js";
import { type FloorTerms, floorLine, planFrom } from "../../../tools/floor-line.js";
import { paceOf } from "../../../tools/line-of.js";

const ROWS = ["frame 50", "fork 40 frame", "lace 30", "true 25 lace", "fit 45 fork true"];

/** Faults of a plan at 60 s. */
function faultsOf(stations: string[], benches: string[], terms: FloorTerms = {}, rows = ROWS): string[] {
  const line = floorLine(rows, terms);
  const plan = {
    ...planFrom(line, stations, { C2: 2 }),
    benches: planFrom(line, benches, { C2: 2 }).stations,
  };
  return verifyPlan(line, paceOf(60), plan, false).map(({ rule, message }) => `${rule}: ${message}`);
}

const ON_LINE = ["S1: frame", "S2: fork", "S3: fit"];

describe("A plan with benches", () => {
  it("holds when every task is at one station or one bench", () => {
    expect(faultsOf(ON_LINE, ["B1: lace true"])).toEqual([]);
    expect(faultsOf(ON_LINE, ["B1: lace", "B2: true"])).toEqual([]);
  });

  it("has no task twice, on the line and beside it", () => {
    expect(faultsOf(["S1: frame", "S2: fork", "S3: fit", "S4: true"], ["B1: lace true"])).toEqual([
      "task-once: task true is at S4 and B1",
      "precedence: true is in S4 but fit, which needs it, is in S3",
    ]);
  });

  it("needs nothing at a bench that is done on the line", () => {
    expect(faultsOf(["S1: frame", "S2: fork", "S3: lace"], ["B1: true", "B2: fit"])).toEqual([
      "bench: true is done at bench B1 and needs lace, which stands at S3 of the line",
      "bench: fit is done at bench B2 and needs fork, which stands at S2 of the line",
      "bench: fit is done at bench B2, and nothing waits for it",
    ]);
  });

  it("keeps the order of work, the load and the crew of each bench", () => {
    expect(
      faultsOf(ON_LINE, ["B1: true lace"], { tasks: { lace: { people: 2 } } }, [
        ...ROWS.filter((row) => !row.startsWith("lace")),
        "lace 40",
      ]),
    ).toEqual([
      "precedence: B1 lists true before lace, which true needs",
      "load: B1 holds 65 s, more than the working time of 60 s",
      "crew: B1 has a crew of 1; 2 is expected, as lace needs 2 people together",
    ]);
    expect(faultsOf(ON_LINE, ["C2 x2: lace true"], { tasks: { lace: { people: 2 } } })).toEqual([]);
  });

  it("keeps work on the base unit and work of certain stations on the line", () => {
    const terms: FloorTerms = {
      tasks: { lace: { onBase: true }, true: { stations: [1] } },
      floor: [{ id: "S1" }, { id: "S2" }, { id: "S3" }],
    };
    expect(faultsOf(ON_LINE, ["B1: lace true"], terms)).toEqual([
      "bench: lace works on the base unit; it is at bench B1",
      "fixed-station: true may stand at S2 only; it is at bench B1",
    ]);
  });

  it("keeps groups whole and tasks apart", () => {
    const terms: FloorTerms = { together: [["fit", "true"]], apart: [["lace", "true"]] };
    expect(faultsOf(ON_LINE, ["B1: lace true"], terms)).toEqual([
      "together: true at bench B1 and fit at S3 belong together, at one station",
      "apart: lace and true are kept apart, and share B1",
    ]);
  });

  it("shares equipment and people of the line", () => {
    const terms: FloorTerms = {
      tasks: {
        lace: { equipment: ["jig"], skills: ["wheels"] },
        fit: { equipment: ["jig"], skills: ["wheels"] },
      },
      equipment: { jig: 1 },
      people: [{ id: "Kim", skills: ["wheels"] }],
    };
    expect(faultsOf(ON_LINE, ["B1: lace true"], terms)).toEqual([
      "equipment: jig is needed at S3 and B1: 2 are needed, 1 exists",
      "skill: 2 places need a person each, S3 (wheels) and B1 (wheels); only Kim can take them",
    ]);
  });
});
