import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

/** Sixty tasks in four lanes, each at a station of its own today, where several fit one. */
const tasks = Array.from({ length: 60 }, (_, at) => {
  const after = at < 4 ? "" : `, after: [t${at - 4 + (at % 3)}]`;
  return `  t${at}: {time: ${21 + ((at * 17) % 40)}${after}}\n`;
});
const lineText = `line: Bike\nunit: s\ndemand: 24 per hour\ntasks:\n${tasks.join("")}`;
const planText = `format: linepoise-plan/1\nstations:\n${tasks
  .map((_, at) => `  - {id: S${at + 1}, tasks: [t${at}]}\n`)
  .join("")}`;
const files = { "line.yaml": lineText, "today.yaml": planText };
const words = ["rebalance", "line.yaml", "--from", "today.yaml", "--nodes", "2000", "--write", "new.yaml"];

/** The run with Ctrl-C at one of its looks at the clock, of which each comes with a question whether to go on; how many there were. */
async function pressedAt(look: number, args: readonly string[] = words) {
  let press = () => {};
  let looks = 0;
  const now = () => {
    if (++looks === look) press();
    return 0;
  };
  const ran = await runLinepoise({ args, files, now, onStart: (pressInterrupt) => (press = pressInterrupt) });
  return { ...ran, looks };
}

describe("Ctrl-C of a rebalance", () => {
  it("prints a plan whenever it comes, and neither steps nor slack after it", async () => {
    const whole = await pressedAt(0);
    expect(whole.status).toBe(0);
    expect(whole.stdout).toMatch(/^SLACK OF TODAY'S PLAN$/mu);
    expect(whole.stdout).toMatch(/^STEPS$/mu);
    const last = whole.looks;
    expect(last).toBeGreaterThan(20);
    const ks = [2, 3, 5, 8, 13, 32, last >> 2, last >> 1, last - 8].filter((k) => k < last);
    for (const k of new Set(ks)) {
      const { status, stdout, stderr, files: after } = await pressedAt(k);
      expect([k, status]).toEqual([k, 130]);
      expect(stdout).toMatch(/^STATIONS$/mu);
      expect(stdout).not.toMatch(/^SLACK/mu);
      expect(stderr).toContain("interrupted before it worked out");
      // An agreed plan is never replaced by one that was cut short.
      expect(after["new.yaml"]).toBeUndefined();
    }
  });

  it("prints the plan of a balance too", async () => {
    const args = ["balance", "line.yaml", "--nodes", "2000"];
    const { looks } = await pressedAt(0, args);
    for (const k of [2, 4, looks >> 1]) {
      const { status, stdout } = await pressedAt(k, args);
      expect([k, status]).toEqual([k, 130]);
      expect(stdout).toMatch(/^STATIONS$/mu);
    }
  });
});
