import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import type { Lifting } from "../../src/line/line.js";
import { type LiftFigures, liftFigures } from "../../src/line/parts/lifting.js";
import { type Ratio, ratio, toNumber, ZERO } from "../../src/time/ratio.js";
import { root } from "../readme/read-page.js";

type Table<Value> = { readonly of: Readonly<Record<string, Value>> };
type LiftTime = Lifting["lasts"];

/*
 * The revised NIOSH lifting equation, DHHS (NIOSH) 94-110, in shared/worked-examples.yaml. Load constant, horizontal, vertical and distance
 * factors: found in text. Asymmetry: seen in a table only, to two decimals. Frequency and coupling: seen in transcriptions only. The example
 * of the manual is from memory and re-run.
 */
const { lifting: published } = parse(readFileSync(`${root}shared/worked-examples.yaml`, "utf8")) as {
  readonly lifting: {
    readonly horizontal: Table<number>;
    readonly vertical: Table<number>;
    readonly distance: Table<number>;
    readonly asymmetry: Table<number>;
    readonly coupling: Table<readonly [number, number]>;
    readonly frequency: Table<readonly (number | readonly [number, number])[]>;
    readonly lift: {
      readonly reach: number;
      readonly from: number;
      readonly to: number;
      readonly turn: number;
      readonly "per-minute": number;
      readonly lasts: LiftTime;
      readonly grip: Lifting["grip"];
      readonly mass: number;
      readonly limit: number;
      readonly index: number;
      readonly "limit-by-reach": Readonly<Record<string, number>>;
    };
    readonly "press-stock": {
      readonly pounds: number;
      readonly inches: { readonly reach: number; readonly from: number; readonly to: number };
      readonly "limit-pounds": { readonly start: number; readonly end: number };
      readonly index: { readonly start: number; readonly end: number };
    };
  };
};

const exact = (value: number | string): Ratio => ratio(BigInt(Math.round(Number(value) * 10_000)), 10_000n);
const EASY: Lifting = {
  mass: ratio(10),
  reach: ratio(25),
  from: ratio(75),
  to: ratio(75),
  turn: ZERO,
  grip: "good",
  perMinute: null,
  lasts: "1 h",
};
const startOf = (lift: Partial<Lifting>, perMinute = "0.2"): LiftFigures =>
  liftFigures({ ...EASY, ...lift }, exact(perMinute))[0]!;

describe("The lifting equation", () => {
  it("has no factor below 1 for the easiest lift, which leaves the load constant of 23 kg", () => {
    expect(toNumber(startOf({}).limit)).toBe(23);
  });

  it.each(Object.entries(published.horizontal.of))("takes %s cm of reach times %d", (cm, factor) => {
    expect(toNumber(startOf({ reach: exact(cm) }).horizontal)).toBe(factor);
  });

  it.each(Object.entries(published.vertical.of))("takes hands at %s cm times %d", (cm, factor) => {
    expect(toNumber(startOf({ from: exact(cm) }).vertical)).toBe(factor);
  });

  it.each(Object.entries(published.distance.of))(
    "takes %s cm of travel times %d, up or down",
    (cm, factor) => {
      expect(toNumber(startOf({ from: ZERO, to: exact(cm) }).distance)).toBe(factor);
      expect(toNumber(startOf({ from: exact(cm), to: ZERO }).distance)).toBe(factor);
    },
  );

  it.each(Object.entries(published.asymmetry.of))(
    "takes a turn of %s degrees times %d, as a table has it",
    (deg, factor) => {
      expect(Math.abs(toNumber(startOf({ turn: exact(deg) }).asymmetry) - factor)).toBeLessThanOrEqual(
        0.0051,
      );
    },
  );

  it.each(Object.entries(published.coupling.of))(
    "takes a grip that is %s times %j, as seen in transcriptions",
    (grip, [low, high]) => {
      const of = (height: number) =>
        toNumber(startOf({ grip: grip as Lifting["grip"], from: exact(height) }).coupling);
      expect([of(74.9), of(75)]).toEqual([low, high]);
    },
  );

  it.each(Object.entries(published.frequency.of))(
    "takes %s lifts a minute times %j, as seen in transcriptions",
    (perMinute, cells) => {
      for (const [at, lasts] of (["1 h", "2 h", "8 h"] as const).entries()) {
        const of = (height: number) => toNumber(startOf({ lasts, from: exact(height) }, perMinute).frequency);
        expect([of(74.9), of(75)]).toEqual(
          [cells[at]].flat().length === 1 ? [cells[at], cells[at]] : cells[at],
        );
      }
    },
  );

  it("takes the frequency of the table that is next above, so no limit is too high", () => {
    const of = (perMinute: string) => toNumber(startOf({}, perMinute).frequency);
    expect([of("0.1"), of("0.21"), of("2.4"), of("3")]).toEqual([1, 0.97, 0.88, 0.88]);
  });

  it("has the limit and the index that were worked out elsewhere", () => {
    const { lift } = published;
    const given = {
      ...EASY,
      from: exact(lift.from),
      to: exact(lift.to),
      turn: exact(lift.turn),
      grip: lift.grip,
      lasts: lift.lasts,
      mass: exact(lift.mass),
    };
    const at = (reach: number | string) =>
      startOf({ ...given, reach: exact(reach) }, String(lift["per-minute"]));
    expect(toNumber(at(lift.reach).limit, 2)).toBe(lift.limit);
    expect(toNumber(at(lift.reach).index!, 2)).toBe(lift.index);
    for (const [reach, limit] of Object.entries(lift["limit-by-reach"]))
      expect(toNumber(at(reach).limit, 2)).toBe(limit);
  });

  it("has the limits of the manual's example within what its rounded constants in pounds and inches differ", () => {
    const { pounds, inches, index, ...stock } = published["press-stock"];
    const cm = (value: number) => exact(value * 2.54);
    const lift = {
      ...EASY,
      reach: cm(inches.reach),
      from: cm(inches.from),
      to: cm(inches.to),
      grip: "fair" as const,
      mass: exact(pounds * 0.4536),
    };
    for (const figures of liftFigures(lift, exact(0.2))) {
      const [limit, given] = [toNumber(figures.limit) / 0.45359237, stock["limit-pounds"][figures.at]];
      expect(Math.abs(limit / given - 1)).toBeLessThan(0.033);
      expect(Math.abs(toNumber(figures.index!) / index[figures.at] - 1)).toBeLessThan(0.034);
    }
  });

  it("gives no index where the lift is outside of what it covers", () => {
    expect([startOf({ reach: ratio(64) }).index, startOf({}, "16").index]).toEqual([null, null]);
  });
});
