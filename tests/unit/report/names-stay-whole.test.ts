import { readFileSync } from "node:fs";
import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import { wrapText } from "../../../src/report/terminal/wrap-text.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

const LINE = `line: Cargo bike
unit: s
tasks:
  press-headset-cups-into-frame: {time: 62, on-base: true}
  torque-the-crank-bolts-left: {time: 58, after: press-headset-cups-into-frame}
`;

describe("A name that is longer than its column", () => {
  it("is broken behind its hyphens, underscores, slashes, dots and colons", () => {
    expect(wrapText("press-headset-cups", 12)).toEqual(["press-", "headset-cups"]);
    expect(wrapText("lace_wheels/front.left:a", 12)).toEqual(["lace_wheels/", "front.left:a"]);
  });

  it("is broken within a part that is itself too long, and nowhere else", () => {
    expect(wrapText("fit-thrustbearings", 8)).toEqual(["fit-thru", "stbearin", "gs"]);
    expect(wrapText("-5 to -10", 3)).toEqual(["-5", "to", "-10"]);
  });

  it("stands in a balance on 50 columns in parts that read on", async () => {
    const run = { args: ["balance", "line.yaml", "--cycle", "65"], files: { "line.yaml": LINE } };
    const { stdout } = await runLinepoise({ ...run, terminal: 50, env: { NO_COLOR: "1" } });
    const [, first = ""] = stdout.split("STATIONS\n");
    const cells = first
      .split("\n")
      .slice(0, 6)
      .map((row) => row.slice(11, 26).trim());
    expect(cells.join("\n")).toContain("press-headset-\ncups-into-frame");
  });
});

describe("A balance of a line with long names", () => {
  const files = {
    "line.yaml": `line: Cargo bike with long names
unit: s
demand: 30 per hour
stations: [{id: S1, zone: frame, equipment: hydraulic headset press}, {id: S2, zone: drive}, {id: S3}]
equipment: {hydraulic headset press: 1}
models: {city: 60 %, cargo: 40 %}
tasks:
  press-headset-cups-into-frame: {time: 62, equipment: hydraulic headset press, on-base: true, zone: frame}
  torque-the-crank-bolts-left: {time: {city: 50, cargo: 70}, after: press-headset-cups-into-frame}
  bond-battery-mounting-plate-to-frame: {time: 70, after: torque-the-crank-bolts-left, people: 2, lift: 20 kg}
  mount-battery: {time: 50, after: [{task: bond-battery-mounting-plate-to-frame, wait: 10 min}], every: 2}
  test-the-brakes-on-the-roller-bench: {time: 40, after: mount-battery, test: {fail: 5 %, repair: 6 min, return-to: mount-battery}}
`,
  };

  it.each([50, 60, 72, 100])("is no wider than a terminal of %i columns", async (terminal) => {
    const args = ["balance", "line.yaml", "--explain"];
    const { stdout, stderr } = await runLinepoise({ args, files, terminal, env: { NO_COLOR: "1" } });
    const rows = `${stdout}${stderr}`.split("\n");
    expect(rows.filter((row) => stringWidth(row) > terminal)).toEqual([]);
  });
});

describe("What is told on standard error", () => {
  const files = {
    "line.yaml": LINE.replace(
      "after: press-headset-cups-into-frame",
      "after: press-headset-cups-into-frames",
    ),
  };

  it("is broken between words on a terminal, its task ids whole, the source line below it cut around the place", async () => {
    const { stderr } = await runLinepoise({ args: ["balance", "line.yaml"], files, terminal: 50 });
    expect(stderr).toBe(
      [
        "line.yaml:5:50: task torque-the-crank-bolts-left,",
        "  after: no task is called",
        '  "press-headset-cups-into-frames"; nearest:',
        "  press-headset-cups-into-frame [unknown-task]",
        "  5 | …e: 58, after: press-headset-cups-into-fram…",
        "    |                ^^^^^^^^^^^^^^^^^^^^^^^^^^^^",
        "",
      ].join("\n"),
    );
  });

  it("is one line a finding in a pipe", async () => {
    const { stderr } = await runLinepoise({ args: ["balance", "line.yaml"], files });
    const [head = ""] = stderr.split("\n");
    expect(head).toBe(
      'line.yaml:5:50: task torque-the-crank-bolts-left, after: no task is called "press-headset-cups-into-frames"; nearest: press-headset-cups-into-frame [unknown-task]',
    );
  });

  it("is broken for wrong usage as well", async () => {
    const { stderr } = await runLinepoise({
      args: ["balance", "line.yaml", "--stations", "7"],
      files: { "line.yaml": LINE },
      terminal: 50,
    });
    expect(stderr).toBe("error: --stations 7: the line has 2 tasks; a\n  number from 1 to 2 is expected\n");
  });
});

it("A list of parts on 50 columns breaks none of its own words", async () => {
  const [line, plan] = ["packing.line.yaml", "packing.plan.yaml"];
  const files = Object.fromEntries(
    [line, plan].map((name) => [name, readFileSync(`examples/${name}`, "utf8")]),
  );
  const { stdout } = await runLinepoise({ args: ["parts", line, plan], files, terminal: 50 });
  expect(stdout).toContain(
    [
      "  CR-30  Crate with lid; quantity 92 (91.84);",
      "         packs 23 (22.96) of 4; a pack lasts",
      "         18 min; containers 4 (3.12); from Hall 2\n",
    ].join("\n"),
  );
});
