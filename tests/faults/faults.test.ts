import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { formatFindings } from "../../src/findings/format-findings.js";
import { READING_RULES } from "../../src/line/read/reading-rules.js";
import { readLine } from "../../src/line/read-line.js";
import { LINE_RULES } from "../../src/line/rules/register.js";

const folder = new URL("./", import.meta.url);
const WIDTH = 100;

/** File names of the line files in a folder of this one, in the same order on every machine. */
function lineFiles(below: string): string[] {
  const names = readdirSync(new URL(below, folder)).filter((name) => name.endsWith(".yaml"));
  return names.sort((one, two) => (one < two ? -1 : 1));
}

const textOf = (name: string) => readFileSync(new URL(name, folder), "utf8");

function tell(name: string): string {
  const text = textOf(name);
  const { findings } = readLine(name, text);
  return formatFindings(findings, new Map([[name, text]]), WIDTH);
}

const FAULTY = lineFiles("./");

describe("A faulty line file is told about word for word:", () => {
  it.each(FAULTY)("%s", (name) => {
    const told = tell(name);
    const expected = new URL(name.replace(/yaml$/, "out"), folder);
    if (process.env.UPDATE === "1") writeFileSync(expected, told);
    expect(told).toBe(readFileSync(expected, "utf8"));
    expect(told).not.toBe("");
  });
});

describe("A sound line file gives no finding:", () => {
  it.each(lineFiles("./sound/"))("%s", (name) => {
    const { line, findings } = readLine(name, textOf(`sound/${name}`));
    expect(findings).toEqual([]);
    expect(line).not.toBeNull();
  });
});

describe("The faulty files together", () => {
  const found = new Set(
    FAULTY.flatMap((name) => readLine(name, textOf(name)).findings.map((each) => each.rule)),
  );
  const registered = [...READING_RULES, ...LINE_RULES].map((rule) => rule.name);

  it("show every registered rule, and no finding bears another name", () => {
    expect([...found].sort()).toEqual([...registered].sort());
  });

  it("never show a control character", () => {
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that none is printed is what is tested
    const controls = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/u;
    for (const name of FAULTY) expect(tell(name)).not.toMatch(controls);
  });
});

describe("A file with ten faults and more", () => {
  it("tells of all of them in one run, in the order of the file", () => {
    const name = "ten-faults-at-once.yaml";
    const { line, findings } = readLine(name, textOf(name));
    expect(line).toBeNull();
    expect(findings.map((each) => `${each.place?.line} ${each.rule}`)).toEqual([
      "2 unit",
      "3 demand",
      "4 unknown-key",
      "5 shift-length",
      "5 calendar-time",
      "6 share",
      "9 task-time",
      "9 loop",
      "9 quantity",
      "10 blank",
      "10 not-honoured-yet",
      "11 duplicate-id",
      "12 unknown-task",
    ]);
  });
});
