import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

const run = async (text: string, ...args: string[]) =>
  runLinepoise({
    args: ["balance", "line.yaml", ...args],
    files: { "line.yaml": `line: x\nunit: s\n${text}` },
  });

const balance = async (text: string, cycle = "60") => {
  const { stdout } = await run(text, "--cycle", cycle, "--proof");
  return stdout.replace(/\s+/gu, " ");
};

const json = async (text: string, cycle: string) => {
  const { stdout } = await run(text, "--cycle", cycle, "--json");
  return JSON.parse(stdout) as {
    outcome: string;
    stations: { tasks: string[]; seconds: number; crew: number; persons: number[][]; people: string[] }[];
  };
};

describe("one person with both skills", () => {
  const shared = "max-crew: 2\npeople: {Ben: [weld, wire], Cy: []}\n";
  const text = `${shared}tasks: {a: {time: 20, skill: weld}, b: {time: 20, skill: wire}}\n`;

  it("does both tasks one after the other, so that 20 s are proved to be too short and 40 s are enough", async () => {
    expect((await json(text, "20")).outcome).toBe("infeasible");
    expect((await json(text, "39.999999")).outcome).toBe("infeasible");
    expect(await json(text, "40")).toMatchObject({
      outcome: "proved",
      stations: [{ seconds: 40, crew: 1, people: ["Ben"] }],
    });
  });

  it("shares the unit with somebody who does what needs no skill", async () => {
    // 20 + 20 s of Ben; c beside them.
    const more = text.replace("tasks: {", "tasks: {c: 35, ");
    expect(await json(more, "40")).toMatchObject({ stations: [{ seconds: 40, crew: 2, people: ["Ben"] }] });
    expect((await json(more, "39")).outcome).toBe("infeasible");
  });
});

describe("two people with a skill each", () => {
  const people = "people: {Ann: [weld], Eve: [wire]}\ntogether: [[a, b, c]]\n";
  const tasks = "tasks: {a: {time: 20, skill: weld}, b: {time: 20, skill: wire}, c: {time: 20, people: 2}}\n";

  it("stand at one place for a task that takes both, and each does what needs their skill", async () => {
    expect(await json(people + tasks, "60")).toMatchObject({
      outcome: "proved",
      stations: [{ seconds: 60, crew: 2, people: ["Ann", "Eve"] }],
    });
    expect(await balance(people + tasks)).toContain("people for example Ann, Eve 2 at once c");
  });

  it("cannot do so without a task that brings the second of them", async () => {
    const alone = tasks.replace(", people: 2", "");
    expect(await balance(people + alone)).toContain(
      "- the people listed have these skills (Ann: weld; Eve: wire); at each place one person has all that its tasks need",
    );
  });

  it("share a unit where the place may have both: 20 s side by side, then 20 s together", async () => {
    const found = await json(`max-crew: 2\n${people}${tasks}`, "40");
    expect(found).toMatchObject({ outcome: "proved", stations: [{ seconds: 40, crew: 2 }] });
    expect(found.stations[0]!.people).toEqual(["Ann", "Eve"]);
  });

  it("stand at the sides where their tasks are", async () => {
    const sided = "together: [[a, b]]\npeople: {anna: [weld], bob: [test]}\n";
    const text = `${sided}tasks: {a: {time: 40, side: left, skill: weld}, b: {time: 40, side: right, skill: test}}\n`;
    expect(await balance(text, "40")).toContain("people for example anna at the left, bob at the right");
    expect(await balance(text.replace("right", "left"), "80")).toContain(
      "(anna: weld; bob: test); at each task one of its people has all its skills, and nobody is at two places",
    );
  });
});

it("Of two people at a task with a skill, one is named as such", async () => {
  const text = `people: {anna: [weld, test], bob: [weld]}
tasks: {a: {time: 40, people: 2, skill: weld}, b: {time: 50, after: a, skill: test}}
`;
  const words = await balance(text);
  expect(words).toContain("people for example bob; the other person needs no skill 2 at once a");
  expect(words).toContain("S2 skills test people for example anna");
  expect(words).not.toContain("anna; one of");
});
