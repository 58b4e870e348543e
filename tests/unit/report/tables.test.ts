import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import { formatTable } from "../../../src/report/terminal/table.js";
import { widthOf } from "../../../src/report/terminal/width-of.js";
import { wrapText } from "../../../src/report/terminal/wrap-text.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

describe("a table", () => {
  it("lines up wide, combining and joined characters by their columns", () => {
    const names = ["東京ライト", "e\u0301tau", "👩‍🔧", "⚡\ufe0f", "plain"];
    const rows = formatTable(
      [{ head: "name" }, { head: "time", align: "right" }],
      names.map((name) => [name, "12 s"]),
      80,
    )
      .trimEnd()
      .split("\n");
    expect(new Set(rows.map((row) => stringWidth(row))).size).toBe(1);
  });

  it("has no colour codes of its own and no space at the ends of lines", () => {
    const text = formatTable(
      [{ head: "a" }, { head: "b" }],
      [
        ["1", ""],
        ["22", "x"],
      ],
      40,
    );
    expect(text).toBe("  a   b\n  1\n  22  x\n");
  });

  it("wraps its one wide column and cuts nothing off, however narrow", () => {
    const text = formatTable(
      [{ head: "id" }, { head: "tasks", wraps: true }],
      [["S1", "press-headset, fit-fork"]],
      20,
    );
    expect(text).toBe("  id  tasks\n  S1  press-headset,\n      fit-fork\n");
  });
});

describe("a table that is too wide", () => {
  const columns = [
    { head: "station" },
    { head: "within limit", align: "right", breaks: true },
    { head: "its tightest task", wraps: true },
  ] as const;
  const rows = [["S2", "150 per day", "fit-motor (75 s): 7 s less"]];

  it("breaks columns that may be between words", () => {
    expect(formatTable(columns, rows, 36)).toBe(
      [
        "  station   within  its tightest",
        "             limit  task",
        "  S2       150 per  fit-motor",
        "               day  (75 s): 7 s less",
        "",
      ].join("\n"),
    );
  });

  it("stays as it is where there is room, and never breaks a word or a number from its unit", () => {
    expect(formatTable(columns, rows, 80).split("\n")[0]).toBe("  station  within limit  its tightest task");
    const times = formatTable(
      [{ head: "time", breaks: true }, { head: "" }],
      [["13 h 27 min", "press-headset"]],
      4,
    );
    expect(times).toBe("  time\n  13 h    press-headset\n  27 min\n");
  });
});

describe("a table of many rows", () => {
  it("has the same columns from the first row to the last", () => {
    const rows = Array.from({ length: 1_000 }, (_, at) => [
      `S${at + 1}`,
      at === 700 ? "東京" : "-",
      `${at} s`,
    ]);
    const text = formatTable([{ head: "id" }, { head: "name" }, { head: "time", align: "right" }], rows, 80);
    const lines = text.trimEnd().split("\n");
    expect(lines).toHaveLength(1_001);
    expect(new Set(lines.map((line) => stringWidth(line)))).toEqual(new Set([20]));
    expect(lines[701]).toBe("  S701   東京  700 s");
  });
});

describe("a table of a script with thousands of characters", () => {
  it("shows each of them in its two columns", () => {
    const rows = Array.from({ length: 130 }, (_, row) =>
      [0, 1].map((column) =>
        Array.from({ length: 50 }, (_each, at) =>
          String.fromCodePoint(0x4e00 + (row * 2 + column) * 50 + at),
        ).join(""),
      ),
    );
    const text = formatTable([{ head: "" }, { head: "" }], rows, 300);
    expect(text).toBe(rows.map((row) => `  ${row.join("  ")}\n`).join(""));
  });
});

describe("in a pipe", () => {
  const files = {
    "line.yaml":
      "line: x\nunit: s\ntasks: {lay-the-first-of-all-the-wires: 10, lay-the-second-of-all-the-wires: 10, fit-the-cover-over-all-of-them: 10, a: {time: 5, caution: mind the gap}}\n",
  };
  const report = async (env: Record<string, string>, terminal?: number) => {
    const args = ["balance", "line.yaml", "--cycle", "60 s"];
    const run = await runLinepoise({ args, files, env, ...(terminal === undefined ? {} : { terminal }) });
    return run.stdout;
  };
  const longest = (text: string) => Math.max(...text.split("\n").map((row) => stringWidth(row)));

  it("nothing is broken: tables have their full width, and a paragraph is a line", async () => {
    const text = await report({ COLUMNS: "" });
    expect(text).toMatch(
      /^ {2}S1 .* fit-the-cover-over-all-of-them, lay-the-first-of-all-the-wires, lay-the-second-of-all-the-wires, a .* 35 s/mu,
    );
    expect(text).toMatch(/^ {2}A balanced .*\.$/mu);
    expect(longest(text)).toBeGreaterThan(200);
  });

  it("COLUMNS asks for a width, as on a terminal of so many, and before what the terminal says", async () => {
    const text = await report({ COLUMNS: "72" });
    expect(longest(text)).toBeLessThanOrEqual(72);
    expect(await report({ NO_COLOR: "1" }, 72)).toBe(text);
    expect(await report({ NO_COLOR: "1", COLUMNS: "72" }, 120)).toBe(text);
  });

  it("COLUMNS that is no number of columns asks for nothing", async () => {
    const text = await report({ COLUMNS: "" });
    for (const asked of ["0", "-80", "wide", "8e1", "72.5"])
      expect(await report({ COLUMNS: asked })).toBe(text);
  });
});

