import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { createContext, runInContext } from "node:vm";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));

let folder: string;
/** The packed file. */
let packed: string;

function run(cwd: string, program: string, ...args: readonly string[]) {
  const { status, stdout, stderr } = spawnSync(program, args, { cwd, encoding: "utf8" });
  return { status, stdout, stderr };
}

/** Runs something that must end well. */
function must(cwd: string, program: string, ...args: readonly string[]): string {
  const { status, stdout, stderr } = run(cwd, program, ...args);
  if (status !== 0) throw new Error(`${program} ${args.join(" ")}: ${stdout}${stderr}`);
  return stdout;
}

/** Nothing else is installed with the package, so the registry is never asked. */
const OFFLINE = ["--offline", "--no-audit", "--no-fund", "--ignore-scripts"];

/** The package as its lifecycle packs it, from what is built, in an empty folder that installs the packed file. */
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "packed-"));
  must(root, process.execPath, ".library-types.mjs");
  must(root, "npm", "pack", "--ignore-scripts", "--pack-destination", folder);
  packed = join(folder, `linepoise-${version}.tgz`);
  mkdirSync(join(folder, "user"));
  writeFileSync(join(folder, "user/package.json"), '{"private": true, "type": "module"}\n');
  must(join(folder, "user"), "npm", "install", ...OFFLINE, packed);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the packed library in an empty folder", () => {
  it("brings everything along: nothing else is installed", () => {
    const installed = readdirSync(join(folder, "user/node_modules")).filter((name) => !name.startsWith("."));
    expect(installed).toEqual(["linepoise"]);
    expect(must(join(folder, "user"), "npm", "ls", "--all")).toContain(`linepoise@${version}`);
  });

  it("balances what a script gives it, and can be read for its version and its schemas", () => {
    const script = `
      import { createRequire } from "node:module";
      import { balance, readLine } from "linepoise";
      const { line } = readLine("unit: s\\ntasks: {saw: 35, glue: {time: 40, after: saw}, sand: {time: 20, after: glue}}");
      const { result, plan } = await balance(line, { cycle: "60 s" });
      const require = createRequire(import.meta.url);
      const schema = require("linepoise/shared/plan-file.schema.json");
      console.log(result.outcome, plan.stations.map(({ tasks }) => tasks.join("+")).join(" "), typeof schema.properties);
      console.log(require("linepoise/package.json").version);
    `;
    writeFileSync(join(folder, "user/script.mjs"), script);
    // 95 s of work at 60 s: two stations at least, and glue may share one with either neighbour only.
    expect(must(join(folder, "user"), process.execPath, "script.mjs")).toBe(
      `proved saw glue+sand object\n${version}\n`,
    );
  });

  it.each([
    ["node16", "node16"],
    ["preserve", "bundler"],
  ])(
    "has types that hold in strict programs of module %s, resolved as %s, without types of Node and browsers",
    (module, moduleResolution) => {
      const user = join(folder, "user");
      writeFileSync(join(user, "program.ts"), PROGRAM);
      const compilerOptions = {
        strict: true,
        exactOptionalPropertyTypes: true,
        noUncheckedIndexedAccess: true,
        skipLibCheck: false,
        noEmit: true,
        target: "es2022",
        lib: ["es2022"],
        types: [],
        module,
        moduleResolution,
      };
      writeFileSync(join(user, "tsconfig.json"), JSON.stringify({ compilerOptions, files: ["program.ts"] }));
      const tsc = join(root, "node_modules/typescript/bin/tsc");
      expect(run(user, process.execPath, tsc, "--project", ".")).toEqual({
        status: 0,
        stdout: "",
        stderr: "",
      });
    },
  );

  it("runs where there is nothing of Node, as a bundle for browsers", async () => {
    const script = `
      import { balance, check, readLine, study } from "linepoise";
      globalThis.answer = (async () => {
        const { line } = readLine("unit: s\\ndemand: 60 per hour\\ntasks: {saw: 35, glue: {time: 40, after: saw}, sand: {time: 20, after: glue}}");
        const { result, plan } = await balance(line);
        const verdict = await check(line, plan);
        const times = await study("element;1;2\\nsaw;34,1;35,3\\n", { unit: "s" });
        return [result.outcome, plan.stations.length, verdict.outcome, times.elements[0].observedSeconds].join();
      })();
    `;
    const text = await bundleForBrowser(script);
    const page = {
      TextEncoder,
      TextDecoder,
      performance,
      setTimeout,
      atob,
      btoa,
      Uint8Array,
      answer: undefined,
    };
    runInContext(text, createContext(page));
    expect(await page.answer).toBe("proved,2,fine,34.7");
  });

  it("leaves what a page does not use out of its bundle", async () => {
    const small = await bundleForBrowser('import { jsonText } from "linepoise"; globalThis.text = jsonText;');
    const whole = await bundleForBrowser(
      'import { balance } from "linepoise"; globalThis.balance = balance;',
    );
    expect(whole.length).toBeGreaterThan(100_000);
    expect(small.length).toBeLessThan(whole.length / 2);
  });
});

