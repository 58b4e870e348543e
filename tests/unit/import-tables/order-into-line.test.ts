import { expect, test } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

const LINE = `# The line as it stands
line: x
unit: s
chains:
  - [A, B]
tasks:
  A: 10     # bare
  B: {time: 20, people: 2}   # two people
  C: {time: 0:30, after: [{task: A, wait: 5 min}]}
  D:
    time: 0.5 min # half
    after:
      - C
  E: {name: Box up, time: 4}
`;

async function into(orders: string, line = LINE, ...more: string[]) {
  const files = { "l.yaml": line, "o.csv": orders };
  const args = ["order", "l.yaml", "--from", "o.csv", "--into", "l.yaml", "--questions", "0", ...more];
  const ran = await runLinepoise({ args, files });
  return { ...ran, text: ran.files["l.yaml"]! };
}

test("What units have shown is added, and chains, waits, comments and all other keys stay", async () => {
  const { text, stdout, status } = await into("u1,u2\nA,A\nB,C\nC,B\nD,D\nBox up,E\n");
  expect([status, text]).toEqual([
    0,
    LINE.replace("      - C\n", "      - C\n")
      .replace("    after:\n      - C\n", "    after:\n      [C, B]\n")
      .replace("time: 4}", "time: 4, after: D}"),
  ]);
  expect(stdout).toContain("Into l.yaml:");
  expect(readLine("l.yaml", text).line!.before).toEqual([[], [0], [0], [1, 2], [3]]);
});

test("A second run changes nothing, and says so", async () => {
  const orders = "A\nB\nC\nD\nE\n";
  const { text } = await into(orders);
  const again = await into(orders, text);
  expect(again.text).toBe(text);
  expect(again.stdout).toContain("none of them new to the line");
  expect(again.stdout).toContain("Nothing of l.yaml changes");
});

test("Without --into nothing is written, nor with --dry-run, which shows the lines", async () => {
  const { text, stdout } = await into("A\nB\nC\nD\nE\n", LINE, "--dry-run");
  expect(text).toBe(LINE);
  expect(stdout).toContain("+   E: {name: Box up, time: 4, after: D}");
});

test("Where the file would have an error with them, nothing is written, and the error is told", async () => {
  const line =
    "unit: s\noptions: {o: {off-line: [[B]]}}\ntasks: {A: {time: 1, on-base: true}, B: 1, C: {time: 1, after: [A, B]}, D: {time: 1, after: A}}\n";
  const { status, text, stderr } = await into("u1,u2\nA,A\nB,B\nC,D\nD,C\n", line);
  expect([status, text]).toEqual([2, line]);
  expect(stderr).toContain(
    "nothing is written: with these precedences the file would have the errors told here",
  );
});

test("Tasks that models lack, or that come on every so many units, are no slips of an order", async () => {
  const line =
    'unit: s\nmodels: {city: 50 %, cargo: 50 %}\ntasks: {A: 1, B: {time: {city: 2, cargo: "-"}}, C: {time: {city: "-", cargo: 3}}, D: {time: 1, every: 10}}\n';
  const run = async (orders: string) =>
    JSON.parse(
      (
        await runLinepoise({
          args: ["order", "l.yaml", "--from", "o.csv", "--json"],
          files: { "l.yaml": line, "o.csv": orders },
        })
      ).stdout,
    );
  const { pairs, findings, neverSeenTogether } = await run("u1,u2\nA,A\nB,C\n");
  // B and C are of different models; D was on no unit.
  expect(pairs).toEqual({ ordered: 2, eitherOrder: 0, oneUnitAlone: 0, neverSeenTogether: 3, onNoUnit: 1 });
  expect(neverSeenTogether.map((pair: string[]) => pair.toSorted().join())).toEqual(["A,D", "B,D", "C,D"]);
  expect(findings.map(({ rule }: { rule: string }) => rule)).toEqual([
    "task-in-no-order",
    "never-seen-together",
  ]);
});

test("The tasks of a table take precedences of units besides their own", async () => {
  const files = {
    "t.csv": "id,time (s),after\nA,1,\nB,1,A\nC,1,\n",
    "o.csv": "A\nB\nC\n",
    "p.csv": "C\nA\nB\n",
    "l.yaml": "unit: s\ntasks:\n  A: 1\n  B: 1 # b\n  C: 1\n",
  };
  const both = await runLinepoise({ args: ["import", "t.csv", "--orders", "o.csv, p.csv"], files });
  expect(both.stdout).toContain("  A: 1\n  B: {time: 1, after: A}\n  C: 1\n");
  const one = await runLinepoise({
    args: ["import", "t.csv", "--orders", "o.csv", "--into", "l.yaml"],
    files,
  });
  expect(one.files["l.yaml"]).toBe(
    "unit: s\ntasks:\n  A: 1\n  B: {time: 1, after: A} # b\n  C: {time: 1, after: B}\n",
  );
  const against = await runLinepoise({
    args: ["import", "t.csv", "--orders", "o.csv"],
    files: { ...files, "o.csv": "B\nA\nC\nX\n" },
  });
  expect([against.status, against.stderr]).toEqual([2, expect.stringContaining('no task is called "X"')]);
});
