import { describe, expect, it } from "vitest";
import { compareOptions, ONE_BY_ONE } from "../../../src/answer/compare/compare-options.js";
import { answerOffLine } from "../../../src/answer/off-line/answer-off-line.js";
import { RANKS } from "../../../src/answer/off-line/rank-order.js";
import { staffLine } from "../../../src/answer/staff/staff-line.js";
import type { Line } from "../../../src/line/line.js";
import { balance } from "../../../src/solve/balance.js";
import { drawNumbers } from "../../../src/solve/level/draw-numbers.js";
import type { Watch } from "../../../src/solve/watch-times.js";
import { readDemandRange } from "../../../src/time/demand-range.js";
import { taktSum } from "../../../src/time/takt.js";
import { lineOf } from "../../tools/line-of.js";

/** 80 tasks of 3 to 17 s in layers of five, each after two of the layer before. */
function layered(keys = ""): Line {
  const draw = drawNumbers();
  const rows = Array.from({ length: 80 }, (_, at) => {
    const first = (Math.floor(at / 5) - 1) * 5;
    const after = first < 0 ? [] : [...new Set([draw(5), draw(5)])].map((each) => `t${first + each + 1}`);
    return `  t${at + 1}: {time: ${3 + draw(15)}, after: [${after.join(", ")}]}`;
  });
  return lineOf(["unit: s", "demand: 110 per hour", `${keys}tasks:`, ...rows, ""].join("\n"));
}

const PLAIN = layered();
const RULED = layered("max-places: 2\napart: [[t3, t9], [t20, t24]]\ntogether: [[t40, t44]]\n");

function paceOf(line: Line) {
  const takt = taktSum({ ...line, demand: line.demand! });
  if (!takt.ok) throw new Error(takt.problem);
  return takt.value.pace;
}

const search = (checkpoint: Watch, method = "best") =>
  ({ method, nodes: 60_000, level: true, strictLimit: false, explain: false, checkpoint }) as const;

/** The most partial plans between two questions. */
const MOST_BETWEEN = 25_000;
/** Questions that may still be asked by what is under way when the answer is to end. */
const MOST_AFTER = 12;

/** Ends with the question of this number; counts those that come after it. */
function endAt(question: number) {
  let asked = 0;
  const checkpoint: Watch = async () => (++asked >= question ? "interrupted" : null);
  return { checkpoint, later: () => Math.max(0, asked - question) };
}

describe.each([
  ["plain", PLAIN],
  ["ruled", RULED],
])("A balance of a %s line", (_, line) => {
  it.each(["best", "exact"])(
    "by %s asks whether to go on at least every so many partial plans",
    async (method) => {
      const seen: number[] = [0];
      const checkpoint: Watch = async ({ nodes }) => {
        seen.push(nodes);
        return null;
      };
      await balance(line, paceOf(line), search(checkpoint, method));
      const steps = seen.slice(1).map((nodes, at) => nodes - seen[at]!);
      expect(seen.length).toBeGreaterThan(3);
      expect(Math.max(...steps)).toBeLessThanOrEqual(MOST_BETWEEN);
    },
  );
});

describe("Told to end, whichever question it is,", () => {
  const questions = [1, 2, 3, 5, 8, 13, 21, 34];

  it("a staffing asks hardly any more", async () => {
    const range = readDemandRange("90..120/10", "hour");
    if (!range.ok) throw new Error(range.problem);
    for (const question of questions) {
      const { checkpoint, later } = endAt(question);
      const costOf = () => null;
      await staffLine(PLAIN, range.value, {
        nodes: 20_000,
        strictLimit: false,
        checkpoint,
        today: null,
        beside: null,
        costOf,
      });
      expect(later()).toBeLessThanOrEqual(MOST_AFTER);
    }
  });

  it("a comparison asks hardly any more", async () => {
    for (const question of questions) {
      const { checkpoint: watch, later } = endAt(question);
      const column = (line: Line, name: string) => {
        const common = { name, line, option: null, takt: null, today: null, nodes: 20_000 };
        return { ...common, pace: paceOf(line) };
      };
      await compareOptions(PLAIN, [column(PLAIN, "plain"), column(RULED, "ruled")], { ...ONE_BY_ONE, watch });
      expect(later()).toBeLessThanOrEqual(MOST_AFTER);
    }
  });

  it("a look at what may leave the line asks hardly any more", async () => {
    for (const question of questions) {
      const { checkpoint, later } = endAt(question);
      const asked = { ranks: RANKS, benches: 2, joinsAtSeveral: false, asked: null };
      const options = { ...asked, nodes: 20_000, strictLimit: false, checkpoint };
      await answerOffLine(RULED, paceOf(RULED), null, options);
      expect(later()).toBeLessThanOrEqual(MOST_AFTER);
    }
  });
});
