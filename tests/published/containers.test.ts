import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { root } from "../readme/read-page.js";
import { runLinepoise } from "../tools/run-linepoise.js";

interface ContainersExample {
  readonly author: string;
  readonly "demand-per-hour"?: number;
  readonly hours?: number;
  readonly "demand-per-day"?: number;
  readonly days?: number;
  readonly safety?: string;
  readonly "safety-days"?: number;
  readonly holds: number;
  readonly exact: number;
  readonly containers: number;
}

/*
 * Containers at the line (kanban), in shared/worked-examples.yaml with their sources: the formula found in text, the inputs from memory
 * of the named works. One unit takes one of the part, so the demand of the part is that of the line.
 */
const { containers } = parse(readFileSync(`${root}shared/worked-examples.yaml`, "utf8")) as {
  readonly containers: { readonly "hours-per-day": number; readonly cases: readonly ContainersExample[] };
};
const day = containers["hours-per-day"];

describe.each(containers.cases)("The containers of $author, $exact", (given) => {
  it("are as many as published", async () => {
    const demand =
      given["demand-per-hour"] === undefined
        ? `${given["demand-per-day"]} per day`
        : `${given["demand-per-hour"]} per hour`;
    const hours = given.hours ?? given.days! * day;
    const safety = given.safety ?? `${(100 * given["safety-days"]!) / given.days!} %`;
    const minutes = Math.round(hours * 60 * 1000) / 1000;
    const line = [
      "unit: s",
      `demand: ${demand}`,
      `calendar: {shifts: {day: {length: ${day} h}}}`,
      `part-list: {P: {pack: ${given.holds}, replenish: ${minutes} min, safety: ${safety}}}`,
      "tasks: {fit: {time: 1, parts: {P: 1}}}",
      "",
    ].join("\n");
    const plan = "format: linepoise-plan/1\nline: a.line.yaml\nstations: [{id: S1, tasks: [fit]}]\n";
    const files = { "a.line.yaml": line, "a.plan.yaml": plan };
    const { stdout, status } = await runLinepoise({
      args: ["parts", "a.line.yaml", "a.plan.yaml", "--json"],
      files,
    });
    const [part] = JSON.parse(stdout).places[0].parts;
    expect({ status, whole: part.containers, exact: part.containersExact }).toEqual({
      status: 0,
      whole: given.containers,
      exact: given.exact,
    });
  });
});
