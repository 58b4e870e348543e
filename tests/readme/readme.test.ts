import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { COMMANDS } from "../../src/cli/program.js";
import { lineFileKeys } from "../../src/line/line-file.js";
import { METHODS } from "../../src/solve/methods.js";
import { runLinepoise } from "../tools/run-linepoise.js";

const root = fileURLToPath(new URL("../../", import.meta.url));
const read = (path: string) => readFileSync(`${root}${path}`, "utf8");
const CONSOLE = /^```console\n\$ npx linepoise (.*)\n(?:[\s\S]*?)^```$/gm;
const KEYS = /(<!-- keys: written by the tests -->\n)[\s\S]*?(<!-- end of keys -->)/;

/** Files that the README's commands may read, by the paths used there. */
function exampleFiles(): Record<string, string> {
  const names = readdirSync(`${root}examples`).filter((name) => name.endsWith(".yaml"));
  return Object.fromEntries(names.map((name) => [`examples/${name}`, read(`examples/${name}`)]));
}

/** The README as it must read: each console block with what its command prints now, and the table of keys. */
async function currentReadme(): Promise<string> {
  let text = read("README.md");
  for (const [block, command = ""] of text.matchAll(CONSOLE)) {
    const { stdout, stderr } = await runLinepoise({ args: command.split(" "), files: exampleFiles() });
    text = text.replace(block, () => `\`\`\`console\n$ npx linepoise ${command}\n${stdout}${stderr}\`\`\``);
  }
  const rows = lineFileKeys().map(({ key, meaning }) => `| \`${key}\` | ${meaning} |`);
  return text.replace(KEYS, (_, start, end) =>
    [start, "\n| key | meaning |\n| --- | --- |\n", rows.join("\n"), "\n\n", end].join(""),
  );
}

describe("the README", () => {
  beforeAll(async () => {
    if (process.env.UPDATE === "1") writeFileSync(`${root}README.md`, await currentReadme());
  });

  it("shows what its commands print and the keys that are honoured", async () => {
    expect(read("README.md")).toBe(await currentReadme());
  });

  it("runs the demo, the takt sum, a starter, options, a rebalance, two models, a check and a faulty file", () => {
    expect([...read("README.md").matchAll(CONSOLE)].map(([, command]) => command)).toEqual([
      "balance examples/cargo-bike.line.yaml",
      "new my.line.yaml",
      "takt examples/cargo-bike.line.yaml",
      "compare examples/cargo-bike.line.yaml",
      "rebalance examples/cargo-bike.line.yaml --from examples/last-season.plan.yaml",
      "balance examples/two-models.line.yaml",
      "check examples/cargo-bike.line.yaml examples/last-season.plan.yaml",
      "balance examples/faulty.line.yaml",
    ]);
  });

  it("names two commands for a fresh clone, and CI runs those", () => {
    const two = ["npm ci && npm run demo", "npm ci && npm test"];
    for (const command of two) {
      expect(read("README.md").split("\n")).toContain(command);
      expect(read(".ci/run").split("\n")).toContain(command);
    }
  });

  it("has a row for every command, every option of balance and every method", async () => {
    const { stdout } = await runLinepoise({ args: ["balance", "--help"] });
    const options = [...stdout.matchAll(/^ {2}(--[a-z-]+)/gm)].map(([, option]) => option!);
    const shared = ["--json", "--out", "--force", "--help"];
    const text = read("README.md");
    const help = await runLinepoise({ args: ["--help"] });
    const commands = [...help.stdout.matchAll(/^ {2}([a-z-]+) \[options\]/gm)].map(([, command]) => command!);
    expect(commands).toHaveLength(COMMANDS.length);
    expect(commands.filter((command) => !text.includes(`| \`${command}`))).toEqual([]);
    expect(options.filter((option) => !shared.includes(option) && !text.includes(`| \`${option}`))).toEqual(
      [],
    );
    expect(METHODS.filter((method) => !text.includes(`\`${method}\``))).toEqual([]);
  });
});
