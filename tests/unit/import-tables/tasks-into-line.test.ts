import fc from "fast-check";
import { expect, test } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { readPage } from "../../readme/read-page.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

const LINE = `# The line as it stands
line: x
unit: s
demand: 100 per day
calendar: {shifts: {day: {length: 8 h}}, days-per-week: 5}
chains:
  - [A, B]
tasks:
  # first
  A: 10     # bare
  B: {name: Do b, time: 20, people: 2}   # two people
  C: {time: 0:30, after: [{task: A, wait: 5 min}, B]}
  D:
    time: 0.5 min # half
    after:
      - C
      - A
  Z: {time: 4, after: A}
  Y: {time: 5, after: [Z, D]}
`;

async function into(table: string, line = LINE, ...more: string[]) {
  const files = { "l.yaml": line, "t.csv": table };
  const ran = await runLinepoise({ args: ["import", "t.csv", "--into", "l.yaml", ...more], files });
  const changed = ran.files["l.yaml"]!.split("\n").filter((text) => !line.split("\n").includes(text));
  return { ...ran, text: ran.files["l.yaml"]!, changed };
}

test("A table that says what the line says changes no byte", async () => {
  const { text, stdout } = await into('id,time (s),pred\nA,10,\nB,20,A\nC,30,"A, B"\nD,30,"C, A"\n');
  expect(text).toBe(LINE);
  expect(stdout).toContain("Nothing of l.yaml changes");
});

test("A task that the line names twice in `after` is named as the table has it, once", async () => {
  const line =
    "unit: s\ntasks:\n  A: 10\n  B: {time: 20, after: [A, A]}\n  C: {time: 30, after: [B, A, B]}\n";
  expect((await into("id,time (s),pred\nA,10,\nB,20,A\nC,30,A B\n", line)).stdout).toContain(
    "Nothing of l.yaml changes",
  );
  const { changed } = await into("id,time (s),pred\nA,10,\nB,20,A\nC,30,B\n", line);
  expect(changed).toEqual(["  C: {time: 30, after: B}"]);
});

test("Times of models that are all the same are one time where the line has one for all", async () => {
  const line =
    "line: x\nunit: s\nmodels: {S: 60 %, M: 40 %}\ntasks:\n  A: {time: 10}\n  B: 20\n  C: {time: {S: 5, M: 6}}\n  D: {time: {S: 7, M: '-'}}\n";
  const table = "id,time M (s),time S (s)\nA,10,10\nB,20,20\nC,6,5\nD,-,7\n";
  expect((await into(table, line)).stdout).toContain("Nothing of l.yaml changes");
  const { changed } = await into(table.replace("10,10", "11,11").replace("20,20", "20,21"), line);
  expect(changed).toEqual(["  A: {time: 11}", "  B: {time: {M: 20, S: 21}}"]);
});

test("One time says what a line says of each model where all take as long", async () => {
  const line =
    "unit: s\nmodels: {S: 60 %, M: 40 %}\ntasks:\n  A: {time: {S: 10, M: 10 s}, lift: 3 kg}\n  B: 20\n";
  expect((await into("id,time (s)\nA,10\nB,20\n", line)).stdout).toContain("Nothing of l.yaml changes");
  expect((await into("id,time (s)\nA,11\nB,20\n", line)).stderr).toContain("`time` of A cannot be replaced");
});

test("A new time leaves comments and all other keys as they are, in any way of writing a task", async () => {
  const { text } = await into("id,time (s)\nA,11,\nB,21,\nC,31,\nD,33,\n".replaceAll(",\n", "\n"));
  const wanted = LINE.replace("A: 10 ", "A: 11 ")
    .replace("time: 20", "time: 21")
    .replace("time: 0:30", "time: 31")
    .replace("time: 0.5 min #", "time: 33 #");
  expect(text).toBe(wanted);
});

test("Training has a unit of its own, never that of the times", async () => {
  const { status, stderr, text } = await into("id,time (s),training\nA,10,2\nB,20,90 min\n");
  expect([status, text]).toEqual([2, LINE]);
  expect(stderr).toContain(
    '"2" has no unit; write it in the heading, as in "training (h)", or with the number [training]',
  );
  const { changed } = await into("id,time (s),training (h)\nA,10,2\nB,20,90 min\n");
  expect(changed).toEqual([
    "  A: {time: 10, training: 2 h}     # bare",
    "  B: {name: Do b, time: 20, training: 90 min, people: 2}   # two people",
  ]);
});

test("Skills in another order are the same", async () => {
  const line = "unit: s\ntasks:\n  A: {time: 10, skill: [weld, glue]}\n";
  expect((await into('id,time (s),skill\nA,10,"glue, weld"\n', line)).text).toBe(line);
});

