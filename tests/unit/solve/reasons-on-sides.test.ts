import { expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

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
  expect(split).toContain("c (part 2) (43.333 s) + c (part 3) (43.333 s) = 86.667 s against 60 s");
  expect(flag.reason).not.toContain(": )");
});
