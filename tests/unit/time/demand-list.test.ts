import { describe, expect, it } from "vitest";
import { namesSeveral, readDemandList } from "../../../src/time/demand-list.js";
import { toNumber } from "../../../src/time/ratio.js";

function numbersOf(text: string) {
  const list = readDemandList(text, "day");
  if (!list.ok) throw new Error(list.problem);
  return list.value.map(({ units, period }) => `${toNumber(units)} ${period}`);
}

const problemOf = (text: string, period: "day" | null = "day") => {
  const list = readDemandList(text, period);
  return list.ok ? null : list.problem;
};

describe("A list of demands", () => {
  it("has numbers with commas between them, in the period of the file or in one of its own", () => {
    expect(numbersOf("140,165,190")).toEqual(["140 day", "165 day", "190 day"]);
    expect(numbersOf(" 190 , 140.5 per week")).toEqual(["190 week", "140.5 week"]);
    expect(numbersOf("140 per shift, 165 per shift")).toEqual(["140 shift", "165 shift"]);
  });

  it("may be a range", () => {
    expect(numbersOf("140..190/25 per week")).toEqual(["140 week", "165 week", "190 week"]);
  });

  it("is told from one demand that is badly written", () => {
    expect(
      ["140,165", "90,110", "165,140 per day", "140, 165 per day", "1, 400", "1,2,3", "140..190/25"].map(
        namesSeveral,
      ),
    ).toEqual(Array(7).fill(true));
    // Thousands, a decimal comma, no number at all.
    expect(["1,400 per day", "9615,38 per week", "17,5", "a,b", "140 per day", ""].map(namesSeveral)).toEqual(
      Array(6).fill(false),
    );
  });

  it("is refused with what is wrong", () => {
    expect(problemOf("140, 165", null)).toMatch(/^"140, 165" is no list of demands: .*needs a period/u);
    expect(problemOf("140, 165, 140")).toBe('"140, 165, 140" is no list of demands: 140 is there twice');
    expect(problemOf("140 per day, 165 per week")).toMatch(/all of them are per the same period/u);
    expect(problemOf("140,, 165")).toMatch(/a demand is missing between two commas/u);
    expect(problemOf("140, O65")).toMatch(/"O65 per day" is not a demand/u);
    expect(problemOf("140..165/0")).toBe(
      '"140..165/0" is not a range of demands: a step above 0 is expected; write 140..165/3',
    );
    expect(problemOf("140..140/5")).toMatch(/it is one demand/u);
    expect(problemOf("1..21/1")).toMatch(/it has 21 demands, and 20 are the most/u);
  });
});
