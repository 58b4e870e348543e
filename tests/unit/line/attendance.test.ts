import { describe, expect, it } from "vitest";
import { ONE, ratio, ZERO } from "../../../src/time/ratio.js";
import { lineOf } from "../../tools/line-of.js";

const staffing = (...keys: string[]) => {
  const { attendance, relief } = lineOf(["unit: s", ...keys, "tasks: {a: 5}", ""].join("\n"));
  return { attendance, relief };
};

describe("Attendance and relief of a line file", () => {
  it("hire nobody beyond the people of the day where the file is silent", () => {
    expect(staffing()).toEqual({ attendance: ONE, relief: ZERO });
  });

  it("are shares in exact numbers, relief from 0 %", () => {
    expect(staffing("attendance: 92.5 %", "relief: 5 %")).toEqual({
      attendance: ratio(37, 40),
      relief: ratio(1, 20),
    });
    expect(staffing("attendance: 100 %", "relief: 0 %")).toEqual({ attendance: ONE, relief: ZERO });
  });
});
