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

it("A bench of one shift has its people in one shift of the day, and they are not on the line", async () => {
  const { stdout } = await runLinepoise({
    args: ["show", "l.yaml", "p.yaml"],
    files: { "l.yaml": LINE, "p.yaml": PLAN },
  });
  // 2 stations in each of 2 shifts, and 2 places of the bench in one.
  const text = stdout.replace(/\s+/gu, " ");
  expect(text).toContain("2 on the line + 2 at benches, at the same time; 6 per day in 2 shifts");
  // 180 s of work / (2 x 117 s + 2 x 1/2 x 120 s - 3 s x 4/5)
  expect(text).toContain(
    "51.2 % at the pace: work content / the working time of all people on the line and at benches",
  );
});

it("The loads of a report count once what taking parts over from a bench takes", async () => {
  const files = { "l.yaml": LINE.replace("holds: 2", "holds: 2, take-over: 7 s"), "p.yaml": PLAN };
  const { stdout } = await runLinepoise({
    args: ["report", "l.yaml", "p.yaml", "--format", "markdown"],
    files,
  });
  expect(stdout).toMatch(/^ *S2 .*■ .* 65\.6 s /mu);
});
