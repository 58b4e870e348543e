import { describe, expect, it } from "vitest";
import { machinesNeeded } from "../../../../src/answer/staff/staff-machines.js";
import { peopleByWork, peopleHired } from "../../../../src/plan/figures/people.js";
import { toNumber } from "../../../../src/time/ratio.js";
import { decimal } from "../../../../src/time/show-values.js";
import { taktSum } from "../../../../src/time/takt.js";
import { lineOf, paceOf } from "../../../tools/line-of.js";

const lineWith = (...keys: string[]) => lineOf(["unit: s", ...keys, ""].join("\n"));

function byWorkAt(...keys: string[]) {
  const line = lineWith(...keys);
  const takt = taktSum({ ...line, demand: line.demand! });
  if (!takt.ok) throw new Error(takt.problem);
  const { exact, whole, lessWork } = peopleByWork(line, takt.value.pace);
  return [decimal(exact, 2), whole, lessWork === null ? null : toNumber(lessWork) / 1_000_000];
}

describe("People by work content alone", () => {
  it("are rounded up, with the work that one person fewer has less of", () => {
    // 102 s / 30 s = 3.4, so 4; three people have 90 s, 12 s less.
    const line = lineWith("tasks: {a: 30, b: 30, c: 30, d: 12}");
    const { exact, whole, lessWork } = peopleByWork(line, paceOf(30));
    expect([decimal(exact, 2), whole, lessWork]).toEqual(["3.4", 4, { num: 12_000_000n, den: 1n }]);
  });

  it("rise where planners keep a reserve: 1,300 s at 190 s with 100, 98, 95 and 85 %", () => {
    // 3,600 s x 19 / 360 units = 190 s; 1,300 / (190 x 0.98) = 6.98 and so on.
    const at = (planTo: string) =>
      byWorkAt("demand: 18.947368421 per hour", `plan-to: ${planTo}`, "tasks: {a: 1300}").slice(0, 2);
    expect(["100 %", "98 %", "95 %", "85 %"].map(at)).toEqual([
      ["6.84", 7],
      ["6.98", 7],
      ["7.2", 8],
      ["8.05", 9],
    ]);
  });

  it("count a task of two people twice, and nobody where there is no work", () => {
    expect(byWorkAt("demand: 60 per hour", "tasks: {a: {time: 45, people: 2}}")).toEqual(["1.5", 2, 30]);
    expect(byWorkAt("demand: 60 per hour", "tasks: {a: 0}")).toEqual(["0", 0, null]);
  });

  it("are those of the work where it fills them exactly", () => {
    // 120 s / 60 s = 2; one person has 60 s, 60 s less.
    expect(byWorkAt("demand: 60 per hour", "tasks: {a: 60, b: 60}")).toEqual(["2", 2, 60]);
  });
});

describe("People to hire", () => {
  it.each([
    // 20 x 1.00 / 0.95 = 21.05; 19 / 0.95 = 20 exactly; 20 x 1.05 / 0.95 = 22.1; 20 x 1.1 = 22 exactly.
    ["attendance: 95 %", 20, 22],
    ["attendance: 95 %", 19, 20],
    ["attendance: 95 %\nrelief: 5 %", 20, 23],
    ["relief: 10 %", 20, 22],
    ["line: Silent", 20, 20],
  ])("%s: %i people of the day take %i", (keys, perDay, hired) => {
    expect(peopleHired(lineWith(keys, "tasks: {a: 5}"), perDay)).toBe(hired);
  });

  it("are not known where the day is not", () => {
    expect(peopleHired(lineWith("tasks: {a: 5}"), null)).toBeNull();
  });
});

it("Machines are busy loading and running, for every unit that is started", () => {
  // (20 s + 40 s) x 30 / 0.98 units an hour / (3,600 s x 0.90) = 0.5669; 60 units: 1.1338.
  const at = (demand: string) => {
    const line = lineWith(
      `demand: ${demand}`,
      "uptime: 90 %",
      "yield: 98 %",
      "equipment: {press: 2, hoist: 1}",
      "tasks: {load: {time: 20, equipment: press, machine-time: 40}, lift: {time: 9, equipment: hoist}}",
    );
    const takt = taktSum({ ...line, demand: line.demand! });
    if (!takt.ok) throw new Error(takt.problem);
    return machinesNeeded(line, takt.value).map((each) => ({ ...each, exact: decimal(each.exact, 4) }));
  };
  expect([at("30 per hour"), at("60 per hour")]).toEqual([
    [{ equipment: "press", exact: "0.5669", units: 1, counted: 2 }],
    [{ equipment: "press", exact: "1.1338", units: 2, counted: 2 }],
  ]);
});
