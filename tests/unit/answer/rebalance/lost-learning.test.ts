import { describe, expect, it } from "vitest";
import {
  lostByMoves,
  lostLearning,
  tasksWithoutEnd,
} from "../../../../src/answer/rebalance/lost-learning.js";
import { LearnedLine } from "../../../../src/line/learned-line.js";
import type { Line } from "../../../../src/line/line.js";
import { workOfLine } from "../../../../src/plan/figures/person-time.js";
import { add, type Ratio, ratio, subtract, toNumber, ZERO } from "../../../../src/time/ratio.js";
import { idsOf, lineOf } from "../../../tools/line-of.js";

const SECOND = 1_000_000;
const seconds = (value: Ratio) => toNumber(value) / SECOND;

describe("What the move of a task loses of what people have learned", () => {
  it("is what the units built before took more than the settled time: 22.5 + 10 s of 40 s settled at unit 4", () => {
    // 40 / 0.64 = 62.5 s, 40 / 0.8 = 50 s.
    const line = lineOf("unit: s\nlearning: {share: 80 %, time-at: 4, built: 2}\ntasks: {a: 40}\n");
    expect(lostLearning(line).lost).toEqual([ratio(32.5 * SECOND)]);
  });

  it("is no more than all there was to learn, however many units were built", () => {
    const [some, many] = [4, 100_000].map((built) =>
      lostLearning(lineOf(`unit: s\nlearning: {share: 80 %, time-at: 4, built: ${built}}\ntasks: {a: 40}\n`)),
    );
    expect(many).toEqual(some);
    // 22.5 + 10 + 40 x (0.7021037 / 0.64 - 1) s.
    expect(seconds(many!.lost[0]!)).toBeCloseTo(36.381481, 6);
  });

  it("is nothing of what nobody has built, and of what nobody learns", () => {
    const line = lineOf(`unit: s
learning: {share: 80 %, time-at: 4}
tasks: {a: 40, b: {time: 40, learning: 100 %}}
`);
    expect(lostLearning(line)).toEqual({ lost: [ZERO, ZERO], points: [1, 1] });
  });

  it("counts people together, quantities, models by their shares and work on one unit in so many", () => {
    const line = lineOf(`unit: s
models: {city: 75 %, cargo: 25 %}
learning: {share: 80 %, time-at: 2, built: 1}
tasks:
  alone: {time: 40, people: 2}
  cargo: {time: {cargo: 10, city: "-"}, quantity: 2, walking: 5}
  seldom: {time: 40, every: 4}
`);
    // At unit 1, each takes a quarter more than settled: 10 s x 2 people; 5 s on a quarter of the units; 10 s on a quarter of them.
    expect(lostLearning(line).lost.map(seconds)).toEqual([20, 1.25, 2.5]);
  });

  it("is in points the whole minutes, rounded up, 1 at the least", () => {
    const line = lineOf(`unit: min
learning: {share: 80 %, time-at: 2, built: 1}
tasks: {a: 8, b: 8.4, c: 0.1}
`);
    expect(lostLearning(line).points).toEqual([2, 3, 1]);
  });

  it("adds up over moves", () => {
    const line = lineOf(
      "unit: s\nlearning: {share: 80 %, time-at: 2, built: 1}\ntasks: {a: 40, b: 20, c: 8}\n",
    );
    const moves = [0, 2].map((task) => ({ task, from: "S1", to: "S2" }));
    expect(seconds(lostByMoves(lostLearning(line), moves))).toBe(12);
  });

  it("is what a line that begins anew takes more in all than one that goes on, until both are settled", () => {
    const said = `learning: {share: 85 %, time-at: 60, least: 90 %, by: average, built: BUILT}
tasks: {a: 40, b: {time: 25, learning: 70 %, people: 2}, c: {time: 5, learning: {built: 0}}}
`;
    const [goesOn, anew] = [45, 0].map((built) => lineOf(`unit: s\n${said.replace("BUILT", String(built))}`));
    const all = (line: Line) =>
      Array.from({ length: 400 }, (_, at) => workOfLine(new LearnedLine(line).at(at + 1))).reduce(add, ZERO);
    expect(new LearnedLine(anew!).settlesAt).toBeLessThan(300);
    expect(lostLearning(goesOn!).lost.reduce(add, ZERO)).toEqual(subtract(all(anew!), all(goesOn!)));
  });

  it("has no end where times fall for ever and something was built", () => {
    const line = lineOf(`unit: s
learning: {share: 80 %, least: 0 %, built: 7}
tasks: {a: 40, b: {time: 40, learning: {built: 0}}, c: {time: 40, learning: {least: 50 %}}, d: {time: 40, learning: 100 %}}
`);
    expect(idsOf(line, tasksWithoutEnd(line))).toEqual(["a"]);
  });
});
