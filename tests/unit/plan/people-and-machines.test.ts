import { describe, expect, it } from "vitest";
import { busyMachines } from "../../../src/plan/figures/machines.js";
import { peopleInAll } from "../../../src/plan/figures/people.js";
import { ratio } from "../../../src/time/ratio.js";
import { floorLine, s } from "../../tools/floor-line.js";
import { lineOf, paceOf } from "../../tools/line-of.js";

describe("people of line and repair", () => {
  const twoShifts =
    "line: x\nunit: s\ncalendar: {shifts: {early: {length: 8 h}, late: {length: 8 h}}}\ntasks: {a: 1}\n";

  it("are 7 + 1 at a time and 16 per day in two shifts", () => {
    expect(peopleInAll(lineOf(twoShifts), { operators: 7, repairPeople: 1 })).toEqual({
      onLine: 7,
      repair: 1,
      atBenches: 0,
      atATime: 8,
      perDay: 16,
    });
  });

  it("are those of the line where nothing is repaired, and not known per day without a calendar", () => {
    const people = peopleInAll(lineOf("line: x\nunit: s\ntasks: {a: 1}\n"), {
      operators: 3,
      repairPeople: null,
    });
    expect([people.repair, people.atATime, people.perDay]).toEqual([0, 3, null]);
  });
});

describe("a machine loaded for 8 s", () => {
  const machines = (terms: Parameters<typeof floorLine>[1]) =>
    busyMachines(floorLine(["build 10", "test 8 build"], terms), paceOf(30), { tasks: [0, 1] });

  it("that runs 22 s is busy 30 s of 30 s: one keeps up", () => {
    const [tester] = machines({ tasks: { test: { machineTime: s(22), equipment: ["tester"] } } });
    expect(tester).toEqual({
      name: "tester",
      tasks: [{ task: 1, loading: ratio(s(8)), run: ratio(s(22)) }],
      busy: ratio(s(30)),
      needed: 1,
    });
  });

  it("that runs 25 s is busy 33 s: two are needed, with or without a name", () => {
    const named = machines({ tasks: { test: { machineTime: s(25), equipment: ["tester"] } } });
    const nameless = machines({ tasks: { test: { machineTime: s(25) } } });
    expect([...named, ...nameless].map(({ name, needed }) => [name, needed])).toEqual([
      ["tester", 2],
      [null, 2],
    ]);
  });

  it("adds up what two tasks do on it: 8 + 10 + 10 + 20 s need two", () => {
    const [tester, ...others] = machines({
      tasks: {
        build: { machineTime: s(10), equipment: ["tester"] },
        test: { machineTime: s(20), equipment: ["tester"] },
      },
    });
    expect(others).toEqual([]);
    expect([tester!.busy, tester!.needed]).toEqual([ratio(s(48)), 2]);
  });
});
