import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

const lineOf = (delivery: string) =>
  [
    "unit: s",
    "demand: 400 per shift",
    "calendar: {shifts: {day: {length: 8 h}}}",
    "limits: {shelf: {per: station, most: 1.8 m}}",
    "part-list: {a: {pack: 30}, b: {pack: 25}}",
    `delivery: {${delivery}, replenish: 90 min, safety: 20 %}`,
    "tasks:",
    "  one: {time: 20, parts: {a: 2}, uses: {shelf: 1.2 m}}",
    "  two: {time: 20, after: one, parts: {b: 1}, uses: {shelf: 0.8 m}}",
    "  three: {time: 20, after: two, parts: {a: 1}, uses: {shelf: 0.3 m}}",
    "",
  ].join("\n");
const planOf = (...stations: string[]) =>
  `format: linepoise-plan/1\nline: a.line.yaml\nstations: [${stations.map((tasks, at) => `{id: S${at + 1}, tasks: [${tasks}]}`).join(", ")}]\n`;

async function parts(delivery: string, ...options: string[]) {
  const { stdout, stderr, status } = await runLinepoise({
    args: ["parts", "a.line.yaml", "a.plan.yaml", "--json", ...options],
    files: {
      "a.line.yaml": lineOf(delivery),
      "a.plan.yaml": planOf("one, two", "three"),
      "b.plan.yaml": planOf("one", "two, three"),
    },
  });
  expect(status, stderr).toBe(0);
  return JSON.parse(stdout);
}

describe("The work of the material handler", () => {
  // 400 units take 800 a and 400 b at S1, 400 a at S2: 27 (26.67), 16 and 14 (13.33) packs, 57 in all, in 480 minutes.
  it.each([
    // 57 packs / 6 are 9.5 trips, more than the 8 of one an hour: 10 trips of 50 minutes are 500 of 480 minutes, so two people.
    ["every: 1 h, trip: 50 min, packs: 6", { trips: 10, tripsExact: 9.5, tripsBy: "packs", people: 2 }],
    // 57 / 8 = 7.125 trips, fewer than one an hour: 8 trips of 12 minutes are 96 of 480.
    ["every: 1 h, trip: 12 min, packs: 8", { trips: 8, tripsExact: 8, tripsBy: "interval", people: 1 }],
    // By the interval alone: 480 / 45 = 10.67.
    ["every: 45 min, trip: 12 min", { trips: 11, tripsExact: 10.666667, tripsBy: "interval", people: 1 }],
    ["packs: 6", { trips: 10, tripsExact: 9.5, tripsBy: "packs", people: null }],
  ])("is trips by packs or by the interval, and people by their time: %s", async (delivery, expected) => {
    const { handling } = await parts(delivery);
    expect(handling).toMatchObject({ packs: 57, ...expected });
  });

  it("keeps containers for the demand in the replenishment time and its safety, rounded up", async () => {
    const { places } = await parts("packs: 6");
    // a at S1: 800 / 480 a minute x 90 min x 1.2 / 30 = 6; b: 400 / 480 x 108 / 25 = 3.6; a at S2: half of 6.
    const containers = places.map((post: { parts: { containers: number; containersExact: number }[] }) =>
      post.parts.map((each) => [each.containers, each.containersExact]),
    );
    expect(containers).toEqual([
      [
        [6, 6],
        [4, 3.6],
      ],
      [[3, 3]],
    ]);
  });
});

describe("Shelf at a station", () => {
  it("that its parts need more of than it has is a finding, with figures", async () => {
    const { findings } = await parts("packs: 6");
    expect(findings).toMatchObject([{ rule: "limit", severity: "warning", station: "S1", task: null }]);
    expect(findings[0].message).toMatch(/^S1 takes 2 m of shelf, 0\.2 m more than the limit of 1\.8 m;/u);
  });
});

it("Totals of all parts are the same before and after a change of the plan", async () => {
  const { against, totals } = await parts("packs: 6", "--against", "b.plan.yaml");
  expect(against.totalsAgree).toBe(true);
  expect(against.moved.map(({ part }: { part: string }) => part)).toEqual(["b"]);
  expect(totals.map((each: { part: string; quantity: number }) => [each.part, each.quantity])).toEqual([
    ["a", 1200],
    ["b", 400],
  ]);
});
