import { expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

const LINE = `line: Reserve
unit: s
demand: 30 per hour
plan-to: 85 %
stations: [{id: L1}, {id: L2, plan-to: 95 %}, {id: L3, plan-to: 70 %}]
tasks:
  motor: {time: 100, on-base: true, station: L2}
  seat: {time: 40, after: motor}
  bell: {time: 30, after: seat}
  lamp: {time: 30, after: bell}
`;
const files = { "line.yaml": LINE };

it("names the station whose own plan-to leaves no reserve at the demand", async () => {
  // 120 s x 95 % = 114 s hold the 100 s of L2, which 120 s x 85 % = 102 s would as well; 120 s x 70 % = 84 s do not hold L3's.
  const run = await runLinepoise({ args: ["balance", "line.yaml", "--stations", "2", "--proof"], files });
  expect(run.stderr).toBe(
    "line.yaml: warning: 2 stations have a cycle of 100 s; that meets the demand, but L3 takes 100 s, more than 84 s (its own plan-to of 70 %) [no-reserve]\n",
  );
  const told = run.stdout.split("\n").slice(6, 9).join("\n");
  expect(told).toContain("station limit  102 s  at the demand: 85 % plan-to; at L2 114 s, 95 % plan-to;");
});

it("says nothing where only the limit of the line is above, and the station has one of its own that is not", async () => {
  const roomy = {
    "line.yaml": LINE.replace("motor: {time: 100", "motor: {time: 110").replace(
      "plan-to: 70 %",
      "plan-to: 95 %",
    ),
  };
  const run = await runLinepoise({
    args: ["balance", "line.yaml", "--stations", "2", "--proof"],
    files: roomy,
  });
  expect(run.stderr).toBe("");
});

it.each([
  ["--stations", "2"],
  ["--cycle", "110 s"],
])(
  "writes a plan of the line with %s, which sets plan-to aside, that is no plan of other times",
  async (option, value) => {
    const args = ["balance", "line.yaml", option, value, "--write", "line.plan.yaml"];
    const written = await runLinepoise({ args, files });
    const plan = written.files["line.plan.yaml"]!;
    const { stdout } = await runLinepoise({
      args: ["check", "line.yaml", "line.plan.yaml"],
      files: { ...files, "line.plan.yaml": plan },
    });
    expect(stdout).not.toContain("[other-times]");
    expect(stdout).toContain("[other-pace]");
  },
);
