import { spawn } from "node:child_process";
import { once } from "node:events";
import { cp, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { transform } from "esbuild";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { writeWholeFiles } from "../../../src/cli/whole-files.js";
import { runInShell } from "../../tools/run-linepoise.js";

const project = fileURLToPath(new URL("../../..", import.meta.url));
const preload = new URL("die-at-call.mjs", import.meta.url).href;

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "killed-"));
});
afterAll(() => rm(folder, { recursive: true }));

/** How a Node process ends that dies at a call of the file system. */
async function dieAt(call: number | string, words: readonly string[], cwd = folder): Promise<unknown[]> {
  const child = spawn(process.execPath, ["--import", preload, ...words], {
    cwd,
    env: { ...process.env, DIE_AT: String(call) },
    stdio: "ignore",
  });
  return once(child, "exit");
}

const isPart = (name: string) => name.endsWith(".part");

describe("a run that is killed", () => {
  it("leaves files old or new, never a part, at every call of the file system, and the next one clears what is left", async () => {
    const source = await readFile(join(project, "src/cli/whole-files.ts"), "utf8");
    const { code } = await transform(source, { loader: "ts", format: "esm" });
    await writeFile(join(folder, "whole-files.mjs"), code);
    const [before, after] = ["old\n", "new\n".repeat(50_000)];
    const script = `import { writeWholeFiles } from "./whole-files.mjs";
      const content = Buffer.from(${JSON.stringify(after.slice(0, 4))}.repeat(50_000));
      await writeWholeFiles(["there.txt", "fresh.txt"].map((name) => ({ target: process.cwd() + "/files/" + name, content })));`;
    await writeFile(join(folder, "write.mjs"), script);
    const files = join(folder, "files");
    let sawParts = 0;
    const seen = new Set<string>();
    for (let call = 1; ; call++) {
      await rm(files, { recursive: true, force: true });
      await mkdir(files);
      await writeFile(join(files, "there.txt"), before);
      const [status, signal] = await dieAt(call, ["write.mjs"]);
      const names = await readdir(files);
      const there = await readFile(join(files, "there.txt"), "utf8");
      const fresh = names.includes("fresh.txt") ? await readFile(join(files, "fresh.txt"), "utf8") : null;
      expect([before, after]).toContain(there);
      expect([null, after]).toContain(fresh);
      seen.add(`${there === before ? "old" : "new"} ${fresh === null ? "none" : "new"}`);
      sawParts += names.filter(isPart).length;
      await writeWholeFiles([{ target: join(files, "third.txt"), content: Buffer.from("x") }]);
      expect((await readdir(files)).filter(isPart)).toEqual([]);
      if (signal === null) {
        expect([status, names.sort(), call > 12]).toEqual([0, ["fresh.txt", "there.txt"], true]);
        break;
      }
      expect(signal).toBe("SIGKILL");
    }
    expect(sawParts).toBeGreaterThan(8);
    expect([...seen].sort()).toEqual(["new new", "new none", "old none"]);
  });

  it.each([
    ["balance cargo-bike.line.yaml --nodes 500 --write cargo-bike.plan.yaml", "cargo-bike.plan.yaml"],
    ["report cargo-bike.line.yaml cargo-bike.plan.yaml --out old.html --force", "old.html"],
    ["sheets cargo-bike.line.yaml cargo-bike.plan.yaml --out ./ --force", "S1.html"],
    [
      "study cargo-bike.readings.csv --unit s --leave-out * --into cargo-bike.line.yaml",
      "cargo-bike.line.yaml",
    ],
    ["import cargo-bike.tasks.csv --into basket.line.yaml", "basket.line.yaml"],
  ])("halfway through %s keeps the file that it would replace", async (words, file) => {
    const examples = join(folder, "examples");
    await rm(examples, { recursive: true, force: true });
    await cp(join(project, "examples"), examples, { recursive: true });
    for (const name of ["old.html", "S1.html"]) await writeFile(join(examples, name), "old\n");
    const names = await readdir(examples);
    const before = await readFile(join(examples, file), "utf8");
    const args = [join(project, "bin/linepoise.js"), ...words.split(" ")];
    expect(await dieAt("writeFile", args, examples)).toEqual([null, "SIGKILL"]);
    expect(await readFile(join(examples, file), "utf8")).toBe(before);
    const left = (await readdir(examples)).filter((name) => !names.includes(name));
    expect([left.length, left.every(isPart)]).toEqual([1, true]);
  });
});

describe("a disk without room", () => {
  it("leaves what was there, of one file and of many, and says so in one line with status 3", async () => {
    const files = join(folder, "full");
    await mkdir(files);
    await writeFile(join(files, "r.html"), "old\n");
    const plan = "examples/cargo-bike.line.yaml examples/cargo-bike.plan.yaml";
    // A file of one kilobyte at the most, which a short write would leave cut off.
    const limited = (words: string) => runInShell(`ulimit -f 1; $LINEPOISE ${words}`, { FILES: files });
    const one = await limited(`report ${plan} --out $FILES/r.html --force`);
    const path = (name: string) => JSON.stringify(join(files, name));
    expect(one).toEqual({
      status: 3,
      stdout: "",
      stderr: `error: ${path("r.html")} could not be written: file too large; the file that stands there is kept\n`,
    });
    const many = await limited(`sheets ${plan} --out $FILES/`);
    expect(many).toEqual({
      status: 3,
      stdout: "",
      stderr: `error: ${path("S1.html")} could not be written: file too large; none of the 12 files is written\n`,
    });
    expect(await readdir(files)).toEqual(["r.html"]);
    expect(await readFile(join(files, "r.html"), "utf8")).toBe("old\n");
  });
});
