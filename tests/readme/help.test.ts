import { readFileSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const committed = new URL("help.txt", import.meta.url);

/** The help of the program and of each command that it lists, 100 columns wide, each below the words that ask for it. */
async function allHelp(): Promise<string> {
  const helpOf = async (words: readonly string[]) => {
    const { stdout } = await runLinepoise({ args: [...words, "--help"] });
    return `$ linepoise ${[...words, "--help"].join(" ")}\n${stdout}`;
  };
  const whole = await helpOf([]);
  const names = whole
    .split("\nCommands:\n")[1]!
    .split("\n\n")[0]!
    .matchAll(/^ {2}([a-z-]+)/gm);
  const parts = [whole];
  for (const [, name] of names) parts.push(await helpOf([name!]));
  return parts.join("\n");
}

/** As committed, so that every change of the command line shows in its review; `UPDATE=1` rewrites it. */
test("the help of every command is the committed one", async () => {
  const text = await allHelp();
  if (process.env.UPDATE === "1") writeFileSync(committed, text);
  expect(text).toBe(readFileSync(committed, "utf8"));
  expect(text.match(/^\$ /gm)!.length).toBeGreaterThan(20);
});
