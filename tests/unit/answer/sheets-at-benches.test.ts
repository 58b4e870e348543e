import { expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

/*
 * A bench of two stations that builds baskets for 40 % of the units: 30 + 20 + 25 + 10 s and 5 s to hand over, so stations of 50 s and of
 * 40 s for each basket. A unit of the line takes 40 % of that: 36 s.
 */
const LINE = `unit: s
demand: 450 per shift
calendar: {shifts: {day: {length: 7.5 h}}}
plan-to: 90 %
benches: {baskets: {tasks: [cut, weave, line-it, tag], stations: 2, share: 40 %, hand-over: 5 s, shifts: 1}}
tasks:
  frame: {time: 50, on-base: true, parts: {F: 1}}
  cut: {time: 30, parts: {W: 3}}
  weave: {time: 20, after: cut}
  line-it: {time: 25, after: weave, parts: {W: 1, L: 2}}
  tag: {time: 10, after: line-it}
  mount: {time: 40, after: [frame, tag]}
`;
const PLAN = `format: linepoise-plan/1
line: l.yaml
stations: [{id: S1, tasks: [frame]}, {id: S2, tasks: [mount]}]
benches: [{id: baskets, tasks: [cut, weave, line-it, tag]}]
`;
const answer = async (...args: string[]) =>
  JSON.parse(
    (await runLinepoise({ args: [...args, "--json"], files: { "l.yaml": LINE, "p.yaml": PLAN } })).stdout,
  );

it("Sheets of a bench are those of its stations, for a unit that carries the parts, and add up to what the plan has", async () => {
  const { benches } = await answer("show", "l.yaml", "p.yaml");
  const { sheets } = await answer("sheets", "l.yaml", "p.yaml", "--station", "baskets");
  type Told = {
    id: string;
    seconds: number;
    shareOfUnits: number;
    handOverSeconds: number;
    cyclesPerShift: number;
  };
  expect(
    sheets.map(({ id, seconds, shareOfUnits, handOverSeconds, cyclesPerShift }: Told) => [
      id,
      seconds,
      shareOfUnits,
      handOverSeconds,
      cyclesPerShift,
    ]),
  ).toEqual([
    ["baskets, station 1", 50, 0.4, 0, 180],
    ["baskets, station 2", 40, 0.4, 5, 180],
  ]);
  const sum = sheets.reduce((all: number, each: Told) => all + each.seconds * each.shareOfUnits, 0);
  expect(sum).toBeCloseTo(benches[0].secondsPerUnit, 6);
});

it("Parts of a bench are those of the share of the units, wherever its tasks are done", async () => {
  const files = {
    "l.yaml": LINE,
    "p.yaml": PLAN,
    "before.yaml":
      "format: linepoise-plan/1\nline: l.yaml\nstations: [{id: S1, tasks: [frame]}, {id: S2, tasks: [cut, weave, line-it, tag, mount]}]\n",
  };
  const { stdout } = await runLinepoise({
    args: ["parts", "l.yaml", "p.yaml", "--against", "before.yaml", "--json"],
    files,
  });
  const { places, against } = JSON.parse(stdout);
  const baskets = places.find(({ id }: { id: string }) => id === "baskets").parts;
  expect(baskets.map(({ part, quantity }: { part: string; quantity: number }) => [part, quantity])).toEqual([
    ["L", 360],
    ["W", 720],
  ]);
  expect(against.totalsAgree).toBe(true);
  expect(against.moved.map(({ part }: { part: string }) => part)).toEqual(["L", "W"]);
});

it.each([
  ["half the hours of the line, twice as often", 2, 1, 0.5],
  ["twice the hours of the line, half as often", 1, 2, 2],
])("A bench of %s takes its parts and comes round", async (_, ofLine, ofBench, hours) => {
  const shifts = ofLine === 2 ? "{day: {length: 8 h}, late: {length: 8 h}}" : "{day: {length: 8 h}}";
  /*
   * 480 units in a shift of the line, so 60 an hour, and 60 / hours at the bench: 8 h hold 480 / hours of them, a pack of 30 lasts 30 min x
   * hours, and 45 / hours pieces are used in 45 min.
   */
  const line = `unit: s
demand: 480 per shift
calendar: {shifts: ${shifts}}
part-list: {W: {pack: 30, replenish: 45 min, safety: 0 %}}
benches: {pre: {tasks: [cut], shifts: ${ofBench}}}
tasks:
  frame: {time: 50, on-base: true}
  cut: {time: 20, parts: {W: 1}, lift: 5 kg, lifting: {reach: 30 cm, from: 70 cm, to: 90 cm, grip: good}}
  mount: {time: 40, after: [frame, cut]}
`;
  const plan =
    "format: linepoise-plan/1\nline: l.yaml\nstations: [{id: S1, tasks: [frame]}, {id: S2, tasks: [mount]}]\nbenches: [{id: pre, tasks: [cut]}]\n";
  const told = async (command: string) =>
    JSON.parse(
      (
        await runLinepoise({
          args: [command, "l.yaml", "p.yaml", "--station", "pre", "--json"],
          files: { "l.yaml": line, "p.yaml": plan },
        })
      ).stdout,
    );
  const [sheet] = (await told("sheets")).sheets;
  expect([sheet.cyclesPerShift, sheet.lifts[0].liftsPerMinute]).toEqual([480 / hours, 1 / hours]);
  expect((await told("parts")).places[0].parts[0]).toMatchObject({
    packLastsSeconds: 1800 * hours,
    containers: Math.ceil(1.5 / hours),
  });
});
