import { expect, it } from "vitest";
import { runInShell, runLinepoise } from "../../tools/run-linepoise.js";

const OPTIONS =
  "options: {a: {demand: 180 per day}, b: {plan-to: 90 %}, c: {tables: 14}, d: {max-places: 2}}";

it("Options worked out on several threads give the bytes of one thread", async () => {
  const withoutOptions = "sed '/^options:/,/^ *$/d' examples/cargo-bike.line.yaml";
  const { stdout: demo } = await runInShell(withoutOptions);
  const stdin = `${demo}\n${OPTIONS}\n`;
  const options = ["compare", "-", "--nodes", "5000", "--json"];
  const alone = await runLinepoise({ args: options, stdin });
  const command = `(${withoutOptions}; echo; echo '${OPTIONS}')`;
  const beside = await runInShell(`${command} | $LINEPOISE ${options.join(" ")}`);
  expect([beside.status, beside.stderr]).toEqual([0, ""]);
  expect(beside.stdout).toBe(alone.stdout);
});