test("Times in another unit than that of the line carry it", async () => {
  const { changed } = await into("id,time (min)\nA,0.5\nB,0:20\n");
  expect(changed).toEqual(["  A: 0.5 min     # bare"]);
});

test("Predecessors that stay keep what they wait for, and those of tasks that the table does not have stay", async () => {
  const { changed } = await into("id,time (s),pred\nA,10,\nB,20,A\nC,30,A\nY,5,C\n");
  expect(changed).toEqual([
    "  C: {time: 0:30, after: {task: A, wait: 5 min}}",
    "  Y: {time: 5, after: [Z, D, C]}",
  ]);
});

test("A task without predecessors in the table loses those that it has, key and all", async () => {
  const { changed } = await into("id,time (s),pred\nA,10,\nZ,4,-\n");
  expect(changed).toEqual(["  Z: {time: 4}"]);
});

test("A precedence of a chain that the table does not have is told, and nothing is written", async () => {
  const { status, text, stderr } = await into("id,time (s),pred\nA,10,\nB,20,-\n");
  expect([status, text]).toEqual([2, LINE]);
  expect(stderr).toContain("B comes behind A in `chains` of the line, and not in the table");
});

test("New tasks stand behind the last one and may name tasks of the line", async () => {
  const { text, stderr } = await into('id,name,time (s),pred\nE,New one,7.5,"D, Z"\n');
  expect(text).toBe(`${LINE}  E: {name: New one, time: 7.5, after: [D, Z]}\n`);
  expect(stderr).toContain("6 tasks of the line stay, as the table does not have them: A, B, C, D, Y, Z");
});

test("A loop over tasks of the line and of the table is told, and nothing is written", async () => {
  const { status, text, stderr } = await into('id,time (s),pred\nE,7.5,Y\nD,30,"C, A, E"\n');
  expect([status, text]).toEqual([2, LINE]);
  expect(stderr).toContain("D -> Y -> E -> D");
});

test("A time by model is refused, and nothing is written", async () => {
  const line = "unit: s\nmodels: {M: 50 %, N: 50 %}\ntasks:\n  A: {time: {M: 1, N: 2}}\n  B: 3\n";
  const { status, text, stderr } = await into("id,time (s)\nA,5\nB,4\n", line);
  expect([status, text]).toEqual([2, line]);
  expect(stderr).toContain("`time` of A cannot be replaced");
});

test("Times by model are changed one by one, and stand in place of a time for all", async () => {
  const line =
    'unit: s\nmodels: {city: 60 %, cargo: 40 %}\ntasks:\n  A: {time: {city: 24, cargo: 38}} # a\n  B:\n    time:\n      city: "-" # none\n      cargo: 46\n  C: 22\n';
  const { text, changed } = await into(
    "id,time cargo (s),time city (s)\nA,38,25\nB,47,-\nC,22,21\nD,3,4\n",
    line,
  );
  expect(changed).toEqual([
    "  A: {time: {city: 25, cargo: 38}} # a",
    "      cargo: 47",
    "  C: {time: {cargo: 22, city: 21}}",
    "  D: {time: {cargo: 3, city: 4}}",
  ]);
  expect(text).toContain('      city: "-" # none\n');
});

test("An alias that would carry a new time to another task is refused", async () => {
  const line = "unit: s\ntasks:\n  A: {time: &t 3}\n  B: {time: *t}\n";
  const { status, text } = await into("id,time (s)\nA,5\n", line);
  expect([status, text]).toEqual([2, line]);
});

test("A comment within a list of predecessors is not thrown away", async () => {
  const line = "unit: s\ntasks:\n  A: 1\n  B: 2\n  C:\n    time: 3\n    after:\n      - A # why\n      - B\n";
  const { status, text, stderr } = await into("id,time (s),pred\nA,1,\nB,2,\nC,3,B\n", line);
  expect([status, text]).toEqual([2, line]);
  expect(stderr).toContain("`after` of C cannot be replaced");
});

test("A wait on one line stands beside a new predecessor, and one over several lines is left to its owner", async () => {
  const line = (after: string) => `unit: s\ntasks:\n  A: 1\n  B: 2\n  C:\n    time: 3\n    after: ${after}\n`;
  const table = 'id,time (s),pred\nA,1,\nB,2,\nC,3,"A, B"\n';
  const { text } = await into(table, line("{task: A, wait: 9 s}"));
  expect(text).toBe(line("[{task: A, wait: 9 s}, B]"));
  const long = line("\n      - task: A\n        wait: 9 s");
  const { status, text: kept, stderr } = await into(table, long);
  expect([status, kept]).toEqual([2, long]);
  expect(stderr).toContain("`after` of C cannot be replaced");
});

