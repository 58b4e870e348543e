import { describe, expect, it } from "vitest";
import { answerOption, tablesOfOption } from "../../../../src/answer/compare/answer-option.js";
import { peoplePerShift } from "../../../../src/answer/compare/figures.js";
import { whereLinePays } from "../../../../src/answer/compare/where-line-pays.js";
import type { Line } from "../../../../src/line/line.js";
import { ratio } from "../../../../src/time/ratio.js";
import { taktSum } from "../../../../src/time/takt.js";
import { lineOf } from "../../../tools/line-of.js";
import { asked } from "./compared.js";

const goOn = async () => null;

const lineWith = (...more: string[]) =>
  lineOf(
    [
      "unit: s",
      "demand: 30 per shift",
      "calendar: {shifts: {a: {length: 1 h}}}",
      ...more,
      "tasks: {a: 30, b: {time: 40, after: a}, c: {time: 20, after: a}, d: {time: 35, after: [b, c]}}",
      "",
    ].join("\n"),
  );

/** The people of the line and of the tables at a demand, each by its own definition. */
async function peopleAt(line: Line, units: number, secondsPerUnit: number): Promise<[number | null, number]> {
  const demand = { units: ratio(units), period: "shift" } as const;
  const takt = taktSum({ ...line, demand });
  if (!takt.ok) throw new Error(takt.problem);
  const answer = await answerOption({ ...asked(line), pace: takt.value.pace, takt: takt.value }, goOn);
  return [peoplePerShift(answer), Math.ceil((units * secondsPerUnit) / 3600)];
}

describe("the demand from which a line pays", () => {
  it.each([8, 20, 50, 90])(
    "with %i s of walking at tables is the first at which its people are fewer, of every demand up to the most of the line",
    async (walking) => {
      const line = lineWith(`options: {t: {tables: {people: 3, walking: ${walking}}}}`);
      const tables = tablesOfOption(line, asked(line).pace, line.options[0]!.tables!);
      const pays = (await whereLinePays(tables, asked(line), goOn))!;
      const most = Math.floor(3600 / 40);
      const fewer: number[] = [];
      for (let units = 1; units <= most; units++) {
        const [onLine, atTables] = await peopleAt(line, units, 125 + walking);
        if (onLine! < atTables) fewer.push(units);
      }
      const others = Array.from({ length: most }, (_, at) => at + 1).filter(
        (units) => !fewer.includes(units),
      );
      const [first] = fewer;
      expect(pays.outcome).toBe("proved");
      expect(pays.most).toBe(most);
      expect(pays.first?.units).toBe(first);
      expect([pays.first!.onLine, pays.first!.atTables]).toEqual(await peopleAt(line, first!, 125 + walking));
      // Behind the last demand at which it does not pay, it pays up to the end.
      const always = Math.max(0, ...others) + 1;
      expect(pays.always).toBe(always > most ? null : always);
      expect(pays.last).toBe(always > most ? fewer.at(-1) : null);
    },
  );

  it("is none where tables need no more work than the line", async () => {
    const line = lineWith("options: {t: {tables: 3}}");
    const pays = await whereLinePays(
      tablesOfOption(line, asked(line).pace, line.options[0]!.tables!),
      asked(line),
      goOn,
    );
    expect(pays).toMatchObject({ first: null, always: null, most: 90 });
  });

  it("is looked for up to what the line can make with as many places as a station may have", async () => {
    // 3,600 s x 2 places / 40 s of b = 180 units.
    const line = lineWith("max-places: 2", "options: {t: {tables: 3}}");
    const pays = await whereLinePays(
      tablesOfOption(line, asked(line).pace, line.options[0]!.tables!),
      asked(line),
      goOn,
    );
    expect(pays).toMatchObject({ first: null, always: null, most: 180 });
  });

  it("is not asked where the number of stations is fixed", async () => {
    const line = lineWith("options: {t: {tables: 3}, fixed: {stations: 2}}");
    const tables = line.options.find(({ tables: each }) => each !== null)!.tables!;
    expect(
      await whereLinePays(tablesOfOption(line, asked(line).pace, tables), asked(line, "fixed"), goOn),
    ).toBeNull();
  });
});
