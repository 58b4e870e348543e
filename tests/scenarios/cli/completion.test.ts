import { spawnSync } from "node:child_process";
import { describe, expect, it, test } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

const SHELLS = ["bash", "zsh", "fish", "powershell"];

async function scriptFor(shell: string): Promise<string> {
  const { status, stdout, stderr } = await runLinepoise({ args: ["completion", shell] });
  expect([status, stderr]).toEqual([0, ""]);
  return stdout;
}

/** The commands of the help, each with its long options. */
async function helpTells(): Promise<Map<string, string[]>> {
  const { stdout } = await runLinepoise({ args: ["help"] });
  const names = [...stdout.matchAll(/^ {2}([a-z-]+) [[<]/gm)].map(([, name]) => name!);
  const options = names.map(async (name) => {
    const help = await runLinepoise({ args: [name, "--help"] });
    const flags = [...help.stdout.matchAll(/^ {2}(?:-h, )?--([a-z-]+)/gm)].map(([, flag]) => flag!);
    return [name, flags] as const;
  });
  return new Map(await Promise.all(options));
}

/** What bash offers for the last of these words. */
function offeredByBash(script: string, ...words: string[]): string[] {
  const call = `\nCOMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _linepoise; printf "%s\\n" "\${COMPREPLY[@]}"`;
  const { stdout, status } = spawnSync("bash", ["-c", script + call, "bash", "linepoise", ...words], {
    encoding: "utf8",
  });
  expect(status).toBe(0);
  return stdout.split("\n").filter((line) => line !== "");
}

describe("the completion script", () => {
  it.each(SHELLS)("of %s has every command and every option that the help has", async (shell) => {
    const script = await scriptFor(shell);
    const tells = await helpTells();
    expect(tells.size).toBeGreaterThan(10);
    const missing = [...tells].flatMap(([name, flags]) => {
      const line = script
        .split("\n")
        .filter((each) => each.includes(name))
        .join("\n");
      const isThere = (flag: string) => line.includes(shell === "fish" ? `-l ${flag} ` : `--${flag}`);
      return flags.filter((flag) => !isThere(flag)).map((flag) => `${name} --${flag}`);
    });
    expect(missing).toEqual([]);
  });

  test("of bash completes commands, options of the command, and the words of the first argument", async () => {
    const script = await scriptFor("bash");
    expect(offeredByBash(script, "ba")).toEqual(["balance"]);
    expect(offeredByBash(script, "balance", "line.yaml", "--no")).toEqual([
      "--nodes",
      "--no-level",
      "--no-guard",
    ]);
    expect(offeredByBash(script, "completion", "")).toEqual(SHELLS);
    expect(offeredByBash(script, "help", "of")).toEqual(["off-line"]);
  });

  test("of bash leaves files to the shell", async () => {
    const script = await scriptFor("bash");
    expect(offeredByBash(script, "takt", "exam")).toEqual([]);
    expect(script).toContain("complete -o default ");
  });

  test("is refused for another shell, with those that there are", async () => {
    const { status, stderr } = await runLinepoise({ args: ["completion", "csh"] });
    expect(status).toBe(2);
    expect(stderr).toContain("bash, zsh, fish, powershell");
  });
});
