import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readReadingsTable } from "../../../src/study/read-readings-table.js";
import { runWatch } from "../../../src/study/run-watch.js";
import { readTable } from "../../../src/table/read-table.js";

async function run(text: string, clock: "restart" | "continuous" | null = "continuous") {
  const { table } = await readTable("readings.csv", new TextEncoder().encode(text));
  const { readings } = readReadingsTable(table!, { unit: "s", leaveOut: "*" });
  const { elements, findings } = runWatch("readings.csv", readings!.elements, clock);
  return {
    seconds: elements.map((each) => each.map(({ time }) => (time === null ? null : time / 1e6))),
    leftOut: elements.map((each) => each.map(({ isLeftOut }) => isLeftOut)),
    findings: findings.map(({ severity, rule, message }) => `${severity} ${rule}: ${message}`),
  };
}

describe("a continuous clock", () => {
  test("shows 0:12, 0:27, 0:41, 1:05 for elements of 12, 15, 14 and 24 s", async () => {
    const { seconds, findings } = await run("element,1\na,0:12\nb,0:27\nc,0:41\nd,1:05\n");
    expect([seconds, findings]).toEqual([[[12], [15], [14], [24]], []]);
  });

  test("may run on over the cycles, or start again with each", async () => {
    expect((await run("element,1,2\na,12,40\nb,27,56\n")).seconds).toEqual([
      [12, 13],
      [15, 16],
    ]);
    expect((await run("element,1,2\na,12,13\nb,27,29\n")).seconds).toEqual([
      [12, 13],
      [15, 16],
    ]);
  });

  test("that starts again with some cycles only is refused", async () => {
    const { findings } = await run("element,1,2,3\na,12,13,40\nb,27,29,56\n");
    expect(findings).toEqual([
      'error mixed-clock: row 2, column D: the clock runs on from the cycle before at "a", and starts again with the cycle elsewhere; one of the readings is wrong',
    ]);
  });

  test("never falls", async () => {
    expect((await run("element,1\na,12\nb,9\n")).findings).toEqual([
      'error falling-reading: row 3, column B: the reading of "b" is not above the one before in row 2, column B; a continuous clock only rises. Give --clock restart if the watch starts again with each element',
    ]);
  });

  test("goes on through foreign work, whose time is left out", async () => {
    const { seconds, leftOut } = await run("element,1\na,12\nb,80*\nc,95\n");
    expect([seconds, leftOut]).toEqual([
      [[12], [68], [15]],
      [[false], [true], [false]],
    ]);
  });

  test("leaves out what follows a reading that was missed, as it holds the time of both", async () => {
    for (const missed of ["", "*"]) {
      const { leftOut, findings } = await run(`element,1,2\na,12,52\nb,${missed},67\nc,41,80\n`);
      expect(leftOut.map((each) => each.at(-2) ?? each[0])).toEqual([false, missed === "*", true]);
      expect(findings[0]).toContain(
        'warning missed-reading: row 4, column B: the reading before "c" is missing',
      );
    }
  });

  test("passes over work of every so many units, which is not in every cycle", async () => {
    const { seconds, findings } = await run("element,every,1,2\na,,12,52\nwipe,5,20,\nb,,27,67\n");
    expect([seconds, findings]).toEqual([[[[12, 25], [8], [7, 15]], []][0], []]);
  });

  test("is one for each observer", async () => {
    const { seconds } = await run(
      "element,observer,reading\na,Ann,12\na,Ben,8\nb,Ann,27\nb,Ben,20\na,Ann,40\n",
    );
    expect(seconds).toEqual([
      [12, 8, 13],
      [15, 12],
    ]);
  });

  test("gives back the times that were added up, whether it runs on or starts again", async () => {
    const times = fc.integer({ min: 1, max: 500 });
    const cycles = fc
      .tuple(fc.integer({ min: 2, max: 5 }), fc.integer({ min: 1, max: 4 }))
      .chain(([elements, count]) =>
        fc.array(fc.array(times, { minLength: elements, maxLength: elements }), {
          minLength: count,
          maxLength: count,
        }),
      );
    await fc.assert(
      fc.asyncProperty(cycles, async (wanted) => {
        let clock = 0;
        const shown = wanted.map((cycle) => cycle.map((time) => (clock += time)));
        const rows = wanted[0]!.map((_, at) => [`e${at}`, ...shown.map((cycle) => cycle[at])].join(","));
        const heads = ["element", ...shown.map((_, at) => at + 1)].join(",");
        const { seconds } = await run(`${heads}\n${rows.join("\n")}\n`);
        expect(seconds).toEqual(wanted[0]!.map((_, at) => wanted.map((cycle) => cycle[at])));
      }),
      { numRuns: 100 },
    );
  });
});

describe("readings that rise in every cycle", () => {
  const rising = "element,1,2\na,12,11\nb,27,29\nc,41,40\n";

  test("make the tool ask whether the clock is continuous", async () => {
    expect((await run(rising, null)).findings).toEqual([
      "warning rising-readings: readings rise from element to element in every cycle: is the clock continuous? If it ran on, give --clock continuous; if each reading is the time of its element, give --clock restart",
    ]);
  });

  test("of one element alone are asked for as well", async () => {
    expect((await run("element,1,2,3,4\na,12,27,41,65\n", null)).findings[0]).toContain(
      "readings rise from reading to reading",
    );
  });

  test("are taken as they are where the user has said what the clock is", async () => {
    expect((await run(rising, "restart")).findings).toEqual([]);
  });

  test("in some cycles only are no sign of it", async () => {
    expect((await run("element,1,2\na,12,11\nb,27,29\nc,41,20\n", null)).findings).toEqual([]);
  });
});
