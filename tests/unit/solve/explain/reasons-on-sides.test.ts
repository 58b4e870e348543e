import { expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

it("Parts of no whole microsecond that a side of one station cannot hold have their reasons told", async () => {
  // 130 s in three parts of 43.3333 s, beside 40 s at the same side.
  const text = `line: x
unit: s
tasks:
  b: {time: 40, station: S1, side: right}
  c: {time: 130, station: S1, side: right}
`;
  const args = ["balance", "line.yaml", "--json", "--cycle", "60"];
  const { stdout } = await runLinepoise({ args, files: { "line.yaml": text } });
  const [flag] = JSON.parse(stdout).offLine;
  const split = flag.reason.split("; ").find((each: string) => each.startsWith("split"));
  // Both sides of one station have 2 x 60 s for 40 + 130 s.
  expect(split).toContain("170 s of work, 1 station holds 120 s");
  expect(flag.reason).not.toContain(": )");
});
