import { expect, it } from "vitest";
import type { KeepPace } from "../../../../src/line/line.js";
import { readLine } from "../../../../src/line/read-line.js";
import { normalScore } from "../../../../src/time/normal-share.js";
import { ratio } from "../../../../src/time/ratio.js";
import { floorLine } from "../../../tools/floor-line.js";
import { faultsOf } from "./faults-of.js";

const asked = (chance: number): KeepPace => ({
  chance: ratio(chance, 100),
  score: normalScore(ratio(chance, 100)),
});
const varies = (cv: number) => ({ variation: { shape: "normal" as const, cv: ratio(cv, 100) } });

// Deviations of 3 s and 4 s are 5 s together: 51.7757 + 1.6448536270 x 5 = 59.999968, and with 51.7758 it is above 60.
const line = (a: number, keepPace: KeepPace | null, own: KeepPace | null) => ({
  ...floorLine([`a ${a}`, "b 20", "c 0"], {
    tasks: {
      a: { variation: { shape: "normal", cv: ratio(3_000_000, Math.round(a * 1e6)) } },
      b: varies(20),
    },
    floor: [
      { id: "S1", keepPace: own },
      { id: "S2", keepPace },
    ],
  }),
  keepPace,
});

it("A station keeps the pace of 60 s with 95 % while mean + 1.6448536270 x deviation is no more", () => {
  expect(faultsOf(line(31.7757, asked(95), asked(95)), ["S1: a b", "S2: c"])).toEqual([]);
  expect(faultsOf(line(31.7758, asked(95), asked(95)), ["S1: a b", "S2: c"])).toEqual([
    "keep-pace: S1 takes 51.776 s on average, of a working time of 60 s: its times vary so much that it stays within that with a chance of less than 95 %",
  ]);
});

it("Each station of the floor has what is asked of it, and those behind the floor what the line asks", () => {
  const given = line(31.7758, asked(95), null);
  expect(faultsOf(given, ["S1: a b", "S2: c"])).toEqual([]);
  expect(faultsOf(given, ["S2: a b", "S3: c"])).toHaveLength(1);
  expect(faultsOf(given, ["S2: c", "S3: a b"])).toHaveLength(1);
  expect(faultsOf(line(31.7758, null, asked(99)), ["S2: c", "S3: a b"])).toEqual([]);
});

it("A station over its working time is told as that alone, and two places have twice the time", () => {
  const rules = faultsOf(line(41, asked(95), asked(95)), ["S1: a b", "S2: c"]).map(
    (each) => each.split(":")[0],
  );
  expect(rules).toEqual(["load"]);
  const doubled = { ...line(41, asked(95), asked(95)), maxPlaces: 2 };
  expect(faultsOf(doubled, ["S1 x2: a b", "S2: c"])).toEqual([]);
});

it("Each model that is built keeps the pace where times differ between models, however seldom it comes", () => {
  const [often, seldom] = ["two: 99 %, one: 1 %", "two: 100 %, one: 0 %"].map((shares) => {
    const text = [
      "unit: s",
      `models: {${shares}}`,
      "keep-pace: 95 %",
      "variation: {shape: normal, cv: 10 %}",
      "tasks: {a: {time: {one: 30, two: 40}}, b: {time: {one: 25, two: 13}, after: a}}",
    ];
    return readLine("line.yaml", `${text.join("\n")}\n`).line;
  });
  // Two: 53 + 1.645 x root(4^2 + 1.3^2) = 59.92; one: 55 + 1.645 x root(3^2 + 2.5^2) = 61.42.
  expect(faultsOf(often!, ["S1: a b"])).toEqual([
    "keep-pace: S1 takes 55 s on average for one, of a working time of 60 s: its times vary so much that it stays within that with a chance of less than 95 %",
  ]);
  expect(faultsOf(often!, ["S1: a", "S2: b"])).toEqual([]);
  expect(faultsOf(seldom!, ["S1: a b"])).toEqual([]);
});
