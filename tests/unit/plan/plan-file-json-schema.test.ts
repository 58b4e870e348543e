import { readFileSync, writeFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { z } from "zod";
import { lineFileJsonSchema } from "../../../src/line/line-file.js";
import { planFileJsonSchema } from "../../../src/plan/file/plan-file-schema.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

const committed = new URL("../../../shared/plan-file.schema.json", import.meta.url);

/** What an editor does: parse the file by YAML's own rules, with numbers, and check the result. */
function accepts(text: string): boolean {
  return z.fromJSONSchema(JSON.parse(planFileJsonSchema())).safeParse(parse(text)).success;
}

test("The committed JSON Schema of plan files is the one that is generated", () => {
  if (process.env.UPDATE === "1") writeFileSync(committed, planFileJsonSchema());
  expect(readFileSync(committed, "utf8")).toBe(planFileJsonSchema());
});

test("`schema plan` prints it, `schema` and `schema line` that of line files", async () => {
  const printed = async (...args: string[]) => (await runLinepoise({ args: ["schema", ...args] })).stdout;
  expect(await printed("plan")).toBe(planFileJsonSchema());
  expect(await printed()).toBe(lineFileJsonSchema());
  expect(await printed("line")).toBe(lineFileJsonSchema());
  expect(await runLinepoise({ args: ["schema", "plans"] })).toMatchObject({
    status: 2,
    stdout: "",
    stderr:
      "error: command-argument value 'plans' is invalid for argument 'kind'. line or plan is expected; nearest: plan.\n",
  });
});

const start = "format: linepoise-plan/1\n";

describe("The JSON Schema of plan files", () => {
  test("accepts what an editor's YAML parser makes of stations, benches and numbers as ids", () => {
    const text = `${start}line: bike.line.yaml
made-for: {line-cycle: 60 s, fingerprint: 1234567890123456}
stations: [{id: 1, places: 2, tasks: [7, load-frame], sides: {7: left}, persons: {7: 1, load-frame: [1, 2]}}, {tasks: []}]
benches: [{id: B1, tasks: [lace-wheel]}]`;
    expect(accepts(text)).toBe(true);
  });

  test.each([
    ["a map of stations", "stations: {S1: [a]}"],
    ["an unknown key", "stations: [{id: S1, tasks: [a], colour: blue}]"],
    ["a station without a list of tasks", "stations: [{id: S1}]"],
    ["a side that is none", "stations: [{id: S1, tasks: [a], sides: {a: top}}]"],
    ["persons in a map", "stations: [{id: S1, tasks: [a], persons: {a: {left: 1}}}]"],
    ["a plan without stations", "benches: []"],
  ])("refuses %s", (_, text) => {
    expect(accepts(start + text)).toBe(false);
  });
});
