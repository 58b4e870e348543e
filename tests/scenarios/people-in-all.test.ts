import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const LINE = "cargo-bike.line.yaml";
const example = new URL(`../../examples/${LINE}`, import.meta.url);
const files: Record<string, string> = { [LINE]: readFileSync(example, "utf8") };

async function run(...args: readonly string[]) {
  const {
    stdout,
    files: written,
    status,
  } = await runLinepoise({ args, files, terminal: 100, env: { NO_COLOR: "1" } });
  expect(status).toBe(0);
  return { stdout, written };
}

const answers = new Map<string, ReturnType<typeof run>>();

/** The answer of a command to the files of the start; each is asked for once. */
async function json(...args: readonly string[]) {
  const key = args.join(" ");
  const asked = answers.get(key) ?? run(...args, "--json");
  answers.set(key, asked);
  return JSON.parse((await asked).stdout);
}

/** The line has 12 people at its stations and one who repairs what the roller bench finds: 13 in all. */
describe("A line with 12 people at its stations and one for repairs", () => {
  const battery = ["seat-cells", "wire-pack", "close-battery"];

  it("has the same people in the JSON of every command", async () => {
    const balanced = await json("balance", LINE);
    const offLine = await json("off-line", LINE);
    const compared = await json("compare", LINE);
    const staffed = await json("staff", LINE, "--demand", "165..170/5");
    const { measures } = balanced;
    expect([measures.operators, measures.repairPeople, measures.peopleInAll]).toEqual([12, 1, 13]);
    const { linePeople, repairPeople, people } = offLine.before;
    expect([linePeople, repairPeople, people]).toEqual([12, 1, 13]);
    const [asItIs] = compared.options;
    expect([asItIs.plan.measures.peopleInAll, asItIs.figures.peoplePerShift]).toEqual([13, 13]);
    expect([staffed.rows[0].peopleOnLine, staffed.rows[0].people]).toEqual([12, 13]);
  });

  it("has the same people with its battery built at a bench: 9 at stations, 2 at the bench, 1 for repairs", async () => {
    const isBattery = ({ tasks }: { tasks: string[] }) => tasks.join() === battery.join();
    const flag = (await json("balance", LINE)).offLine.find(isBattery);
    expect([flag.peopleBefore, flag.peopleAfter]).toEqual([13, 12]);
    const block = (await json("off-line", LINE)).blocks.find(isBattery);
    const { linePeople, bench, repairPeople, people, leastPeople, freed } = block;
    expect([linePeople, bench.people, repairPeople, people, leastPeople, freed]).toEqual([
      9, 2, 1, 12, 12, 1,
    ]);
    const { options } = await json("compare", LINE, "as it is", "battery-off-line");
    const { plan, benches, figures } = options[1];
    expect([plan.measures.operators, benches[0].people, plan.measures.repairPeople]).toEqual([9, 2, 1]);
    expect(figures.peoplePerShift).toBe(12);
  });

  it("shows a person the same 13 before a plan is rebalanced without a move, and after it", async () => {
    const { written } = await run("balance", LINE, "--write", "today.plan.yaml");
    files["today.plan.yaml"] = written["today.plan.yaml"]!;
    const again = await json("rebalance", LINE, "--from", "today.plan.yaml");
    const [row] = again.tradeOffs;
    expect([row.people, row.peopleInAll, row.moves]).toEqual([12, 13, []]);
    expect([again.from.measures.peopleInAll, again.plan.measures.peopleInAll]).toEqual([13, 13]);
    const { stdout } = await run("rebalance", LINE, "--from", "today.plan.yaml");
    const split = /^ {2}people +13 +12 on the line \+ 1 repairer, at the same time$/gmu;
    expect(stdout.match(split)).toHaveLength(2);
    expect(stdout).toContain("\n  13 *        0        12  no fewer possible\n");
    for (const asked of [
      ["balance", LINE, "--proof"],
      ["off-line", LINE],
    ]) {
      expect((await run(...asked)).stdout.match(split)).toHaveLength(1);
    }
    expect((await run("balance", LINE)).stdout).toContain(" People: 12 on the line + 1 repairer.\n");
  });
});

describe("A line that only a bench makes possible", () => {
  it("names who repairs among the people in all, where no other figure tells of them", async () => {
    // At 60 s a station the block of 70 s fits none; at the bench it takes 2 places. 10 % of the tests fail: 0.1111 x 120 s a unit.
    files["long.yaml"] = [
      "unit: s",
      "tasks:",
      "  frame: {time: 50, on-base: true}",
      "  build: 70",
      "  test: {time: 45, after: [frame, build], test: {fail: 10 %, repair: 2 min, return-to: test}}",
      "",
    ].join("\n");
    const { stdout } = await run("off-line", "long.yaml", "--cycle", "60 s", "--blocks", "build");
    expect(stdout.replaceAll(/\s+/gu, " ")).toContain(
      "makes a balance possible: 2 stations and 5 people in all, 1 of them for repairs; one buffer stock",
    );
  });
});

