import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { WHEEL } from "../answer/compare/compared.js";

const TWO = WHEEL.replace("450 per day", "900 per day")
  .replace(/calendar: .*/u, "calendar: {shifts: {early: {length: 7.5 h}, late: {length: 7.5 h}}}")
  .replace(", shifts: 2", "");
const PLAN = [
  "format: linepoise-plan/1",
  "line: Cargo bike",
  "stations:",
  "  - {id: S1, tasks: [frame]}",
  "  - {id: S2, tasks: [lace]}",
  "  - {id: S3, tasks: [true]}",
  "  - {id: S4, tasks: [fit]}",
  "  - {id: S5, tasks: [brake]}",
  "",
].join("\n");

/** The answer of a command: the first indented lines of its output, as one. */
async function answerOf(args: readonly string[], line = WHEEL) {
  const { stdout } = await runLinepoise({ args: [...args], files: { "line.yaml": line, "plan.yaml": PLAN } });
  const lines = stdout.split("\n");
  const from = lines.findIndex((each) => each.startsWith("  "));
  const to = lines.indexOf("", from);
  return lines
    .slice(from, to)
    .map((each) => each.trim())
    .join(" ");
}

describe("The answer stands first, in a line", () => {
  it("rebalance: 5 people today; 180 s of work at 60 s need 4 at the least, 27,000 / 55 = 490", async () => {
    expect(await answerOf(["rebalance", "line.yaml", "--from", "plan.yaml"])).toMatch(
      /^\d moves? from 5 people today: 4 stations, 4 people, 490 good units a shift possible, 450 wanted; slowest S\d \(55 s\)\.$/u,
    );
  });

  it("rebalance for several demands: people at each, and the moves", async () => {
    expect(await answerOf(["rebalance", "line.yaml", "--from", "plan.yaml", "--demand", "300,450"])).toMatch(
      /^3 people at 300 per day, 4 people at 450 per day; \d moves? from today; \d moves? between the demands\.$/u,
    );
  });

  it("staff: 27,000 s / 70 s (frame and lace at one station) = 385 units by 3 people, 27,000 / 55 = 490 by 4", async () => {
    const answer = await answerOf(["staff", "line.yaml", "--demand", "300..450/50"]);
    expect(answer).toBe("3 people for 300 to 385 good units per day, 4 people for 386 to 450.");
  });

  it("staff tells the first and the last of many steps", async () => {
    const answer = await answerOf(["staff", "line.yaml", "--demand", "100..490/30"]);
    expect(answer).toMatch(
      /^1 person for 100 to 150 good units per day, 2 steps between, 4 people for 386 to 490\.$/u,
    );
  });

  it("off-line: the best block, or how many of those of the file may go", async () => {
    const open = TWO.replace(/benches: .*\n/u, "");
    expect(await answerOf(["off-line", "line.yaml"], open)).toMatch(
      /^4 stations and 4 people with everything on the line; the (?:only|best of \d+) blocks? \(lace, true\) frees nobody\.$/u,
    );
    expect(await answerOf(["off-line", "line.yaml"])).toBe(
      "4 stations and 4 people with everything on the line; the bench may be built beside it: it frees nobody.",
    );
  });

  it("compare: who has the fewest people and the least cost, beside the first column", async () => {
    const more = "rates: {person-hour: 30, currency: EUR}\noptions:\n";
    // 3 people for 7.5 h at 30 EUR are 675 EUR / 450 = 1.50; 4 are 900 / 450 = 2.00; 450 / 225 = 2 days.
    const jig = "  jig: {times: {frame: 25, lace: 20, true: 40}, once: 450}\n";
    expect(await answerOf(["compare", "line.yaml"], `${WHEEL}${more}${jig}`)).toBe(
      "Fewest people a day: jig (3, as it is 4); least cost per unit: jig (1.50 EUR, as it is 2.00 EUR); paid back: jig (2 working days).",
    );
    expect(await answerOf(["compare", "line.yaml"], `${WHEEL}options: {less: {demand: 400 per day}}\n`)).toBe(
      "People a day: as it is 4, less 4.",
    );
  });

  it("says nothing where there is no plan", async () => {
    const long = `${WHEEL.replace("brake: {time: 35", "brake: {time: 70")}options: {same: {note: x}}\n`;
    expect(await answerOf(["compare", "line.yaml"], long)).not.toContain("people");
  });
});
