import { describe, expect, it } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { planOf } from "../../../src/plan/plan.js";
import { simulationWords } from "../../../src/report/words/simulate-words.js";
import { replicationsOf } from "../../../src/simulate/run-again-and-again.js";
import { simulateLine } from "../../../src/simulate/simulate-line.js";
import { ratio, toNumber } from "../../../src/time/ratio.js";
import { GIVEN, lineOf, runsOf } from "./simulated.js";

function withParts(list: string, delivery: string, task = "{time: 60, parts: {P1: 1}}", also = "") {
  const { line, findings } = readLine(
    "line.yaml",
    `unit: s\npart-list: {P1: {${list}}}\ndelivery: {${delivery}}\n${also}\ntasks: {fit: ${task}}\n`,
  );
  if (line === null) throw new Error(JSON.stringify(findings));
  return { line, plan: planOf([[0]]) };
}

const SECOND = 1_000_000;

describe("Containers of parts", () => {
  it("that come back in the stated time hold nobody, as many as that asks for stand beside the one in use", () => {
    // 15 min x 1 a minute / 10 in a container: 1.5, so 2 stand there; 20 pieces last longer than the 15 min that the third is away.
    const of = withParts("pack: 10", "replenish: 15 min, safety: 0 %");
    expect(runsOf(of, { hours: 4 })[0]).toMatchObject({ left: 240, partsWaited: [0] });
  });

  it("are back after the stated time, whenever the handler comes", () => {
    const of = withParts("pack: 10", "replenish: 15 min, safety: 0 %, every: 40 min");
    expect(runsOf(of, { hours: 4 })[0]).toMatchObject({ left: 240, partsWaited: [0] });
  });

  it("that wait for the visits of the handler hold a station until he comes", () => {
    const of = withParts("pack: 10", "every: 40 min");
    const [run] = runsOf(of, { hours: 4, warmUp: 2, lineCycle: 120 });
    /*
     * At 120 s a unit, 40 last for two of his intervals of 2,400 s: 4 containers stand beside the one in use. The line takes one in 600 s, and what
     * is empty by one visit is back at the next. From 4,800 s on four are there for units 51 to 90, which empty them at 5,340, 5,940, 6,540 and
     * 7,140 s: all are back at 9,600 s. The fifth, which units 41 to 50 emptied after the visit at 2,400 s, is back at 7,200 s for units 91 to 100.
     * Unit 101 waits from 7,800 to 9,600 s. Then four are there again: 50 units and 1,800 s of waiting in 4,800 s, three times in 4 h.
     */
    expect(run!.left).toBe(150);
    expect(run!.partsWaited).toEqual([5400 * SECOND]);
    expect(run!.stations[0]!.times).toMatchObject({ waiting: 5400 * SECOND, busy: 9000 * SECOND });
  });

  it("that the handler takes along and brings at the next visit last for two intervals", () => {
    // 20 units in two intervals of 10 min: 2 containers beside the one in use.
    const of = withParts("pack: 10", "every: 10 min");
    expect(runsOf(of, { hours: 5, warmUp: 1 })[0]).toMatchObject({ left: 300, partsWaited: [0] });
  });

  it("on their way are there for no place before they come", () => {
    const { line } = withParts("pack: 10", "replenish: 20 min, safety: 0 %", undefined, "max-places: 2");
    const plan = { stations: planOf([[0]]).stations.map((station) => ({ ...station, places: 2 })) };
    const [run] = runsOf({ line, plan }, { hours: 10, warmUp: 5, lineCycle: 90 });
    // Three containers; two places take the last two of ten pieces 240 s after the first two, and it is away for 1,200 s: 30 units in 1,440 s.
    expect(run!.left).toBe(750);
    // 75 units an hour are 4,500 s of work; of 2 x 3,600 s, 2,700 s are left to wait, in each of 10 h.
    expect(run!.partsWaited).toEqual([27_000 * SECOND]);
  });

  it("are opened one after another by a unit that needs several, and not at all by one that needs none", () => {
    // 25 pieces on every fifth unit, 5 a unit: 5 of them in 12 s: 50 containers in 20 min, always there.
    const task = "{time: 60, every: 5, parts: {P1: 25}}";
    const [run] = runsOf(withParts("pack: 10", "replenish: 20 min, safety: 0 %", task), {
      hours: 5,
      warmUp: 1,
    });
    // A task of 60 s on every fifth unit is one in 60 s of work: 300 of those and their 1,200 others.
    expect(run!.left).toBe(1500);
    expect(run!.partsWaited).toEqual([0]);
  });

  it("are not followed where nothing says how they come", () => {
    expect(runsOf(withParts("name: Bolt", "every: 10 min"), { hours: 1 })[0]!.partsWaited).toBeUndefined();
  });

  it("limit the line where they hold a station, and one more of them helps", async () => {
    const list = "part-list: {P1: {pack: 10}}\ndelivery: {every: 40 min}";
    const { line, plan } = lineOf([30, 60], list);
    const parts = [{ id: "P1", byModel: [1n] }];
    const tasks = line.tasks.map((task, at) => (at === 0 ? { ...task, parts } : task));
    const answer = await simulateLine({ ...line, tasks }, plan, {
      ...GIVEN,
      seed: 1,
      replications: 1,
      hours: 4 * 3600 * SECOND,
      warmUp: 2 * 3600 * SECOND,
      lineCycle: 120 * SECOND,
      confidence: ratio(95, 100),
      asksWhatHelps: true,
      goesOn: async () => true,
    });
    // As above 150 units in 4 h: the second station is busy 62.5 % of the time, the first 31.3 %, and waits for most of the rest.
    expect([answer!.bottleneck, toNumber(answer!.stations[1]!.shares.busy)]).toEqual(["S1", 0.625]);
    const [help] = answer!.whatHelps!.helps;
    expect(help).toMatchObject({ kind: "container", station: "S1", part: "P1", people: 0 });
    expect(help!.more.mean.num).toBeGreaterThan(0n);
    expect(simulationWords(answer!)).toContain("S1 limits the line. Units wait there for P1.");
  });

  it("hold a line that moves together, where many units that need them follow each other", () => {
    const { line, findings } = readLine(
      "line.yaml",
      `unit: s
pacing: indexing
models: {with: 50 %, without: 50 %}
part-list: {P1: {pack: 10, replenish: 20 min, safety: 0 %}}
tasks: {fit: {time: 60, parts: {P1: {with: 2, without: "-"}}}}
`,
    );
    expect(line, JSON.stringify(findings)).not.toBeNull();
    /*
     * One a minute on average: 2 containers stand beside the one in use. Of 20 units with 2 each the first 15 empty all three, the first one at 240 s,
     * which is back at 1,440 s. The 16th waits for it from 900 s on. At the end of the 20 without, all three are there again: 40 units in 49 min.
     */
    const models = Array.from({ length: 40 }, (_, at) => (at < 20 ? 0 : 1));
    const plan = planOf([[0]]);
    const length = { seed: 1, replications: 1, hours: 49 * 3600 * SECOND, warmUp: 0, lineCycle: null };
    const [run] = [...replicationsOf({ line: line!, plan, models, ...length })].filter(
      (each) => each !== null,
    );
    expect(run).toMatchObject({ left: 2400, partsWaited: [60 * 540 * SECOND] });
  });
});
