import { expect, it } from "vitest";
import { citation, type Figures, readWorkedExamples } from "../tools/read-worked-examples.js";
import { runLinepoise } from "../tools/run-linepoise.js";
import { lineOfExample } from "./line-of-example.js";

interface Ranking {
  readonly method: string;
  readonly tasks: readonly {
    readonly task: string;
    readonly score: number;
    readonly followers: readonly string[];
  }[];
}

const examples = readWorkedExamples();

/** How every rule ranks the tasks of a line, from `balance --explain --json`. */
async function rankingsOf(file: string, limit: number): Promise<ReadonlyMap<string, Ranking["tasks"]>> {
  const args = ["balance", "line.yaml", "--cycle", String(limit), "--explain", "--json"];
  const { stdout } = await runLinepoise({ args, files: { "line.yaml": file } });
  const { rankings } = JSON.parse(stdout) as { rankings: Ranking[] };
  return new Map(rankings.map(({ method, tasks }) => [method, tasks]));
}

const scores = (tasks: Ranking["tasks"]) => Object.fromEntries(tasks.map(({ task, score }) => [task, score]));

const inSeconds = ({ of }: Figures, unit: string): Record<string, number> =>
  Object.fromEntries(
    Object.entries(of).map(([task, value]) => [
      task,
      Math.round(value * (unit === "min" ? 60_000_000 : 1_000_000)) / 1_000_000,
    ]),
  );

for (const { id, title, source, unit, limit, tasks, expected } of examples.balancing) {
  const { weights, followers, columns } = expected;
  it(`ranks the tasks of "${title}" (${citation(source)}; weights ${weights.status})`, async () => {
    const rankings = await rankingsOf(lineOfExample(id, unit, tasks), limit);
    expect(scores(rankings.get("positional-weight")!)).toEqual(inSeconds(weights, unit));
    expect(scores(rankings.get("most-followers")!)).toEqual(followers.of);
    expect(scores(rankings.get("columns")!)).toEqual(columns.of);
    expect(scores(rankings.get("largest-candidate")!)).toEqual(
      inSeconds(
        { status: "given", of: Object.fromEntries(tasks.map(({ id: task, time }) => [task, time])) },
        unit,
      ),
    );
  });
}

const twoDefinitions = examples["weight-definitions"];

it(`weighs all followers, not the longest path (${citation(twoDefinitions.source)})`, async () => {
  const file = lineOfExample("two definitions", twoDefinitions.unit, twoDefinitions.tasks);
  const weights = scores((await rankingsOf(file, 50)).get("positional-weight")!);
  expect(weights).toEqual(twoDefinitions.weights.of);
  expect(weights).not.toEqual(twoDefinitions["longest-path"].of);
});

it("names each follower once", async () => {
  const file =
    "unit: s\ntasks:\n  A: 10\n  B: {time: 20, after: A}\n  C: {time: 15, after: A}\n  D: {time: 5, after: [B, C]}\n";
  const weights = (await rankingsOf(file, 60)).get("positional-weight")!;
  expect(weights).toEqual([
    { task: "A", score: 50, followers: ["B", "C", "D"] },
    { task: "B", score: 25, followers: ["D"] },
    { task: "C", score: 20, followers: ["D"] },
    { task: "D", score: 5, followers: [] },
  ]);
});
