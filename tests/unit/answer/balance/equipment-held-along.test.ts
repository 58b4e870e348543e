import { expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

// The rig is kept from the start of a to the end of c: 20 + 20 + 50 + 20 + 10 s, though the tasks on it take 70 s.
const text = `line: x
unit: s
holds: 2
equipment: {rig: 1}
tasks:
  a: {time: 20, machine-time: 20, equipment: rig}
  b: {time: 50, after: a}
  c: {time: 20, machine-time: 10, equipment: rig, after: b}
`;

const balance = async (cycle: string, lines = text) => {
  const { stdout } = await runLinepoise({
    args: ["balance", "line.yaml", "--cycle", cycle, "--proof"],
    files: { "line.yaml": lines },
  });
  return stdout.replace(/\s+/gu, " ");
};

it("The reasons name how long a unit keeps equipment over a task between that does not use it", async () => {
  expect(await balance("110")).toContain(
    "- 2 x rig needed: it holds each unit 120 s (a, c), above the line cycle of 110 s",
  );
  expect(await balance("120")).toContain("cycle of the plan 120 s S1, set by how long a unit keeps rig");
});

it("What lies between is counted along the longest chain, and not where another task is only beside it", async () => {
  const more = text
    .replace("  c: {", "  d: {time: 15, after: a}\n  c: {")
    .replace("after: b}", "after: [b, d]}");
  // One person does b and d, one after the other, and still no less than a, b and c is certain.
  expect(await balance("110", more)).toContain("2 x rig needed: it holds each unit 120 s (a, c)");
});
