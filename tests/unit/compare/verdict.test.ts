import { describe, expect, it } from "vitest";
import { lineOf } from "../../tools/line-of.js";
import { compared, WHEEL } from "./compared.js";

const verdictOf = async (options: string, names?: string[]) =>
  (await compared(lineOf(`${WHEEL}options: {${options}}\n`), names)).verdict;

describe("the verdict", () => {
  it("names what nobody is freed by, and what it costs all the same", async () => {
    expect(await verdictOf("wheels-off-line: {off-line: [[lace, true]]}")).toBe(
      "wheels-off-line frees nobody and takes 2 stations off the line, and costs 2 bench places and one stock.",
    );
  });

  it("tells the busiest shift from the day", async () => {
    expect(await verdictOf("long bench: {off-line: [wheels]}")).toBe(
      "long bench frees 1 person of 4 (3) in the busiest shift but nobody over the day and takes 2 stations off the line, and costs 1 bench place and one stock of 166 units.",
    );
  });

  it("measures against the first option, whichever it is", async () => {
    const options = "on two benches: {off-line: [[lace, true]]}, on two shifts: {off-line: [wheels]}";
    expect(await verdictOf(options, ["on two benches", "on two shifts"])).toBe(
      "on two shifts frees 1 person of 4 (3) in the busiest shift but nobody over the day and gives back 1 bench place, and costs 166 units more in stock.",
    );
  });

  it("says which demand an option is for, and what it lacks", async () => {
    expect(await verdictOf("busy: {demand: 480 per day}, three: {stations: 3}")).toBe(
      "busy, for 480 units a shift instead of 450, frees nobody; three frees 1 person of 4 (3) and takes 1 station off the line, and costs 65 of the 450 units wanted a shift.",
    );
  });

  it("tells of people who are freed over the day and needed in the shift", async () => {
    const line = WHEEL.replace("early: {length: 7.5 h}", "early: {length: 7.5 h}, late: {length: 7.5 h}");
    const longer = "long day: {calendar: {shifts: {early: {length: 7.5 h, overtime: 2 h}}}}";
    expect((await compared(lineOf(`${line}options: {${longer}}\n`))).verdict).toBe(
      "long day, for 450 units a shift instead of 225, frees 1 person over the day (3), and costs 1 person more (3), 1 more station and 2 h of overtime a day.",
    );
  });

  it("says why an option has no balance", async () => {
    expect(await verdictOf("fast: {demand: 600 per day}")).toBe(
      "fast has no balance (true takes 55 s, 122.2 % of the working time (45 s): no station can hold it).",
    );
  });
});