describe("the packed program, installed for all folders", () => {
  it("tells its version, and balances examples that come along", () => {
    const prefix = join(folder, "global");
    must(folder, "npm", "install", "--global", "--prefix", prefix, ...OFFLINE, packed);
    const linepoise = join(prefix, "bin/linepoise");
    expect(must(folder, linepoise, "--version")).toBe(`${version}\n`);
    const home = join(prefix, "lib/node_modules/linepoise");
    const balanced = ["cargo-bike", "two-models", "faulty"].map(
      (name) => run(home, linepoise, "balance", `examples/${name}.line.yaml`).status,
    );
    expect(balanced).toEqual([0, 0, 2]);
  });
});

/** A script of the user's folder as one text for browsers. */
async function bundleForBrowser(script: string): Promise<string> {
  const { outputFiles, warnings } = await build({
    stdin: { contents: script, resolveDir: join(folder, "user") },
    bundle: true,
    platform: "browser",
    format: "iife",
    write: false,
    logLevel: "silent",
  });
  expect(warnings).toEqual([]);
  return outputFiles[0]!.text;
}

/** What a program may do with the types, and what they refuse. */
const PROGRAM = `
import { balance, type BalanceResult, check, findingsText, jsonText, type Line, type Plan, readLine, rebalance, takt, UsageError } from "linepoise";

export async function stationsOf(text: string, signal: { readonly aborted: boolean }): Promise<readonly string[]> {
  const reading = readLine(text, { file: "my.line.yaml" });
  if (reading.line === null) throw new Error(findingsText(reading.findings, { "my.line.yaml": text }));
  const line: Line = reading.line;
  const { result, plan } = await balance(line, { demand: "176 per day", method: "best", nodes: 1000, signal });
  if (result.outcome === "refused") return result.findings.map(({ rule, message }) => \`\${rule}: \${message}\`);
  const efficiency: number | null = result.measures?.efficiencyAtPace ?? null;
  return [jsonText(result), String(efficiency), ...result.stations.map(({ id, seconds }) => \`\${id} \${seconds.toFixed(1)}\`), ...(plan?.stations ?? []).flatMap(({ tasks }) => tasks)];
}

export async function verdict(line: Line, plan: Plan): Promise<"fine" | "wrong" | "refused"> {
  const { outcome } = await check(line, [plan], { failOn: "warning" });
  const moved = await rebalance(line, plan, { maxMoves: 2 });
  if (moved.result.outcome !== "refused") for (const { task, from } of moved.result.moves) if (task === from) return "wrong";
  return outcome;
}

export const lineCycle = (line: Line): number => {
  const answer = takt(line);
  return answer.outcome === "refused" ? Number.NaN : answer.pace.lineCycleSeconds;
};

export const isWrongUse = (error: unknown): error is UsageError => error instanceof UsageError;
export const outcomes: readonly BalanceResult["outcome"][] = ["proved", "found", "infeasible", "stopped"];

// @ts-expect-error an option of another name
export const misspelt = (line: Line) => balance(line, { demad: "176 per day" });
// @ts-expect-error a ranking that does not exist
export const unknown = (line: Line) => balance(line, { method: "fastest" });
// @ts-expect-error a text is no line
export const text = () => takt("demand: 60 per hour");
`;
