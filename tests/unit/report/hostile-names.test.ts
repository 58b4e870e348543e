import { describe, expect, it } from "vitest";
import { visibleText } from "../../../src/findings/visible-text.js";
import { readCsv } from "../../../src/table/read-csv.js";
import { type MarkupElement, readMarkup } from "../../tools/read-markup.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

/** What markup, spreadsheets, tables of Markdown, code fences or the direction of writing could trip over. */
const HOSTILE = [
  "<img src=x onerror=alert(1)>",
  "</title></style></script></svg><b>",
  `"'><svg onload=alert(1)>`,
  "=1+1",
  "@SUM(A1)",
  "]]>",
  "a|b||c",
  "`code` ``` ~~~",
  "~~~",
  "[link](javascript:alert(1))",
  "# 1. head",
  "a & b &lt; c",
];
const RIGHT_TO_LEFT = "a \u202eb\u202c \u200fc";
const quoted = (text: string) => JSON.stringify(text);

const tasks = HOSTILE.map((id, at) => {
  const name = at === 0 ? RIGHT_TO_LEFT : HOSTILE.at(-at)!;
  const after = at < 2 ? "" : `, after: [${quoted(HOSTILE[at - 2]!)}]`;
  const own = [
    `name: ${quoted(name)}, time: {${quoted("<i>one</i>")}: ${10 + at}, two: 12}, spread: ${at % 2}`,
    `parts: {${quoted(HOSTILE[(at + 1) % HOSTILE.length]!)}: 2}`,
    `caution: ${quoted(name)}, check: [${quoted(name)}], skill: ${quoted(id)}`,
    ...(at === 3 ? [`machine-time: 20, equipment: ${quoted("<rig|>")}`] : []),
  ];
  return `  ${quoted(id)}: {${own.join(", ")}${after}}`;
});
const stations = [0, 4, 8].map((from) => {
  const own = HOSTILE.slice(from, from + 4).map(quoted);
  return `  - {id: ${quoted(`S${from}<b>|`)}, tasks: [${own.join(", ")}]}`;
});
const files = {
  "a.line.yaml": [
    `line: ${quoted(RIGHT_TO_LEFT + HOSTILE[0]!)}`,
    "unit: s",
    "demand: 60 per hour",
    "calendar: {shifts: {day: {length: 8 h}}}",
    `models: {${quoted("<i>one</i>")}: 60 %, two: 40 %}`,
    `people: {${quoted("<u>P|1</u>")}: [${HOSTILE.map(quoted).join(", ")}]}`,
    `options: {${quoted("<s>off</s>|")}: {off-line: [[${quoted(HOSTILE[0]!)}]]}}`,
    "tasks:",
    ...tasks,
    "",
  ].join("\n"),
  "a.plan.yaml": `format: linepoise-plan/1\nline: a.line.yaml\nstations:\n${stations.join("\n")}\n`,
};
files["b.plan.yaml" as "a.plan.yaml"] = files["a.plan.yaml"].replace("S0<b>|", "S9 <i>`");

async function written(command: string): Promise<string> {
  const [name, ...options] = command.split(" ");
  const plan = name === "compare" || name === "staff" ? [] : ["a.plan.yaml"];
  const args = [name!, "a.line.yaml", ...plan, ...options];
  const { stdout, stderr, status } = await runLinepoise({ args, files });
  expect(status, stderr).toBeLessThan(2);
  // Nothing that acts on a terminal or turns the direction of writing round, in no format.
  for (const line of stdout.split(/\r?\n/u)) expect(line).toBe(visibleText(line));
  return stdout;
}

const elementsOf = (one: MarkupElement): MarkupElement[] => [one, ...one.children.flatMap(elementsOf)];
const HTML =
  "html head meta title style body main h1 h2 p strong section div ul li table thead tbody tr th td span pre dl dt dd aside script";
const SVG = "svg defs pattern marker g rect line path circle polyline text title";
const MADE = new Set(`${HTML} ${SVG}`.split(" "));

describe("Names that look like something else", () => {
  it.each([
    "report --against b.plan.yaml --options --nodes 20",
    "sheets",
    "chart --format svg",
    "chart --of order --against b.plan.yaml --format svg",
    "chart --of station --station S0<b>| --format svg",
    "compare --nodes 20 --format svg",
    "staff --demand 40..60/20 --nodes 20 --format svg",
  ])("are text and nothing else in the markup of %s", async (command) => {
    const markup = await written(command);
    const page = markup.startsWith("<?xml") ? markup.replace(/^<\?xml.*\n/u, "<!DOCTYPE html>\n") : markup;
    for (const { name: made, attributes } of elementsOf(readMarkup(page)).slice(1)) {
      expect(MADE, made).toContain(made);
      expect(Object.keys(attributes).filter((each) => /^on|^(?:src|href|style)$/u.test(each))).toEqual([]);
    }
  });

  it.each([
    "report --format markdown --against b.plan.yaml --options --nodes 20",
    "sheets --format markdown",
    "parts --format markdown",
    "compare --nodes 20 --format markdown",
  ])("are text and nothing else in the Markdown of %s", async (command) => {
    const text = await written(command);
    let fence: string | null = null;
    let cells = 0;
    for (const line of text.split("\n")) {
      const tildes = /^ {0,3}(~{3,})/u.exec(line)?.[1] ?? null;
      if (fence !== null) {
        // CommonMark 0.31, section 4.5: a block ends at a fence that is as long, with nothing behind it.
        if (/^ {0,3}~+ *$/u.test(line) && tildes !== null && tildes.length >= fence.length) fence = null;
        continue;
      }
      fence = tildes;
      if (fence !== null) continue;
      const plain = line.replaceAll(/\\.|^\*\*|\*\*$/gu, "");
      expect(plain).not.toMatch(/[<>`*[\]&]/u);
      const pipes = plain.split("|").length;
      if (!plain.startsWith("|")) cells = 0;
      else if (cells === 0) cells = pipes;
      if (cells > 0) expect(pipes, line).toBe(cells);
    }
    expect(fence).toBeNull();
  });

  it.each([
    ["report --format csv", 2],
    ["parts --format csv", 2],
    ["show --format csv", null],
    ["compare --nodes 20 --format csv", null],
  ])("are no formula in the CSV of %s, and are read back as they are", async (command, column) => {
    const csv = await written(command);
    const { table } = readCsv("a.csv", new TextEncoder().encode(csv), {});
    expect(csv).not.toMatch(/(?:^|,|")[=@]/mu);
    const rows = table!.rows.map((row) => row.map(({ text }) => text));
    if (column === null) return;
    for (const name of HOSTILE) expect(rows.map((row) => row[column])).toContain(name);
  });

  it.each(["chart", "chart --of order", "show", "parts", "report --json", "sheets --json"])(
    "are told as they are by %s",
    async (command) => {
      expect(await written(command)).toContain(command.includes("json") ? '"a|b||c"' : "a|b||c");
    },
  );
});
