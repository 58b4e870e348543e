import { describe, expect, it } from "vitest";
import { type Context, UsageError } from "../../../src/commands/context.js";
import { watchSearch } from "../../../src/commands/watch-search.js";

/** A context whose clock goes on by 100 ms a look, and what it wrote to standard error. */
function clockwork(showsProgress: boolean, interrupted = false) {
  const notes: string[] = [];
  let now = 0;
  const unused = () => {
    throw new UsageError("not used here");
  };
  const context: Context = {
    readText: unused,
    findFiles: unused,
    readAtRevision: unused,
    readExisting: unused,
    writeText: unused,
    checkTarget: unused,
    isSameFile: unused,
    pathFrom: unused,
    print: unused,
    printLines: unused,
    note: (text) => notes.push(text),
    width: 80,
    noteWidth: 80,
    colour: false,
    showsProgress,
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
    const { context, notes } = clockwork(true);
    const watch = watchSearch(context, undefined);
    for (let look = 0; look < 20; look++) await watch.checkpoint({ ...progress, best: 40 - look });
    watch.close();
    expect(notes.length).toBeLessThan(10);
    expect(notes[0]).toBe("\rthe line, 0 s: best 38, at least 11, 7 partial plans");
    expect(notes.at(-1)).toMatch(/^\r +\r$/u);
  });

  it("writes nothing where standard error is no terminal", async () => {
    const { context, notes } = clockwork(false);
    const watch = watchSearch(context, undefined);
    for (let look = 0; look < 20; look++) await watch.checkpoint(progress);
    watch.close();
    expect(notes).toEqual([]);
  });

  it("ends the search when the time is up, and at once after Ctrl-C", async () => {
    const watch = watchSearch(clockwork(false).context, 0.25);
    const ended = [
      await watch.checkpoint(progress),
      await watch.checkpoint(progress),
      await watch.checkpoint(progress),
    ];
    expect(ended).toEqual([null, null, "time"]);
    expect(await watchSearch(clockwork(false, true).context, undefined).checkpoint(progress)).toBe(
      "interrupted",
    );
  });
});
