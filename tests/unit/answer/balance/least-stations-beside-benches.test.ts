import { expect, it } from "vitest";
import { leastStations } from "../../../../src/answer/balance/least-stations.js";
import { planFrom } from "../../../tools/floor-line.js";
import { lineOf, paceOf } from "../../../tools/line-of.js";

const options = { nodes: 20_000, checkpoint: () => null };

/** The fewest stations of what a plan with these benches leaves on the line, at 60 s. */
function least(text: string, ...benches: string[]) {
  const line = lineOf(`line: x\nunit: s\n${text}`);
  const plan = { stations: [], benches: planFrom(line, benches).stations };
  return leastStations(line, paceOf(60), plan, options);
}

const TASKS = (jig: string) => `tasks:
  lace: {time: 30, equipment: jig}
  cut: {time: 40, ${jig}on-base: true}
  fit: {time: 40, ${jig}after: [lace, cut]}
`;

it("A bench keeps one of two jigs, so that two tasks of 40 s which need one find no plan at 60 s: the least is not known", async () => {
  const text = `equipment: {jig: 2}\n${TASKS("equipment: jig, ")}`;
  expect(await least(text)).toEqual(null);
  expect(await least(text.replace("jig: 2", "jig: 3"))).toEqual({ bound: 3, found: 3 });
  expect(await least(text, "B1: lace")).toEqual(null);
  expect(await least(text.replace("jig: 2", "jig: 3"), "B1: lace")).toEqual({ bound: 2, found: 2 });
});

it("A bench that needs the only jig leaves a line that needs none", async () => {
  expect(await least(`equipment: {jig: 1}\n${TASKS("")}`, "B1: lace")).toEqual({ bound: 2, found: 2 });
  expect(await least(`equipment: {jig: 1}\n${TASKS("equipment: jig, ")}`, "B1: lace")).toEqual(null);
});

it("Whoever stands at a bench is not on the line: with one of two people at the bench both brake tasks share a station", async () => {
  const text = `max-places: 1
people: {early-1: [brakes], early-2: [brakes, wheels]}
tasks:
  lace: {time: 30, skill: wheels}
  bleed: {time: 20, skill: brakes, on-base: true}
  seat: {time: 40, after: bleed}
  adjust: {time: 20, skill: brakes, after: bleed}
`;
  // 80 s of work at 60 s: two stations. bleed and adjust stand together, or two people with brakes are needed on the line.
  expect(await least(text, "B1: lace")).toEqual({ bound: 2, found: 2 });
  const apart = text.replace("time: 20, skill: brakes, after", "time: 50, skill: brakes, after");
  expect(await least(apart, "B1: lace")).toEqual(null);
  expect(await least(apart.replace("lace: {time: 30, skill: wheels}", "lace: 30"), "B1: lace")).toEqual({
    bound: 2,
    found: 2,
  });
});
