import { describe, expect, it, test } from "vitest";
import { answerOffLine, type OffLineOptions } from "../../../../src/answer/off-line/answer-off-line.js";
import { RANKS } from "../../../../src/answer/off-line/rank-order.js";
import type { Line } from "../../../../src/line/line.js";
import { blockWords } from "../../../../src/report/words/rated-words.js";
import { toNumber } from "../../../../src/time/ratio.js";
import { idsOf, lineOf, numbersOf, paceOf, shortLine } from "../../../tools/line-of.js";

const options: OffLineOptions = {
  ranks: RANKS,
  benches: 1,
  joinsAtSeveral: false,
  asked: null,
  nodes: 10_000,
  strictLimit: false,
  checkpoint: () => null,
};
const answer = (line: Line, limit: number, more: Partial<OffLineOptions> = {}) =>
  answerOffLine(line, paceOf(limit), null, { ...options, ...more });

describe("Lacing and truing at a bench at 60 s", () => {
  const line = shortLine(["frame! 30", "lace 40", "true 55 lace", "fit 20 frame true", "brake 35 fit"]);

  it("gains nobody: 4 and 4 people, at 75 % efficiency over all of them; two positions fewer, one buffer stock more", async () => {
    const found = await answer(line, 60);
    const { before, blocks, outcome } = found;
    expect([before.people, before.stations, toNumber(before.efficiency!)]).toEqual([4, 4, 0.75]);
    const [best] = blocks!;
    expect(idsOf(line, best!.bench.tasks)).toEqual(["lace", "true"]);
    expect([best!.bench.places, best!.plan!.stations, best!.plan!.people]).toEqual([2, 2, 4]);
    expect(toNumber(best!.plan!.efficiency!)).toBe(0.75);
    expect(blockWords(found, best!)).toBe(
      "no gain in people: 4 and 4; the line is 2 stations shorter; one buffer stock",
    );
    expect(outcome).toBe("proved");
  });

  it("is ranked behind what keeps less stock where that counts first", async () => {
    const dry = lineOf(
      "unit: s\ntasks: {frame: {time: 30, on-base: true}, glue: 40, p: 40, fit: {time: 20, after: [frame, p, {task: glue, wait: 5 min}]}}\n",
    );
    const first = async (ranks: OffLineOptions["ranks"]) =>
      idsOf(dry, (await answer(dry, 60, { ranks })).blocks![0]!.bench.tasks);
    expect(await first(["stations", "people", "stock"])).toEqual(["glue", "p"]);
    expect(await first(["stock", "people", "stations"])).toEqual(["p"]);
  });
});

describe("Time to take parts over", () => {
  it("is worked at the task where they join, and may cost the line a station", async () => {
    // frame 30 + fit 20 = 50 s at one station; 12 s to take over make 62 s.
    const line = lineOf(
      "unit: s\nbenches: {w: {tasks: lace, take-over: 12}}\ntasks: {frame: {time: 30, on-base: true}, lace: 40, fit: {time: 20, after: [frame, lace]}}\n",
    );
    const { stated } = await answer(line, 60);
    expect(stated![0]!.rated!.plan!.stations).toBe(2);
    expect((await answer({ ...line, benches: [] }, 60)).blocks![0]!.plan!.stations).toBe(1);
  });
});

test("A block whose equipment and zone are on the floor says what a bench then needs", async () => {
  const line = lineOf(
    "unit: s\nstations: [{id: S1, zone: frame, equipment: truing stand}, {id: S2, zone: end}]\ntasks: {frame: {time: 30, on-base: true}, true: {time: 40, equipment: truing stand, zone: frame}, fit: {time: 20, after: [frame, true]}}\n",
  );
  const { findings } = await answer(line, 60, { asked: [numbersOf(line, "true")] });
  expect(findings.filter(({ rule }) => rule === "bench-place").map(({ message }) => message)).toEqual([
    "this bench: true uses the truing stand, which stands at S1; it moves to the bench, or the bench has one of its own",
    "this bench: true belongs to zone frame, so the bench stands there",
  ]);
});

