import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";
import {
  readCommandLine,
  readScenario,
  type Scenario,
  type ScenarioRun,
  writeScenario,
} from "../tools/scenario.js";

const folder = fileURLToPath(new URL(".", import.meta.url));
const names = readdirSync(folder)
  .filter((name) => name.endsWith(".scenario"))
  .sort();

/** What the commands of a scenario do today. */
async function play({ files, runs }: Scenario): Promise<ScenarioRun[]> {
  const played: ScenarioRun[] = [];
  for (const { command } of runs) {
    const { args, env, stdinFrom } = readCommandLine(command);
    const stdin = stdinFrom === null ? {} : { stdin: files[stdinFrom]! };
    const { status, stdout, stderr } = await runLinepoise({ args: [...args], files, env, ...stdin });
    played.push({ command, status, stdout, stderr });
  }
  return played;
}

describe.each(names)("%s", (name) => {
  const path = folder + name;
  const text = readFileSync(path, "utf8");
  const scenario = readScenario(text);

  it(scenario.title, async () => {
    const runs = await play(scenario);
    if (process.env.UPDATE === "1") writeFileSync(path, writeScenario({ ...scenario, runs }));
    else expect(writeScenario({ ...scenario, runs })).toBe(text);
  });
});
