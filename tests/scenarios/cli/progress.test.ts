import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import { type Context, UsageError } from "../../../src/commands/context.js";
import { watchSearch } from "../../../src/commands/watch-search.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

/** A context whose clock goes on by 100 ms a look, and what it wrote to standard error. */
function clockwork(progressWidth: number, interrupted = false) {
  const notes: string[] = [];
  let now = 0;
  const unused = () => {
    throw new UsageError("not used here");
  };
  const context: Context = {
    readText: unused,
    readBytes: unused,
    findFiles: unused,
    readAtRevision: unused,
    readExisting: unused,
    writeText: unused,
    writeTexts: unused,
    checkTarget: unused,
    isSameFile: unused,
    pathFrom: unused,
    watchFiles: unused,
    print: unused,
    printLines: unused,
    note: (text) => notes.push(text),
    width: 80,
    noteWidth: 80,
    colour: false,
    progressWidth,
    now: () => {
      now += 100;
      return now;
    },
    breathe: () => Promise.resolve(),
    interrupted: () => interrupted,
  };
  return { context, notes };
}

const progress = { nodes: 7, best: 12, bound: 11 };

describe("the watch over a search", () => {
  it("shows best, bound and time on a terminal, not at every look, and takes the line away", async () => {
    const { context, notes } = clockwork(79);
    const watch = watchSearch(context, undefined);
    for (let look = 0; look < 20; look++) await watch.checkpoint({ ...progress, best: 40 - look });
    watch.close();
    expect(notes.length).toBeLessThan(10);
    expect(notes[0]!.trimEnd()).toBe("\rthe line, 0 s: best 38, at least 11, 7 partial plans");
    expect(notes.at(-1)).toMatch(/^\r +\r$/u);
  });

  it("ends the first of two searches when half of the time is up, the second with the time, and what follows after half as long again", async () => {
    const endOf = async (which: "checkpoint" | "firstOfTwo" | "afterwards", seconds = 4) => {
      const { context } = clockwork(0);
      const watch = watchSearch(context, seconds);
      let looks = 0;
      while ((await watch[which](progress)) === null) looks++;
      return looks;
    };
    // The clock has shown 100 ms when the watch begins, and goes on by as much at each look.
    expect(await endOf("firstOfTwo")).toBe(19);
    expect(await endOf("firstOfTwo", 20)).toBe(99);
    // Of a short time it has more: 1.5 of 2 s, 2 of 3 s.
    expect(await endOf("firstOfTwo", 2)).toBe(14);
    expect(await endOf("firstOfTwo", 3)).toBe(19);
    expect(await endOf("checkpoint")).toBe(39);
    expect(await endOf("afterwards", 20)).toBe(299);
    // However short the time of the searches is.
    expect(await endOf("afterwards")).toBe(89);
  });

  it("keeps the line within the terminal, however narrow it is and however wide a name", async () => {
    for (const width of [8, 20, 49]) {
      const { context, notes } = clockwork(width);
      const watch = watchSearch(context, undefined);
      for (let look = 0; look < 20; look++) {
        await watch.checkpoint({
          ...progress,
          nodes: look,
          option: { name: "電池を外す, with a name of its own", turn: { at: 1, of: 2 } },
        });
      }
      watch.close();
      expect(notes.length).toBeGreaterThan(2);
      expect(notes.map((note) => stringWidth(note.replaceAll("\r", "")))).toEqual(notes.map(() => width));
    }
  });

  it.each([
    [40, "the line, 0 s: best 38, at least 11"],
    [30, "the line, 0 s: best 38"],
    [20, "the line, 0 s"],
    [7, "the"],
    [2, "th"],
  ])("is cut in %i columns behind its last part that fits, not in a word", async (width, shown) => {
    const { context, notes } = clockwork(width);
    const watch = watchSearch(context, undefined);
    for (let look = 0; look < 4; look++) await watch.checkpoint({ ...progress, best: 40 - look });
    watch.close();
    expect(notes[0]!.replace("\r", "").trimEnd()).toBe(shown);
  });

  it("fits a terminal of 50 columns on a machine so slow that every look is late", async () => {
    const line = "line: Bike\nunit: s\ndemand: 30 per hour\nmodels: {city: 60 %, cargo: 40 %}\ntasks:\n";
    const tasks = Array.from(
      { length: 24 },
      (_, at) => `  t${at}: {time: {city: ${20 + 7 * at}, cargo: "-"}}\n`,
    );
    let seconds = 0;
    const { stderr } = await runLinepoise({
      args: ["balance", "line.yaml", "--nodes", "20000"],
      files: { "line.yaml": line + tasks.join("") },
      terminal: 50,
      now: () => 1000 * seconds++,
    });
    const frames = stderr.split(/[\r\n]/u);
    expect(frames.filter((frame) => frame.includes(" s: best ")).length).toBeGreaterThan(0);
    expect(frames.filter((frame) => stringWidth(frame) >= 50)).toEqual([]);
  });

  it("counts the plans of a long check on a terminal", async () => {
    const plan = "format: linepoise-plan/1\nstations: [{id: S1, tasks: [a]}]\n";
    const names = Array.from({ length: 9 }, (_, at) => `${at}.plan.yaml`);
    let seconds = 0;
    const { stderr } = await runLinepoise({
      args: ["check", "line.yaml", "*.plan.yaml"],
      files: {
        "line.yaml": "unit: s\ndemand: 30 per hour\ntasks: {a: 5}\n",
        ...Object.fromEntries(names.map((name) => [name, plan])),
      },
      terminal: 50,
      now: () => 1000 * seconds++,
    });
    const frames = stderr.split(/[\r\n]/u).map((frame) => frame.trimEnd());
    const shown = frames.filter((frame) => /^\d of 9 plans checked, \d+ s$/u.test(frame));
    expect(shown.map((frame) => Number(frame[0]))).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
  });

  it.each([
    ["balance", "line.yaml"],
    ["off-line", "line.yaml"],
    ["compare", "line.yaml"],
    ["rebalance", "line.yaml", "--from", "today.yaml"],
    ["rebalance", "line.yaml", "--from", "today.yaml", "--demand", "28, 31"],
    ["staff", "line.yaml", "--demand", "26..30/2", "--from", "today.yaml"],
    ["show", "line.yaml", "today.yaml", "--proof"],
  ])(
    "%s shows progress on a terminal, takes it away in the end, and writes none in a pipe",
    async (...args) => {
      const tasks = Array.from({ length: 16 }, (_, at) => {
        const after = at < 4 ? "" : `, after: [t${at - 4 + (at % 3)}]`;
        return `  t${at}: {time: ${21 + ((at * 17) % 40)}${after}}\n`;
      });
      const stations = Array.from({ length: 16 }, (_, at) => `  - {id: S${at + 1}, tasks: [t${at}]}\n`);
      const files = {
        "line.yaml": `line: Bike\nunit: s\ndemand: 30 per hour\noptions:\n  slower: {demand: 24 per hour}\ntasks:\n${tasks.join("")}`,
        "today.yaml": `format: linepoise-plan/1\nstations:\n${stations.join("")}`,
      };
      let seconds = 0;
      const run = { args: [...args, "--nodes", "2000"], files, now: () => 1000 * seconds++ };
      const [shown, piped] = [await runLinepoise({ ...run, terminal: 80 }), await runLinepoise(run)];
      expect(shown.stderr).toMatch(/\r[^\r\n]*, \d+ s\b/u);
      // The last that is written of it covers it with spaces and goes back.
      const parts = shown.stderr.split("\r");
      expect(parts.at(-2)!.trim()).toBe("");
      expect(parts.at(-1)).not.toMatch(/ partial plans|, \d+ s:/u);
      expect(piped.stderr).not.toContain("\r");
      expect(shown.status).toBe(piped.status);
    },
  );

  it("writes nothing where standard error is no terminal", async () => {
    const { context, notes } = clockwork(0);
    const watch = watchSearch(context, undefined);
    for (let look = 0; look < 20; look++) await watch.checkpoint(progress);
    watch.close();
    expect(notes).toEqual([]);
  });

  it("ends the search when the time is up, and at once after Ctrl-C", async () => {
    const watch = watchSearch(clockwork(0).context, 0.25);
    const ended = [
      await watch.checkpoint(progress),
      await watch.checkpoint(progress),
      await watch.checkpoint(progress),
    ];
    expect(ended).toEqual([null, null, "time"]);
    expect(await watchSearch(clockwork(0, true).context, undefined).checkpoint(progress)).toBe("interrupted");
  });
});