describe("Counted equipment", () => {
  const text = (count: number) =>
    `unit: s\nequipment: {press: ${count}}\ntasks: {frame: {time: 30, on-base: true, equipment: press}, lace: {time: 90, equipment: press}, fit: {time: 20, after: [frame, lace]}}\nmax-places: 2\n`;

  it("that the bench keeps is missing on the line", async () => {
    // The bench needs 2 presses for its 2 places, the frame another one.
    const [two, three] = [await answer(lineOf(text(2)), 60), await answer(lineOf(text(3)), 60)];
    expect(two.blocks!.map((block) => [block.plan!.people, blockWords(two, block)])).toEqual([
      [null, "what stays on the line cannot be balanced: no press is left for frame: benches keep 2 of 2"],
    ]);
    expect(three.blocks!.map(({ plan }) => plan!.people)).toEqual([3]);
  });

  it("that runs longer at the bench than its takt is needed twice there, whatever the people", async () => {
    // 8 s of loading + 55 s of running = 63 s, and a unit is due every 60 s: 2 presses, and as many places, as a part stands there as long.
    const machine = (count: number) =>
      lineOf(
        `unit: s\nequipment: {press: ${count}}\ntasks: {frame: {time: 30, on-base: true}, lace: {time: 8, equipment: press, machine-time: 55}, true: {time: 15, after: lace}, fit: {time: 20, after: [frame, true]}}\n`,
      );
    const [one, two] = [await answer(machine(1), 60), await answer(machine(2), 60)];
    expect(two.blocks![0]!.bench.machines.map(({ name, units }) => [name, units])).toEqual([["press", 2]]);
    expect([two.blocks![0]!.bench.places, two.blocks![0]!.plan!.people]).toEqual([2, 3]);
    expect(one.blocks!.map((block) => [block.plan!.people, blockWords(one, block)])[0]).toEqual([
      null,
      "what stays on the line cannot be balanced: benches need 2 x press, 1 exists",
    ]);
  });
});

describe("Blocks asked for", () => {
  const line = shortLine(["frame! 30", "p 40", "q 40", "fit 20 frame p", "cap 30 fit q"]);

  it("are rated alone and together where all can go", async () => {
    const asked = [numbersOf(line, "p"), numbersOf(line, "q")];
    const { together, blocks, sets, outcome } = await answer(line, 60, { asked });
    expect([together!.plan.people, together!.plan.stations]).toEqual([4, 2]);
    expect([blocks, sets, outcome]).toEqual([null, null, "proved"]);
  });

  it("make the answer a no where one cannot go", async () => {
    const asked = [numbersOf(line, "p"), numbersOf(line, "fit")];
    const { together, outcome } = await answer(line, 60, { asked });
    expect([together, outcome]).toEqual([null, "infeasible"]);
  });
});

describe("Blocks asked for that share tasks", () => {
  it("are told apart, with a warning that names them", async () => {
    const line = shortLine(["frame! 30", "p 40", "q 40 p", "fit 20 frame q"]);
    const asked = [numbersOf(line, "p"), numbersOf(line, "p", "q")];
    const { together, findings } = await answer(line, 60, { asked });
    expect(together).toBeNull();
    expect(
      findings.filter(({ rule }) => rule === "blocks-share-tasks").map(({ message }) => message),
    ).toEqual(["p is in several of these blocks, so they are told apart, not all of them together"]);
  });
});

describe("A bench of the file whose parts join at several tasks", () => {
  it("may be asked for by its tasks as well", async () => {
    const line = lineOf(
      "unit: s\nbenches: {parts: {tasks: [p, q]}}\ntasks: {frame: {time: 30, on-base: true}, p: 40, q: 40, fit: {time: 20, after: [frame, p]}, cap: {time: 30, after: [fit, q]}}\n",
    );
    const { asked } = await answer(line, 60, { asked: [numbersOf(line, "p", "q")] });
    expect(asked!.map(({ id, rated }) => [id, rated?.bench.joinsAt])).toEqual([
      ["parts", numbersOf(line, "cap", "fit")],
    ]);
  });
});

describe("A search that is stopped", () => {
  it("leaves the blocks bounded, and says so", async () => {
    const line = shortLine(["frame! 30", "lace 40", "true 55 lace", "fit 20 frame true", "brake 35 fit"]);
    const { blocks, findings, outcome } = await answer(line, 60, { checkpoint: () => "interrupted" });
    expect(blocks!.map(({ plan, least }) => [plan, least])).toEqual([
      [null, { people: 4, stations: 2 }],
      [null, { people: 4, stations: 3 }],
    ]);
    expect([outcome, findings.map(({ rule }) => rule)]).toEqual([
      "found",
      ["blocks-left-out", "sets-not-whole"],
    ]);
  });
});

describe("What cannot go", () => {
  const line = lineOf(
    "unit: s\nbenches: {b: {tasks: true}}\ntasks: {frame: {time: 30, on-base: true}, lace: 40, true: {time: 55, after: lace}, fit: {time: 20, after: [frame, true]}}\n",
  );
  const told = async (more: Partial<OffLineOptions>) =>
    (await answer(line, 60, more)).findings.map(({ severity, message, task }) => [severity, message, task]);

  it("is an error where it was asked for, and a warning where the file states such a bench", async () => {
    const words = "true needs lace, which is on the line (lace -> true)";
    expect(await told({ asked: [numbersOf(line, "true")] })).toEqual([["error", `b: ${words}`, "true"]]);
    expect(await told({})).toEqual([["warning", `b: ${words}`, "true"]]);
  });
});
