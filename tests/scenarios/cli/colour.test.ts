import { expect, test } from "vitest";
import { runProbe } from "./probe-command.js";

async function coloured(env: Record<string, string>, terminal?: number): Promise<boolean> {
  let colour: boolean | null = null;
  const run = { args: ["balance", "x"], env, ...(terminal === undefined ? {} : { terminal }) };
  await runProbe(run, async (context) => {
    colour = context.colour;
    return undefined;
  });
  return colour!;
}

test.each([
  [{}, false],
  [{ NO_COLOR: "1" }, false],
  [{ NO_COLOR: "" }, false],
  [{ FORCE_COLOR: "0" }, false],
  [{ FORCE_COLOR: "" }, false],
  [{ FORCE_COLOR: "1" }, true],
  [{ FORCE_COLOR: "1", TERM: "dumb" }, true],
  [{ FORCE_COLOR: "1", NO_COLOR: "1" }, false],
  [{ FORCE_COLOR: "1", NO_COLOR: "" }, true],
])("a pipe with %j has colours: %s", async (env, expected) => {
  expect(await coloured(env)).toBe(expected);
});

test.each([
  [{}, true],
  [{ TERM: "xterm-256color" }, true],
  [{ TERM: "dumb" }, false],
  [{ NO_COLOR: "1" }, false],
  [{ NO_COLOR: "" }, true],
  [{ FORCE_COLOR: "0" }, false],
  [{ FORCE_COLOR: "false" }, false],
  [{ FORCE_COLOR: "1", NO_COLOR: "1" }, false],
])("a terminal with %j has colours: %s", async (env, expected) => {
  expect(await coloured(env, 80)).toBe(expected);
});

test("reports take the width of the terminal or of COLUMNS within reason, and have no end in a pipe", async () => {
  const widths: number[] = [];
  const asks = (COLUMNS: string) => ({ env: { COLUMNS } });
  const runs = [
    { terminal: 80 },
    { terminal: 10 },
    { terminal: 300 },
    { terminal: 0 },
    asks("80"),
    asks("10"),
    asks(""),
  ];
  for (const run of runs) {
    await runProbe({ args: ["balance", "x"], ...run }, async (context) => {
      widths.push(context.width);
      return undefined;
    });
  }
  expect(widths).toEqual([80, 40, 200, 100, 80, 40, Number.POSITIVE_INFINITY]);
});

test("messages on a terminal are broken at the width that COLUMNS asks for, and in a pipe nowhere", async () => {
  const message = "error: this goes on and on with many short words until it is wider than fifty columns\n";
  const widest = async (run: { readonly terminal?: number; readonly env?: Record<string, string> }) => {
    const { stderr } = await runProbe({ args: ["balance", "x"], ...run }, async (context) => {
      context.note(message);
      return undefined;
    });
    return Math.max(...stderr.split("\n").map(({ length }) => length));
  };
  const COLUMNS = "50";
  expect(await widest({ terminal: 100, env: { COLUMNS } })).toBeLessThanOrEqual(50);
  expect(await widest({ terminal: 100 })).toBe(message.length - 1);
  expect(await widest({ env: { COLUMNS } })).toBe(message.length - 1);
});
