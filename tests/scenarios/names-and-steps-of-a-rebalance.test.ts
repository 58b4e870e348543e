import { expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const LINE =
  "unit: s\ndemand: 60 per hour\ntasks: {a: 30, b: {time: 26, after: a}, c: {time: 50, after: b}}\n";
const PLAN = [
  "format: linepoise-plan/1",
  "stations:",
  "  - {id: S1, tasks: [a, b]}",
  "  - {id: S2, tasks: [c]}",
].join("\n");

const rebalance = (plan: string, ...more: readonly string[]) =>
  runLinepoise({
    args: ["rebalance", "own.line.yaml", "--from", "today.plan.yaml", ...more],
    files: { "own.line.yaml": LINE, "today.plan.yaml": plan },
  });

it("A plan file is named after the one demand asked for, or that of the line file", async () => {
  const own = await rebalance(PLAN, "--write", "plan-{demand}.yaml");
  expect([own.status, Object.keys(own.files)]).toEqual([0, expect.arrayContaining(["plan-60.yaml"])]);
  const asked = await rebalance(PLAN, "--write", "plan-{demand}.yaml", "--demand", "62.5 per hour");
  expect([asked.status, Object.keys(asked.files)]).toEqual([0, expect.arrayContaining(["plan-62.5.yaml"])]);
  const cycle = await rebalance(PLAN, "--write", "plan-{demand}.yaml", "--cycle", "60 s");
  expect([cycle.status, cycle.stderr]).toEqual([
    2,
    "error: --write plan-{demand}.yaml: a given line cycle has no demand to name the file by\n",
  ]);
});

it("Days for the steps between several demands are asked for one change at a time", async () => {
  const { status, stderr } = await rebalance(PLAN, "--demand", "60, 70 per hour", "--steps", "2");
  expect([status, stderr]).toEqual([
    2,
    "error: --steps is for one demand; --demand names several: write the plans with --write plan-{demand}.yaml, then ask for one change at a time, from one of these plans\n",
  ]);
  const plans = await rebalance(PLAN, "--demand", "60, 70 per hour", "--write", "plan-{demand}.yaml");
  const next = await rebalance(plans.files["plan-60.yaml"]!, "--demand", "70 per hour", "--steps", "2");
  expect([plans.status, next.status]).toEqual([0, 0]);
});

it("A plan that breaks a rule is said to keep no pace by check, whatever its stations keep", async () => {
  const sound = (await rebalance(PLAN)).stdout.replaceAll(/\s+/gu, " ");
  expect(sound).toContain("keeps: the highest demand that check passes.");
  const wrong = PLAN.replace("[a, b]", "[c]").replace("S2, tasks: [c]", "S2, tasks: [a, b]");
  const told = (await rebalance(wrong)).stdout.replaceAll(/\s+/gu, " ");
  // b is before c.
  expect(told).toContain(
    "keeps: the highest demand at which check does not find the station overloaded. At any pace check finds 1 other error in this plan.",
  );
  const slack = JSON.parse((await rebalance(wrong, "--json")).stdout).slack;
  expect(slack.errorsAtAnyPace).toBe(1);
});

it("What a bench uses of counted equipment is not there for the line", async () => {
  const line = (rigs: number) =>
    `unit: s\ndemand: 480 per day\ncalendar: {shifts: {early: {length: 8 h}}}\nequipment: {rig: ${rigs}}\nbenches: {wheels: {tasks: [lace]}}\ntasks: {lace: {time: 40, equipment: rig}, fit: {time: 30, after: lace}, press: {time: 40, after: fit, equipment: rig}, seal: {time: 40, after: press, equipment: rig}}\n`;
  const plan = `${PLAN.replace("[a, b]", "[fit, press]").replace("[c]", "[seal]")}\nbenches: [{id: wheels, tasks: [lace]}]`;
  const asked = (rigs: number, ...args: readonly string[]) =>
    runLinepoise({ args, files: { "own.line.yaml": line(rigs), "today.plan.yaml": plan } });
  const ask = ["rebalance", "own.line.yaml", "--from", "today.plan.yaml", "--write", "new.plan.yaml"];
  const none = await asked(1, ...ask);
  expect([none.status, none.stdout]).toEqual([2, ""]);
  expect(none.stderr).toContain(
    "the benches of today's plan use every rig that exists, and press needs one on the line",
  );
  // One at the bench; press and seal of 40 s each need one more each at 60 s.
  const few = await asked(2, ...ask);
  expect(few.status).toBe(1);
  const enough = await asked(3, ...ask);
  expect(enough.status).toBe(0);
  const checked = await runLinepoise({
    args: ["check", "own.line.yaml", "new.plan.yaml"],
    files: { "own.line.yaml": line(3), "new.plan.yaml": enough.files["new.plan.yaml"]! },
  });
  expect(checked.status).toBe(0);
});

it.each(["60 per hour", "40, 60 per hour"])(
  "People at benches, whom show counts, are told beside those whom a rebalance to %s counts",
  async (demand) => {
    const line =
      "unit: s\ndemand: 60 per hour\nbenches: {wheels: {tasks: [lace], stations: 1}}\ntasks: {lace: {time: 40, people: 2}, fit: {time: 30, after: lace}, seal: {time: 40, after: fit}}\n";
    const plan = `${PLAN.replace("[a, b]", "[fit]").replace("[c]", "[seal]")}\nbenches: [{id: wheels, tasks: [lace]}]`;
    const files = { "own.line.yaml": line, "today.plan.yaml": plan };
    const ask = (...args: readonly string[]) => runLinepoise({ args, files });
    const asked = ["rebalance", "own.line.yaml", "--from", "today.plan.yaml", "--demand", demand];
    const told = JSON.parse((await ask(...asked, "--json")).stdout);
    const shown = JSON.parse((await ask("show", "own.line.yaml", "today.plan.yaml", "--json")).stdout);
    const row = told.tradeOffs?.[0]?.peopleInAll ?? told.demands.at(-1).people;
    // No plan has fewer people, and today's stands: both commands speak of the same one.
    expect([row, told.peopleAtBenches, shown.measures.peopleInAll]).toEqual([2, 2, 4]);
    const text = (await ask(...asked)).stdout.replaceAll(/\s+/gu, " ");
    const times = demand.includes(",") ? 1 : 2;
    expect(text.split("2 people at benches are not counted here.")).toHaveLength(times + 1);
    const whole =
      "unit: s\ndemand: 60 per hour\ntasks: {a: 30, b: {time: 26, after: a}, c: {time: 50, after: b}}\n";
    const none = await runLinepoise({
      args: asked,
      files: { "own.line.yaml": whole, "today.plan.yaml": PLAN },
    });
    expect(none.stdout).not.toContain("at benches");
  },
);

it("A misspelt option is told in place of the one that is then missing", async () => {
  const told = async (...args: readonly string[]) =>
    (await runLinepoise({ args: ["rebalance", "own.line.yaml", ...args], files: { "own.line.yaml": LINE } }))
      .stderr;
  expect(await told("--frm", "today.plan.yaml")).toBe(
    "error: unknown option '--frm'\n(Did you mean --from?)\n",
  );
  expect(await told()).toBe("error: required option '--from <plan>' not specified\n");
});

it("A step that starts work that is new to the line is called no move", async () => {
  const steps = async (plan: string, demand: number) => {
    const told = (await rebalance(plan, "--demand", `${demand} per hour`)).stdout.replaceAll(/\s+/gu, " ");
    return /STEPS (.*?)\. /u.exec(told)?.[1];
  };
  // c is new. At 65 an hour a and b (56 s) are too long for one station (55.4 s), so b moves beside it; at 72 (50 s) all are in the plan.
  expect(await steps(PLAN.replace("[a, b]", "[a]").replace("[c]", "[b]"), 40)).toBe(
    "1 step with one new task",
  );
  expect(await steps(PLAN.replace("[c]", "[]"), 65)).toMatch(
    /^\d steps with one move or one new task each$/u,
  );
  expect(await steps(PLAN, 72)).toBe("1 step with one move");
});
