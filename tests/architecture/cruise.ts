import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

/** A broken import rule: its name and the two ends of the import. */
export interface Violation {
  readonly rule: string;
  readonly from: string;
  readonly to: string;
}

interface Report {
  readonly modules: readonly unknown[];
  readonly summary: {
    readonly violations: readonly { from: string; to: string; rule: { name: string } }[];
    readonly totalCruised: number;
  };
}

export const projectFolder = fileURLToPath(new URL("../../", import.meta.url));
const tool = fileURLToPath(
  new URL("../../node_modules/dependency-cruiser/bin/dependency-cruise.mjs", import.meta.url),
);

/** Runs the project's import rules over the given folders below `folder`; returns every violation. */
export function cruise(folder: string, ...below: string[]): { violations: Violation[]; modules: number } {
  const args = [tool, "--config", ".dependency-cruiser.cjs", "--output-type", "json", ...below];
  const { stdout, stderr, error } = spawnSync(process.execPath, args, {
    cwd: folder,
    encoding: "utf8",
    maxBuffer: 64 * 1024 * 1024,
  });
  if (error) throw error;
  if (!stdout.startsWith("{")) throw new Error(`the import rules did not run: ${stderr}`);
  const { summary } = JSON.parse(stdout) as Report;
  return {
    violations: summary.violations.map(({ from, to, rule }) => ({ rule: rule.name, from, to })),
    modules: summary.totalCruised,
  };
}
