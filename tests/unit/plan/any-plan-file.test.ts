import fc from "fast-check";
import { expect, it } from "vitest";
import { benchesOfPlan, lineBeside } from "../../../src/benches/bench-of-plan.js";
import { checkPlan } from "../../../src/plan/check/check-plan.js";
import { readPlan } from "../../../src/plan/file/read-plan.js";
import { lineOf, paceOf } from "../../tools/line-of.js";

const line = lineOf(`unit: s
stations: [{id: S1, zone: low}, {id: S2}]
models: {city: 60 %, cargo: 40 %}
policy: {min-efficiency: 90 %, max-people: 2}
tasks:
  a: {time: 30, side: left, on-base: true}
  b: {time: {city: 20, cargo: "-"}, side: either, after: a}
  c: {time: 10, people: 2, after: b}
  d: 25
  e: {time: 0, after: d}
`);

const GOOD = `format: linepoise-plan/1 # a plan
line: x.line.yaml
made-for: {line-cycle: 60 s, fingerprint: abc}
stations:
  - {id: S1, tasks: [a, b], sides: {b: right}}
  - id: S2
    places: 2
    tasks:
      - c
      - e
benches:
  - {id: B1, tasks: [d]}
`;
const PIECES = [
  "[",
  "]",
  "{",
  "}",
  ":",
  ",",
  "- ",
  "\n",
  "\n  ",
  '"',
  "#",
  "&x",
  "*x",
  "!!map",
  "?",
  "|",
  "\t",
  "\r",
  "a",
  "b",
  "S1",
  "0",
  "%",
  "\u0000",
  "\ud800",
  "format",
  "tasks: []",
  "places: 1e9",
];

it("Whatever a plan file says, it is read and checked without a crash: a plan, or errors that say why not", () => {
  const edits = fc.array(
    fc.record({
      at: fc.nat(GOOD.length),
      cut: fc.nat(12),
      put: fc.array(fc.constantFrom(...PIECES), { maxLength: 3 }),
    }),
    { maxLength: 4 },
  );
  fc.assert(
    fc.property(edits, (all) => {
      let text = GOOD;
      for (const { at, cut, put } of all) text = text.slice(0, at) + put.join("") + text.slice(at + cut);
      const reading = readPlan("p.yaml", text, line);
      const { plan } = reading;
      if (plan === null) {
        expect(reading.findings.some(({ severity }) => severity === "error")).toBe(true);
        return;
      }
      const pace = paceOf(60);
      const { findings } = checkPlan({
        line: lineBeside(line, plan),
        pace,
        plan,
        reading,
        benches: benchesOfPlan(line, pace, plan),
        least: null,
        fingerprints: [],
        lineFile: "x.line.yaml",
      });
      for (const { message } of findings) expect(message).not.toMatch(/undefined|NaN|Infinity|\[object/u);
    }),
    { seed: 7, numRuns: 2000 },
  );
});
