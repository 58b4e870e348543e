import { describe, expect, it } from "vitest";
import { benchmark, UnreadableError } from "../../../src/benchmark/benchmark-command.js";

/** Runs the command on files held in memory, with a clock that stands still. */
async function run(words: string[], files: Record<string, string> = {}) {
  let [stdout, stderr] = ["", ""];
  const status = await benchmark(words, {
    readText: (path) => {
      const text = files[path];
      if (text === undefined) throw new UnreadableError("ENOENT");
      return text;
    },
    tellResult: (text) => {
      stdout += text;
    },
    tellAside: (text) => {
      stderr += text;
    },
    now: () => 0,
  });
  return { status, stdout, stderr };
}

/** Limit 6: 3 | 4 2, and 5 | 5 with a published bound that is one too high. */
const ROWS = [
  '{"name":"three","cycle":6,"times":[3,4,2],"precedence":[[1,2],[2,3]],"published":{"lower":2,"upper":2}}',
  '{"name":"two","cycle":6,"times":[5,5],"precedence":[],"published":{"lower":3,"upper":3}}',
].join("\n");

describe("the benchmark command", () => {
  it("ends with one line of totals", async () => {
    expect(await run(["--lines", "rows.jsonl"], { "rows.jsonl": ROWS })).toEqual({
      status: 0,
      stdout: '{"lines":2,"proved":2,"stations":4,"wrong":1,"seconds":0}\n',
      stderr: "",
    });
  });

  it("says a line for each row it takes when asked to", async () => {
    expect(await run(["--lines", "rows.jsonl", "--every", "1", "--each"], { "rows.jsonl": ROWS })).toEqual({
      status: 0,
      stdout: '{"lines":2,"proved":2,"stations":4,"wrong":1,"seconds":0}\n',
      stderr:
        "three: 2 stations, proved, 0 nodes, 0 s\n" +
        "two: 2 stations, proved, 0 nodes, 0 s, wrong: 2 stations, fewer than the published 3\n",
    });
  });

  it.each([
    [
      ["--lines", "absent.jsonl"],
      "error: cannot read absent.jsonl: ENOENT; usage: benchmark --lines FILE.jsonl [--seconds S] [--every K] [--each]\n",
    ],
    [["--lines", "broken.jsonl"], "error: broken.jsonl:3: this is no JSON: {\n"],
    [["--seconds", "3"], "error: --lines FILE.jsonl is missing\n"],
  ])("refuses %j in one line", async (words, stderr) => {
    expect(await run(words, { "broken.jsonl": `${ROWS}\n{\n` })).toEqual({ status: 2, stdout: "", stderr });
  });

  it("finds a malformed row among those it would not take", async () => {
    const { status } = await run(["--lines", "broken.jsonl", "--every", "9"], {
      "broken.jsonl": `${ROWS}\n{\n`,
    });
    expect(status).toBe(2);
  });
});
