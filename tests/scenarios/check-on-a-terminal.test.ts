import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const files = {
  "l.yaml": "unit: s\ndemand: 60 per hour\ntasks: {frame: 40, box: {time: 25, after: frame}, test: 10}\n",
  "p.yaml": "format: linepoise-plan/1\nstations:\n  - {id: S1, tasks: [box, frame, lights]}\n",
};
const run = (terminal: number | undefined, ...more: string[]) =>
  runLinepoise({
    args: ["check", "l.yaml", "p.yaml", ...more],
    files,
    env: { NO_COLOR: "1" },
    ...(terminal === undefined ? {} : { terminal }),
  });
/** Without the breaks and the columns by which further lines are set in. */
const joined = (text: string) => text.replaceAll(/\s+/gu, " ");
const isMessage = (line: string) => /^p\.yaml/u.test(line);

describe("Findings of a check", () => {
  it.each([50, 80])("keep to %i columns on a terminal, every word in them", async (terminal) => {
    const [wrapped, piped] = [await run(terminal), await run(undefined)];
    expect(wrapped.status).toBe(1);
    expect(wrapped.stdout.split("\n").filter((line) => stringWidth(line) > terminal)).toEqual([]);
    expect(joined(wrapped.stdout)).toBe(joined(piped.stdout));
  });

  it("stand on one line each in a pipe", async () => {
    const { stdout } = await run(undefined);
    const messages = stdout.split("\n").filter(isMessage);
    expect(messages.slice(1).filter((line) => !/\[[a-z-]+\]$/u.test(line))).toEqual([]);
    expect(messages.some((line) => stringWidth(line) > 100)).toBe(true);
  });

  it("stay as machines read them on a terminal too", async () => {
    for (const format of ["json", "github", "junit"]) {
      expect((await run(50, "--format", format)).stdout).toBe(
        (await run(undefined, "--format", format)).stdout,
      );
    }
  });
});
