import { expect, it } from "vitest";
import { unseenCharacters } from "../../../src/findings/visible-text.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

/** What clears a screen, writes over a line, begins another one, and turns the direction of what is read. */
const RAW = "a\u001b[2J\r\n\u009b\u202eb";
const SEEN = "a␛[2J␍␊\\u{009b}\\u{202e}b";
const files = {
  "l.yaml": "unit: s\noptions: {o: {}}\ntasks: {a: 1}\n",
  "t.csv": "id,time (s)\na,1\n",
  "p.yaml": "format: linepoise-plan/1\nline: l.yaml\nstations: [{id: S1, tasks: [a]}]\n",
};

it.each([
  // Commands and options that do not exist.
  [[RAW], `unknown command '${SEEN}'`],
  [["balance", `--${RAW}`], `unknown option '--${SEEN}'`],
  [["check", "l.yaml", `-${RAW}`], `unknown option '-${SEEN}'`],
  [["import", `--unti=${RAW}`], `unknown option '--unti=${SEEN}'`],
  // Values that an option or an argument does not take.
  [["import", "t.csv", "--unit", `id=${RAW}`], `'id=${SEEN}' is invalid`],
  [["import", "t.csv", `--columns=${RAW}`], `'${SEEN}' is invalid`],
  [["balance", "l.yaml", "--stations", RAW], `'${SEEN}' is invalid`],
  [["balance", "l.yaml", "--method", RAW], `'${SEEN}' is invalid`],
  [["chart", "l.yaml", "p.yaml", "--format", RAW], `'${SEEN}' is invalid`],
  [["schema", RAW], `'${SEEN}' is invalid`],
  [["completion", RAW], `'${SEEN}' is invalid`],
  // What a command makes of its words.
  [["help", RAW], `"${SEEN}"`],
  [["balance", "l.yaml", "--cycle", RAW], `"${SEEN}" is not a time`],
  [["compare", "l.yaml", RAW], `"${SEEN}" is no option of l.yaml`],
  [["compare", "l.yaml", RAW, RAW], `"${SEEN}" is given twice`],
  [["show", RAW, "p.yaml"], `there is no file "${SEEN}"`],
  [["export", "l.yaml", "--out", `${RAW}.json`], `${SEEN}.json`],
])("%j is refused in words that a terminal does not act on", async (args, expected) => {
  const { status, stdout, stderr } = await runLinepoise({ args, files });
  expect([status, stdout]).toEqual([2, ""]);
  expect(stderr).toContain(expected);
  expect(stderr.split("\n").flatMap(unseenCharacters)).toEqual([]);
});

it("What is near stands in a line of its own, and what is typed does not", async () => {
  const { stderr } = await runLinepoise({ args: ["balance", "--cyc\nle"] });
  expect(stderr).toBe("error: unknown option '--cyc␊le'\n(Did you mean --cycle?)\n");
  const other = await runLinepoise({ args: ["balanse\n(Did you mean x?)"] });
  expect(other.stderr).toBe(
    "error: unknown command 'balanse␊(Did you mean x?)'\nlinepoise --help lists the commands.\n",
  );
});

it.each([
  ["new", RAW],
  ["export", "l.yaml", "--out", `${RAW}.csv`],
  ["import", "t.csv", "--out", `${RAW}.yaml`],
])("%s names the file %j that it wrote in words that a terminal does not act on", async (...args) => {
  const { status, stdout, stderr } = await runLinepoise({ args, files });
  expect(status).toBe(0);
  expect(stderr).toContain(`${SEEN}`);
  expect(`${stdout}${stderr}`.split("\n").flatMap(unseenCharacters)).toEqual([]);
});
