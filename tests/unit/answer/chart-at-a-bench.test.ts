import { expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

/* 120 s of line cycle; the bench works one of two shifts, for 4 of 5 units, at two places with room for two sets each. */
const LINE = `unit: s
demand: 30 per hour
calendar: {shifts: {early: {length: 8 h}, late: {length: 8 h}}}
handling: 3 s
benches: {wheels: {tasks: [lace], shifts: 1, share: 80 %, holds: 2}}
tasks: {frame: {time: 80}, lace: {time: 50, machine-time: 100}, fit: {time: 60, after: [frame, lace]}}
`;
const PLAN = `format: linepoise-plan/1
line: l.yaml
stations: [{id: S1, tasks: [frame]}, {id: S2, tasks: [fit]}]
benches: [{id: wheels, tasks: [lace], places: 2}]
`;

it("One unit at a bench over time counts the hours, the share of the units and the room of the bench", async () => {
  const args = ["show", "l.yaml", "p.yaml", "--station", "wheels", "--json"];
  const { stdout } = await runLinepoise({ args, files: { "l.yaml": LINE, "p.yaml": PLAN } });
  // 2 places x 120 s x 1/2 of the hours / 4/5 of the units = 150 s; 3 s of handling; room for 2.
  expect(JSON.parse(stdout)).toMatchObject({
    holds: 2,
    intervalSeconds: 150,
    workingSeconds: 147,
    dwellSeconds: 150,
    dwellLimitSeconds: 294,
  });
});
