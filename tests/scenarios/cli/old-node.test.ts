import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const bin = fileURLToPath(new URL("../../../bin/linepoise.js", import.meta.url));

/** Starts the program under this Node, which says that it is another one. */
function startUnder(version: string) {
  const pretend = `Object.defineProperty(process, "versions", { value: { ...process.versions, node: "${version}" } });`;
  const args = ["--import", `data:text/javascript,${encodeURIComponent(pretend)}`, bin, "--version"];
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { encoding: "utf8" });
  return [status, stdout, stderr];
}

describe("a Node that is too old", () => {
  it("is named with the one that is needed, and nothing else happens", () => {
    for (const version of ["18.19.0", "20.11.1"]) {
      const message = `linepoise: Node 20.12 or later is needed; this is Node ${version}\n`;
      expect(startUnder(version)).toEqual([3, "", message]);
    }
  });
});