test("Parts are compared and replaced as a whole", async () => {
  const line =
    "unit: s\ntasks:\n  A: {time: 1, parts: {HC-12: 2}} # a\n  B: {time: 2, parts: {clip: 1}} # b\n";
  const { text } = await into("id,time (s),parts\nA,1,HC-12 x 2\nB,2,clip x 3; bolt\n", line);
  expect(text).toBe(line.replace("{clip: 1}", "{clip: 3, bolt: 1}"));
});

test("--dry-run shows the lines and writes nothing", async () => {
  const { text, stdout } = await into("id,time (s)\nB,21\n", LINE, "--dry-run");
  expect(text).toBe(LINE);
  expect(stdout).toContain(
    "  line 11\n  -   B: {name: Do b, time: 20, people: 2}   # two people\n  +   B: {name: Do b, time: 21,",
  );
});

test("JSON tells each key that changed", async () => {
  const { stdout } = await into("id,time (s),people\nB,21,1\nE,1,1\n", LINE, "--json");
  expect(JSON.parse(stdout).into).toEqual({
    file: "l.yaml",
    written: true,
    tasks: [
      {
        id: "B",
        isNew: false,
        keys: [
          { key: "time", was: "20", now: "21" },
          { key: "people", was: "2", now: "1" },
        ],
      },
      { id: "E", isNew: true, keys: [{ key: "time", was: null, now: "1" }] },
    ],
  });
});

test("--into goes neither with --out nor with the table itself, and --dry-run not without it", async () => {
  expect((await into("id,time (s)\nB,21\n", LINE, "--out", "o.yaml")).status).toBe(2);
  const files = { "t.csv": "id,time (s)\nB,21\n" };
  for (const args of [["--into", "t.csv"], ["--dry-run"], ["--into", "-"]])
    expect((await runLinepoise({ args: ["import", "t.csv", ...args], files })).status).toBe(2);
});

test("The spreadsheet of the demo says nothing new to the demo line", async () => {
  const line = readPage("examples/cargo-bike.line.yaml");
  const { text } = await into(readPage("examples/cargo-bike.tasks.csv"), line);
  expect(text).toBe(line);
});

test("Whatever times and order a table gives to a line, the line has afterwards, and a second import changes nothing", async () => {
  // Options of blocks ask that something waits for them.
  const start = readPage("examples/cargo-bike.line.yaml").replace(
    /^options:.*\n(?: {2}.*off-line:.*\n)+/mu,
    "",
  );
  const ids = readLine("l.yaml", start).line!.tasks.map(({ id }) => id);
  const row = fc.record({
    time: fc.integer({ min: 1, max: 900 }),
    before: fc.array(fc.nat(), { maxLength: 3 }),
  });
  // In an order in which the return to adjust-gears stands before the test that sends units back.
  const free = ids.filter((id) => !["adjust-gears", "read-result", "roller-run", "hook-up"].includes(id));
  await fc.assert(
    fc.asyncProperty(fc.array(row, { minLength: free.length, maxLength: free.length }), async (rows) => {
      const lines = free.map((id, at) => {
        const { time, before } = rows[at]!;
        const after = at === 0 ? [] : [...new Set(before.map((each) => free[each % at]!))];
        return { id, time: time / 10, after };
      });
      const fixed = [
        "hook-up,34,",
        "roller-run,3,hook-up",
        "adjust-gears,33,",
        'read-result,24,"roller-run, adjust-gears"',
      ];
      const table = `id,time (s),pred\n${lines.map(({ id, time, after }) => `${id},${time},"${after.join(", ")}"`).join("\n")}\n${fixed.join("\n")}\n`;
      const { text, status } = await into(table, start);
      expect(status).toBe(0);
      const { line } = readLine("l.yaml", text);
      for (const { id, time, after } of lines) {
        const number = line!.tasks.findIndex((task) => task.id === id);
        const task = line!.tasks[number]!;
        expect(task.times[0]! / task.quantity).toBe(Math.round(time * 1e6));
        expect(line!.before[number]!.map((each) => line!.tasks[each]!.id).sort()).toEqual([...after].sort());
      }
      expect(text.split("\n").filter((each) => each.trim().startsWith("#"))).toEqual(
        start.split("\n").filter((each) => each.trim().startsWith("#")),
      );
      expect((await into(table, text)).text).toBe(text);
    }),
    { numRuns: 15, seed: 11 },
  );
});
