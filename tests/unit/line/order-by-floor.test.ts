import { describe, expect, it } from "vitest";
import { withFloorOrder } from "../../../src/line/order-by-floor.js";
import { readLine } from "../../../src/line/read-line.js";
import { visitsOfLine } from "../../../src/line/visits.js";
import { ONE, type Ratio, ratio } from "../../../src/time/ratio.js";

/** Units are soldered, tested and labelled; a fifth of the solderings is scrapped, and a fifth of the units tested comes back. */
const boards = (ofTest: string, ofLabel: string, floor = "[{id: S1}, {id: S2}, {id: S3}]") => {
  const { line, findings } = readLine(
    "line.yaml",
    [
      "line: boards",
      "unit: s",
      `stations: ${floor}`,
      "tasks:",
      "  solder: {time: 50, test: {scrap: 20 %}}",
      `  power-test: {time: 20, after: solder${ofTest}, test: {fail: 20 %, repair: 60, return-to: solder}}`,
      `  label: {time: 78, after: solder${ofLabel}}`,
      "",
    ].join("\n"),
  );
  const taken = findings.filter(({ rule }) => rule === "scrap-order").map(({ message }) => message);
  const label = line!.tasks.findIndex(({ id }) => id === "label");
  expect(visitsOfLine(line!).visits[label]).toEqual(line!.tasks[label]!.visits);
  return { visits: line!.tasks[label]!.visits, taken };
};

const once: readonly Ratio[] = [ONE];
/** Of 0.8 units, 0.2 are sent back, 0.16 of those tested again, and so on: 0.8 x 0.8 / (1 - 0.16) = 16/21 good units for 0.8 labels. */
const onLostUnits: readonly Ratio[] = [ratio(21, 20)];

describe("work behind a test that sends back units of which some are scrapped on the way", () => {
  it.each([
    [
      "by the last station of one and the first of the other",
      ", not-after: S2",
      ", not-before: S3",
      undefined,
    ],
    ["by stations that they are fixed to", ", station: [S1, S2]", ", station: S3", undefined],
    [
      "by zones",
      ", zone: test",
      ", zone: pack",
      "[{id: S1, zone: test}, {id: S2, zone: test}, {id: S3, zone: pack}]",
    ],
  ])("is done on good units alone where the floor puts it there %s", (_, ofTest, ofLabel, floor) => {
    expect(boards(ofTest, ofLabel, floor)).toEqual({ visits: once, taken: [] });
  });

  it.each([
    ["one of them may stand anywhere", "", ", not-before: S3"],
    ["both may share a station", ", not-after: S3", ", not-before: S3"],
  ])("is taken to be done before it, with a warning, where %s", (_, ofTest, ofLabel) => {
    const { visits, taken } = boards(ofTest, ofLabel);
    expect(visits).toEqual(onLostUnits);
    expect(taken).toHaveLength(1);
    expect(taken[0]).toContain("task power-test, test:");
    expect(taken[0]).toContain("taken as done before, on scrapped units too: label");
  });

  it("is done after it without a word where an arrow says so", () => {
    const { line, findings } = readLine(
      "line.yaml",
      "line: x\nunit: s\ntasks:\n  a: {time: 50, test: {scrap: 20 %}}\n  b: {time: 20, after: a, test: {fail: 20 %, repair: 60, return-to: a}}\n  c: {time: 78, after: b}\n",
    );
    expect(line!.tasks[2]!.visits).toEqual(once);
    expect(findings.filter(({ rule }) => rule === "scrap-order")).toEqual([]);
  });
});

describe("the order that a floor adds", () => {
  const free = { stations: null, notBefore: null, notAfter: null, zone: null };

  it("goes along arrows: what waits for the last station stands behind an early test, too", () => {
    const tasks = [{ ...free, notAfter: 0 }, { ...free, notBefore: 1 }, free];
    expect(withFloorOrder([[], [], [1]], [true, false, false], tasks, [])).toEqual([[], [0], [0, 1]]);
  });

  it("is none where it would go round with the arrows, as no plan keeps both", () => {
    const before = [[1], []];
    const tasks = [
      { ...free, notAfter: 0 },
      { ...free, notBefore: 1 },
    ];
    expect(withFloorOrder(before, [true, false], tasks, [])).toBe(before);
  });
});
