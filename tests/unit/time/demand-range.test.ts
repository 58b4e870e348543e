import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { demandsOf, MOST_DEMANDS, readDemandRange } from "../../../src/time/demand-range.js";
import { compare, ratio, toNumber } from "../../../src/time/ratio.js";

function numbersOf(text: string) {
  const range = readDemandRange(text, "day");
  if (!range.ok) throw new Error(range.problem);
  return { demands: demandsOf(range.value).map((each) => toNumber(each)), period: range.value.period };
}

const problemOf = (text: string, period: "day" | null = "day") => {
  const range = readDemandRange(text, period);
  return range.ok ? null : range.problem;
};

describe("A range of demands", () => {
  it("goes up in equal steps, in the period of the file", () => {
    expect(numbersOf("120..240/20")).toEqual({
      demands: [120, 140, 160, 180, 200, 220, 240],
      period: "day",
    });
  });

  it("may say its own period and leave room around its marks", () => {
    expect(numbersOf(" 300 .. 450 / 50 per shift ")).toEqual({
      demands: [300, 350, 400, 450],
      period: "shift",
    });
  });

  it("ends at its end, however much of the last step is left", () => {
    expect(numbersOf("120..250/50").demands).toEqual([120, 170, 220, 250]);
    expect(numbersOf("120..125/50").demands).toEqual([120, 125]);
    expect(numbersOf("120..120/50").demands).toEqual([120]);
  });

  it("looks at whole units, at tenths where it has tenths", () => {
    const grain = (text: string) => {
      const range = readDemandRange(text, "hour");
      return range.ok ? range.value.grain : null;
    };
    expect([grain("120..240/20"), grain("22.5..30/0.25")]).toEqual([ratio(1), ratio(1, 100)]);
    expect(numbersOf("22.5..24/0.5").demands).toEqual([22.5, 23, 23.5, 24]);
  });

  it("has a thousand demands at most", () => {
    expect(numbersOf("1..1000/1").demands).toHaveLength(MOST_DEMANDS);
    expect(problemOf("1..1001/1")).toBe(
      '"1..1001/1" is not a range of demands: that is more than 1000 demands; write 1..1001/2 or a longer step',
    );
    expect(problemOf("1..1000.5/1")).toContain("more than 1000 demands");
  });
});

describe("What is no range is told with what is near:", () => {
  it.each([
    ["", "a range of demands is missing: write FROM..TO/STEP, such as 120..240/20 or 120..240/20 per day"],
    ["240..120/20", "it starts above its end; write 120..240/20"],
    ["120..240/0", "a step above 0 is expected; write 120..240/12"],
    ["0..240/20", "it starts at a demand of 0, which needs no line; write 20..240/20"],
    ["0..0/1", "demands above 0 are expected"],
    ["120..240", "it needs a step after a /; write 120..240/12"],
    ["240..120", "it needs a step after a /; write 120..240/12"],
    ["120-240/20", "two points go between FROM and TO, a / before STEP; write 120..240/20"],
    ["120...240/20 per day", "two points go between FROM and TO, a / before STEP; write 120..240/20 per day"],
    ["120:240:20", "two points go between FROM and TO, a / before STEP; write 120..240/20"],
    ["120 to 240 by 20", "two points go between FROM and TO, a / before STEP; write 120..240/20"],
    ["120", "it is one demand, not a range; write FROM..TO/STEP, such as 120..240/20 or 120..240/20 per day"],
    ["few..240/20", "write FROM..TO/STEP, such as 120..240/20 or 120..240/20 per day"],
    [
      "-5..240/20",
      '"-5": it must not be negative; write 5 if that is meant; write FROM..TO/STEP, such as 120..240/20 or 120..240/20 per day',
    ],
    [
      "1,000..2000/100",
      '"1,000": a comma may mean thousands or decimals; write 1000 or 1.000; write FROM..TO/STEP, such as 120..240/20 or 120..240/20 per day',
    ],
    ["120..240/20 per dya", '"120 per dya" is not a demand: write 120 per day'],
  ])("%s", (text, expected) => {
    expect(problemOf(text)).toBe(
      text === "" ? expected : `${JSON.stringify(text)} is not a range of demands: ${expected}`,
    );
  });

  it("a range without a period where the file has none either", () => {
    expect(problemOf("120..240/20", null)).toBe(
      '"120..240/20" is not a range of demands: it needs a period, as the line file has no demand; write 120..240/20 per day, or another period',
    );
  });
});

it("Every demand of a range lies in it, each above the one before", () => {
  const decimal = fc.tuple(fc.integer({ min: 1, max: 99_999 }), fc.integer({ min: 0, max: 2 }));
  const written = ([digits, decimals]: [number, number]) => (digits / 10 ** decimals).toFixed(decimals);
  fc.assert(
    fc.property(decimal, decimal, decimal, (one, other, each) => {
      const range = readDemandRange(`${written(one)}..${written(other)}/${written(each)}`, "week");
      if (!range.ok) return;
      const demands = demandsOf(range.value);
      expect(demands[0]).toEqual(range.value.from);
      expect(demands.at(-1)).toEqual(range.value.to);
      for (const [at, demand] of demands.entries()) {
        if (at > 0) expect(compare(demands[at - 1]!, demand)).toBeLessThan(0);
        expect((demand.num * range.value.grain.den) % demand.den).toBe(0n);
      }
    }),
    { seed: 7, numRuns: 300 },
  );
});

it("Any text at all is read or refused in words, never with a fault", () => {
  const pieces = [
    "120",
    "..",
    "/",
    "20",
    " ",
    "per",
    "day",
    ".",
    "-",
    "0",
    "½",
    "1/2",
    "e3",
    "to",
    "…",
    "\u0000",
    "٣",
  ];
  const mess = fc.array(fc.constantFrom(...pieces), { maxLength: 12 }).map((parts) => parts.join(""));
  fc.assert(
    fc.property(fc.oneof(mess, fc.string()), (text) => {
      const range = readDemandRange(text, "day");
      expect(range.ok ? demandsOf(range.value).length : range.problem.length).toBeGreaterThan(0);
    }),
    { seed: 11, numRuns: 2000 },
  );
});