describe("wrapping", () => {
  it("keeps a number with its unit, and words of any script whole", () => {
    expect(wrapText("takes 12 s of 60 s", 10)).toEqual(["takes 12 s", "of 60 s"]);
    expect(wrapText("takes 12 s or so", 8)).toEqual(["takes", "12 s or", "so"]);
    expect(wrapText("one  two three", 8)).toEqual(["one  two", "three"]);
    expect(wrapText("東京 ライト 👩‍🔧 कि", 9)).toEqual(["東京", "ライト 👩‍🔧", "कि"]);
    expect(wrapText("東", 1)).toEqual(["東"]);
  });

  it("fills each line as far as words fit, however many there are", () => {
    const words = Array.from(
      { length: 5_000 },
      (_, at) => "wörter".repeat((at * 7) % 3).slice(at % 5) || "x",
    );
    let [lines, line] = [[] as string[], ""];
    for (const word of words) {
      if (line !== "" && line.length + 1 + word.length > 30) [lines, line] = [[...lines, line], word];
      else line = line === "" ? word : `${line} ${word}`;
    }
    expect(wrapText(words.join(" "), 30)).toEqual([...lines, line]);
  });

  it("takes twenty thousand characters without a blank", () => {
    const lines = wrapText("e".repeat(20_000), 80);
    expect(lines).toHaveLength(250);
    expect(lines.join("")).toBe("e".repeat(20_000));
  });
});

describe("names from a file that carry control characters", () => {
  const file = 'line: "bike\\e[2J"\nunit: s\ntasks:\n  "x\\ty": {time: 5, caution: "mind\\r\\nthe gap"}\n';

  it("are shown, never sent to the terminal, in a balance and in a fault", async () => {
    const { stdout, stderr } = await runLinepoise({
      args: ["balance", "line.yaml", "--cycle", "60 s", "--explain"],
      files: { "line.yaml": file },
      terminal: 80,
      env: { NO_COLOR: "1" },
    });
    // biome-ignore lint/suspicious/noControlCharactersInRegex: their absence is what is checked
    expect(stdout + stderr).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f]/u);
    expect(stdout + stderr).toContain("␉");
  });
});

describe("the demo on a terminal", () => {
  it("adds nothing but colour to what a pipe gets, and nothing at all with NO_COLOR", async () => {
    const run = (terminal: number | undefined, env: Record<string, string>) =>
      runLinepoise({
        args: ["balance", "line.yaml", "--cycle", "60 s"],
        files: { "line.yaml": "line: x\nunit: s\ntasks: {a: 30, b: {time: 40, after: a}}\n" },
        env,
        ...(terminal === undefined ? {} : { terminal }),
      });
    const pipe = await run(undefined, {});
    const coloured = await run(100, {});
    const plain = await run(100, { NO_COLOR: "1" });
    // biome-ignore lint/suspicious/noControlCharactersInRegex: colour codes are what is taken out
    const withoutColour = coloured.stdout.replace(/\u001b\[\d+m/gu, "");
    expect(coloured.stdout).not.toBe(pipe.stdout);
    expect(withoutColour).toBe(pipe.stdout);
    expect(plain.stdout).toBe(pipe.stdout);
  });

  it("fits 60, 80 and 200 columns", async () => {
    for (const terminal of [60, 80, 200]) {
      const { stdout } = await runLinepoise({
        args: ["balance", "line.yaml", "--cycle", "60 s"],
        files: {
          "line.yaml": "line: x\nunit: s\ntasks: {lay-the-first: 30, lay-the-second: 20, fit-it-all: 40}\n",
        },
        terminal,
        env: { NO_COLOR: "1" },
      });
      expect(Math.max(...stdout.split("\n").map((row) => stringWidth(row)))).toBeLessThanOrEqual(terminal);
    }
  });
});

describe("a text of tens of thousands of characters is measured in no time", () => {
  it.each([
    ["wide ones", "世", 2],
    ["narrow ones of another script", "ж", 1],
    ["letters with a mark on each", "a\u0301", 1],
    ["joined ones between letters", "a👩‍🔧", 3],
  ])("%s", (_, each, columns) => {
    expect(widthOf(each.repeat(20_000))).toBe(columns * 20_000);
  });
});