describe("A test that goes to a bench with the task to which it sends back", () => {
  const wheels = [
    "unit: s",
    "demand: 450 per day",
    "calendar: {shifts: {early: {length: 7.5 h}}}",
    "tasks:",
    "  frame: {time: 30, on-base: true}",
    "  lace: 40",
    "  true: {time: 30, after: lace, test: {fail: 10 %, repair: 2 min, return-to: lace}}",
    "  fit: {time: 20, after: [frame, true]}",
    "  brake: {time: 35, after: fit}",
    "options: {wheels: {off-line: [[lace, true]]}}",
    "",
  ].join("\n");

  it("still has who repairs in the people of off-line and of both parts of a comparison", async () => {
    files["wheels.yaml"] = wheels;
    // 0.1111 repairs x 120 s = 13.3 s of 60 s: one person. At stations 30 + 20 and 35 s; at the bench 77.8 s: 2 places.
    const [block] = (await json("off-line", "wheels.yaml", "--blocks", "lace,true")).blocks;
    expect([block.linePeople, block.bench.people, block.repairPeople, block.people]).toEqual([2, 2, 1, 5]);
    const { options } = await json("compare", "wheels.yaml");
    const { plan, figures } = options[1];
    const { operators, repairPeople, peopleInAll } = plan.measures;
    expect([operators, repairPeople, peopleInAll]).toEqual([2, 1, 3]);
    expect(figures.peoplePerShift).toBe(5);
  });
});

describe("Parallel places for a task that is too long", () => {
  it("take as many people in all in off-line as in balance", async () => {
    // 100 s at 2 places, 45 s and 0.1111 x 120 s of repairs: 2 + 1 + 1 people.
    files["places.yaml"] = [
      "unit: s",
      "tasks:",
      "  weld: {time: 100, on-base: true}",
      "  test: {time: 45, after: weld, test: {fail: 10 %, repair: 2 min, return-to: test}}",
      "",
    ].join("\n");
    const args = ["places.yaml", "--cycle", "60 s", "--json"];
    const balanced = JSON.parse((await runLinepoise({ args: ["balance", ...args], files })).stdout);
    const offLine = JSON.parse((await runLinepoise({ args: ["off-line", ...args], files })).stdout);
    expect(balanced.offLine[0].peopleAfter).toBe(4);
    expect(offLine.withPlaces.people).toBe(4);
  });
});

describe("A plan with benches that is rebalanced", () => {
  it("says that the people of its benches are not counted", async () => {
    files["bike.yaml"] = [
      "unit: s",
      "tasks: {frame: {time: 30, on-base: true}, lace: 55, fit: {time: 20, after: [frame, lace]}, brake: {time: 35, after: fit}}",
      "",
    ].join("\n");
    files["bike.plan.yaml"] = [
      "format: linepoise-plan/1",
      "stations: [{id: S1, tasks: [frame, fit]}, {id: S2, tasks: [brake]}]",
      "benches: [{id: B1, tasks: [lace]}]",
      "",
    ].join("\n");
    const args = ["rebalance", "bike.yaml", "--from", "bike.plan.yaml", "--cycle", "60 s", "--json"];
    const { stdout, stderr } = await runLinepoise({ args, files });
    expect(stderr).toContain("the benches of today's plan stay as they are; their people are not counted\n");
    expect(JSON.parse(stdout).tradeOffs[0].peopleInAll).toBe(2);
  });
});

it("A bench that works one shift of two frees a person of the day, in balance as in off-line", async () => {
  const line = `line: Cargo bike
unit: s
demand: 900 per day
calendar: {shifts: {early: {length: 7.5 h}, late: {length: 7.5 h}}}
benches:
  wiring: {tasks: [wire], shifts: 1}
tasks:
  frame: {time: 50, on-base: true}
  wire: 28
  fit: {time: 50, after: [frame, wire]}
  brake: {time: 50, after: fit}
`;
  const ask = async (command: string) => {
    const { stdout } = await runLinepoise({
      args: [command, "line.yaml", "--json"],
      files: { "line.yaml": line },
    });
    return JSON.parse(stdout);
  };
  // At 60 s no two tasks share a station: 4 people in each of 2 shifts. 28 s of 30 s (half the hours): 3 in each and 1 at the bench.
  const [flag] = (await ask("balance")).offLine;
  const [block] = (await ask("off-line")).blocks;
  expect([flag.tasks, flag.freed]).toEqual([["wire"], 4 * 2 - (3 * 2 + 1)]);
  expect([block.tasks, block.freed]).toEqual([flag.tasks, flag.freed]);
  expect(flag.reason).toMatch(/^frees 1 person: 8 before, 7 after a day; /u);
});
