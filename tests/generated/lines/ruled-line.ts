import fc from "fast-check";
import { stringify } from "yaml";

/** A line file as plain keys, to be changed by hand. */
export interface RuledLine {
  readonly unit: "s";
  readonly tasks: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
  readonly [key: string]: unknown;
}

export const fileOf = (line: RuledLine): string => stringify({ line: "Ruled", ...line });

const anyTask = fc.record({
  seconds: fc.integer({ min: 1, max: 30 }),
  back: fc.array(fc.integer({ min: 1, max: 4 }), { maxLength: 2 }),
  draw: fc.integer({ min: 0, max: 11 }),
});
type Drawn = typeof anyTask extends fc.Arbitrary<infer T> ? T : never;

/** Kinds of rules of the shop floor: keys of the line, and of one task out of four. */
interface Rules {
  readonly line?: Readonly<Record<string, unknown>>;
  task?(drawn: Drawn, at: number): Readonly<Record<string, unknown>>;
}

/** Rules that hold what stays as well, whatever leaves the line. */
const OF_ANY_PART: readonly Rules[] = [
  {},
  { line: { "max-places": 2 } },
  { line: { handling: 2, "plan-to": "90 %" } },
  { line: { stations: [{ id: "S1" }, { id: "S2", "plan-to": "90 %" }, { id: "S3", "max-places": 2 }] } },
  { task: () => ({ people: 2 }) },
  { task: ({ draw }) => ({ side: ["left", "right", "either"][draw % 3] }) },
  { task: () => ({ every: 3 }) },
  {
    line: { models: { plain: "60 %", fine: "40 %" }, "model-overload": "20 %" },
    task: ({ seconds }) => ({ time: { plain: seconds, fine: Math.ceil(seconds / 2) } }),
  },
  { line: { calendar: { shifts: { early: { length: "8 h" }, late: { length: "6 h" } } }, uptime: "95 %" } },
];

/** Rules that name other tasks, equipment, zones or skills, which a part of the line may share with what has left. */
const OF_THE_WHOLE: readonly Rules[] = [
  { line: { equipment: { press: 1 } }, task: () => ({ equipment: "press", "machine-time": 5 }) },
  { line: { apart: [["t1", "t3"]], together: [["t2", "t4"]] } },
  {
    line: { stations: [{ id: "S1", zone: "paint" }, { id: "S2", zone: "build" }, { id: "S3" }] },
    task: ({ draw }) => ({ zone: draw < 6 ? "paint" : "build" }),
  },
  {
    line: { people: { Ada: ["weld"], Bo: ["weld", "wire"], Cy: ["wire"] } },
    task: ({ draw }) => ({ skills: draw < 6 ? "weld" : "wire" }),
  },
  { task: () => ({ fail: "10 %", repair: 20 }) },
  { task: () => ({ scrap: "5 %" }) },
];

/** Lines of 4 to 9 tasks with one kind of rule, or two. */
export function ruledLines(isForParts = false): fc.Arbitrary<RuledLine> {
  const rules = isForParts ? OF_ANY_PART : [...OF_ANY_PART, ...OF_THE_WHOLE];
  return fc
    .record({
      tasks: fc.array(anyTask, { minLength: 4, maxLength: 9 }),
      first: fc.constantFrom(...rules),
      second: fc.constantFrom({}, ...rules),
    })
    .map(({ tasks, first, second }) => ({
      unit: "s",
      ...first.line,
      ...second.line,
      tasks: Object.fromEntries(
        tasks.map((drawn, at) => {
          const after = [...new Set(drawn.back)]
            .filter((back) => back <= at)
            .map((back) => `t${at + 1 - back}`);
          const own = drawn.draw % 4 === 0 ? { ...first.task?.(drawn, at), ...second.task?.(drawn, at) } : {};
          return [`t${at + 1}`, { time: drawn.seconds, ...(after.length > 0 ? { after } : {}), ...own }];
        }),
      ),
    }));
}
