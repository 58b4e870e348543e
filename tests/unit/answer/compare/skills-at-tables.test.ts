import { describe, expect, it } from "vitest";
import { lineOf } from "../../../tools/line-of.js";
import { runLinepoise } from "../../../tools/run-linepoise.js";
import { compared } from "./compared.js";

const tablesWith = async (people: string, skills: readonly [string, string]) => {
  const tasks = `a: {time: 50${skills[0]}}, b: {time: 40${skills[1]}}, c: {time: 30}`;
  const line = lineOf(
    `line: x\nunit: s\ndemand: 100 per day\ncalendar: {shifts: {day: {length: 3 h}}}\npeople: {${people}}\ntasks: {${tasks}}\noptions: {tables: {tables: 2}}\n`,
  );
  const { options } = await compared(line);
  const { outcome, posts, findings } = options[1]!;
  const errors = findings.filter(({ severity }) => severity === "error");
  return { outcome, tables: posts.length, errors: errors.map(({ message }) => message) };
};

const BOTH = [", skill: weld", ", skill: wire"] as const;

// Whoever builds whole units does every task, so that somebody with all skills asked is needed at each table.
describe("two tables that build whole units", () => {
  it("need two people with every skill that the tasks ask for", async () => {
    expect(await tablesWith("Ann: [weld, wire], Bo: [weld], Cy: [wire]", BOTH)).toEqual({
      outcome: "infeasible",
      tables: 0,
      errors: [
        "the tables cannot be staffed: 2 tables need a person each with weld and wire, as each builds whole units; only Ann can",
      ],
    });
    const two = await tablesWith("Ann: [weld, wire], Bo: [weld, wire], Cy: []", BOTH);
    expect(two).toEqual({ outcome: "proved", tables: 1, errors: [] });
  });

  it("tell where nobody has every skill", async () => {
    const { errors } = await tablesWith("Ann: [weld], Bo: [wire]", BOTH);
    expect(errors).toEqual([
      "the tables cannot be staffed: 2 tables need a person each with weld and wire, as each builds whole units; nobody listed has that",
    ]);
  });

  it("are no more than people have every skill, where a line is set against as many as each demand needs", async () => {
    // 120 s of work and 60 s of walking a unit: 3 x 3,600 / 180 = 60 units a day a table, and two people weld and wire.
    const rows = (people: string) => [
      "unit: s",
      "demand: 100 per day",
      "calendar: {shifts: {day: {length: 3 h}}}",
      `people: {${people}}`,
      "tasks: {a: {time: 50, skill: weld}, b: {time: 40, skill: wire}, c: 30}",
      "options: {tables: {tables: {people: 2, walking: 60}}}",
      "",
    ];
    const paysWith = async (people: string) =>
      (await compared(lineOf(rows(people).join("\n")))).options[1]!.pays;
    const all = "[weld, wire]";
    expect(await paysWith(`Ann: ${all}, Bo: ${all}, Cy: []`)).toMatchObject({ most: 120, mostTables: 2 });
    expect(await paysWith(`Ann: ${all}, Bo: ${all}, Cy: ${all}, Di: ${all}`)).toMatchObject({
      most: 216,
      mostTables: null,
    });
  });

  it("are refused in a parts list as well", async () => {
    const line =
      "unit: s\ndemand: 9 per shift\ncalendar: {shifts: {day: {length: 3 h}}}\npeople: {Ann: [weld], Bo: []}\ntasks: {a: {time: 50, skill: weld, parts: {nut: 2}}}\noptions: {t: {tables: 2}}\n";
    const args = ["parts", "l.yaml", "--option", "t"];
    const { status, stderr } = await runLinepoise({ args, files: { "l.yaml": line } });
    expect([status, stderr]).toEqual([
      1,
      "l.yaml: the tables cannot be staffed: 2 tables need a person each with weld, as each builds whole units; only Ann can [no-plan]\n",
    ]);
  });

  it("are for anybody where no task asks for a skill", async () => {
    expect((await tablesWith("Ann: [], Bo: []", ["", ""])).outcome).toBe("proved");
  });
});
