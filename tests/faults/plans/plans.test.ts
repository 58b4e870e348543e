import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { formatFindings } from "../../../src/findings/format-findings.js";
import type { Line } from "../../../src/line/line.js";
import { readLine } from "../../../src/line/read-line.js";
import { readPlan } from "../../../src/plan/file/read-plan.js";

const folder = new URL("./", import.meta.url);
const textOf = (name: string) => readFileSync(new URL(name, folder), "utf8");
const lineOfFile = (name: string): Line => readLine(name, textOf(name)).line!;
const names = readdirSync(folder)
  .filter((name) => name.endsWith(".yaml") && !name.endsWith(".line.yaml"))
  .sort();

function tell(name: string): string {
  const line = lineOfFile(name.startsWith("wide-trike") ? "wide-trike.line.yaml" : "bike.line.yaml");
  const text = textOf(name);
  const { plan, findings } = readPlan(name, text, line);
  const what = plan === null ? "no plan" : "a plan with errors";
  return `${formatFindings(findings, new Map([[name, text]]), 100)}${what}\n`;
}

describe("A faulty plan file is told about word for word:", () => {
  it.each(names)("%s", (name) => {
    const told = tell(name);
    const expected = new URL(name.replace(/yaml$/, "out"), folder);
    if (process.env.UPDATE === "1") writeFileSync(expected, told);
    expect(told).toBe(readFileSync(expected, "utf8"));
    expect(told).toContain("[");
  });
});
