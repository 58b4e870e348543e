import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it, vi } from "vitest";
import { CAUTION } from "../../../src/report/cautions.js";
import { PAGE_SCRIPT } from "../../../src/report/html/page-script.js";
import { readCsv } from "../../../src/table/read-csv.js";
import { elementsNamed, readMarkup } from "../../tools/read-markup.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

const root = fileURLToPath(new URL("../../../", import.meta.url));
const example = (name: string) => readFileSync(`${root}examples/${name}`, "utf8");
const files = {
  "bike.line.yaml": example("cargo-bike.line.yaml"),
  "bike.plan.yaml": example("cargo-bike.plan.yaml"),
  "old.plan.yaml": example("last-season.plan.yaml"),
};
const report = (...options: string[]) =>
  runLinepoise({ args: ["report", "bike.line.yaml", "bike.plan.yaml", ...options], files });

describe("The page of a report", () => {
  it("is well formed, needs no file and no network, and lets nothing but its own script run", async () => {
    for (const options of [[], ["--against", "old.plan.yaml"], ["--proof", "--nodes", "2000"]]) {
      const { stdout, status } = await report(...options);
      expect(status).toBe(0);
      const scripts = elementsNamed(readMarkup(stdout), "script").map(({ text }) => text);
      expect(scripts).toEqual([PAGE_SCRIPT.text]);
      expect(stdout).toContain(`script-src &#39;sha256-${PAGE_SCRIPT.digest}&#39;`);
      expect(stdout).toContain("default-src &#39;none&#39;");
      expect(stdout).not.toMatch(/<link|<img|src=|@import|https?:\/\/(?!www\.w3\.org\/2000\/svg)/u);
      expect(stdout).toContain(CAUTION);
      // Text in columns has its lines, not signs for their ends.
      expect(stdout).not.toContain("␊");
      expect(stdout.endsWith("</html>\n")).toBe(true);
    }
  });

  it("says what `show` says of the plan", async () => {
    const { stdout: shown } = await runLinepoise({
      args: ["show", "bike.line.yaml", "bike.plan.yaml", "--json"],
      files,
    });
    const { stations, measures } = JSON.parse(shown);
    const { stdout } = await report("--format", "csv");
    const { table } = readCsv("report.csv", new TextEncoder().encode(stdout), {});
    const rows = table!.rows.slice(1).map((row) => row.map(({ text }) => text));
    for (const { id, tasks, seconds, limitSeconds } of stations) {
      const own = rows.filter(([station]) => station === id);
      expect(own.map((row) => row[2])).toEqual(tasks);
      for (const row of own) {
        expect(Number(row[8])).toBeCloseTo(seconds, 3);
        expect(Number(row[9])).toBeCloseTo(limitSeconds, 3);
      }
    }
    const json = JSON.parse((await report("--json")).stdout);
    expect(json.measures).toEqual(measures);
    expect(json.stations).toEqual(stations);
  });

  it("tells the tasks that moved since another plan, in every format", async () => {
    const { stdout } = await report("--against", "old.plan.yaml", "--json");
    const { against, order } = JSON.parse(stdout);
    const oldStations = new Map(
      [...files["old.plan.yaml"].matchAll(/id: (S\d+)[\s\S]*?tasks: \[([^\]]*)\]/gu)].flatMap(
        ([, id, tasks = ""]) => tasks.split(",").map((task) => [task.trim(), id] as const),
      ),
    );
    expect(oldStations.size).toBeGreaterThan(30);
    for (const { task, from } of against.moves) expect(oldStations.get(task)).toBe(from);
    const columns: { id: string; tasks: string[] }[] = order.columns;
    const moved = columns.flatMap(({ id, tasks }) =>
      tasks.filter((task) => oldStations.has(task) && oldStations.get(task) !== id),
    );
    expect(against.moves.map(({ task }: { task: string }) => task)).toEqual(moved);
    const page = (await report("--against", "old.plan.yaml")).stdout;
    expect(page).toContain(`${moved.length} tasks move.`);
    const markdown = (await report("--against", "old.plan.yaml", "--format", "markdown")).stdout;
    expect(markdown).toContain(`${moved.length} tasks move.`);
  });

  it("escapes names that look like markup", async () => {
    const line =
      "line: <i>x</i>\nunit: s\ndemand: 60 per hour\ntasks:\n  \"<b>&'\": {time: 10, name: '<script>', caution: '<u>'}\n";
    const plan = 'format: linepoise-plan/1\nline: a.line.yaml\nstations: [{id: "<s>", tasks: ["<b>&\'"]}]\n';
    const { stdout } = await runLinepoise({
      args: ["report", "a.line.yaml", "a.plan.yaml"],
      files: { "a.line.yaml": line, "a.plan.yaml": plan },
    });
    readMarkup(stdout);
    expect(stdout.replace(`<script>${PAGE_SCRIPT.text}</script>`, "")).not.toMatch(/<(?:i|b|u|s|script)>/u);
    expect(stdout).toContain("&lt;script&gt; (&lt;b&gt;&amp;&#39;)");
  });

  it("has the options as `compare` works them out beside the plan, and names them where nobody asks", async () => {
    const small = {
      "a.line.yaml":
        "unit: s\ndemand: 60 per hour\ntasks: {a: 40, b: {time: 20, after: a}, c: 30, d: {time: 25, after: [b, c]}}\noptions: {c-off-line: {off-line: [[c]]}}\n",
      "a.plan.yaml":
        "format: linepoise-plan/1\nline: a.line.yaml\nstations: [{id: S1, tasks: [a]}, {id: S2, tasks: [b, c]}, {id: S3, tasks: [d]}]\n",
    };
    const run = (...args: string[]) => runLinepoise({ args, files: small });
    const { stdout } = await run("report", "a.line.yaml", "a.plan.yaml", "--options", "--json");
    const compared = await run("compare", "a.line.yaml", "--from", "a.plan.yaml", "--json");
    const { format, command, line, caution, ...facts } = JSON.parse(compared.stdout);
    expect(JSON.parse(stdout).options).toEqual(facts);
    const page = (await run("report", "a.line.yaml", "a.plan.yaml", "--options")).stdout;
    readMarkup(page);
    expect(page).toContain('id="options-name"');
    const plain = (await run("report", "a.line.yaml", "a.plan.yaml")).stdout;
    expect(plain).toContain("The line has the option c-off-line; report --options puts it beside");
  });

  it("has the chance that each station keeps the pace where one is asked for, on the page and in Markdown", async () => {
    const varying = {
      "a.line.yaml":
        "unit: s\ndemand: 36 per hour\nkeep-pace: 95 %\ntasks: {a: {time: 60, spread: 6}, b: {time: 80, spread: 8}}\n",
      "a.plan.yaml":
        "format: linepoise-plan/1\nline: a.line.yaml\nstations: [{id: S1, tasks: [a]}, {id: S2, tasks: [b]}]\n",
    };
    const run = async (...options: string[]) =>
      (await runLinepoise({ args: ["report", "a.line.yaml", "a.plan.yaml", ...options], files: varying }))
        .stdout;
    // 80 s and 1.6449 standard deviations of 8 s (NIST/SEMATECH e-Handbook, section 1.3.6.7.1) are 93.159 s of 100 s.
    const table = elementsNamed(readMarkup(await run()), "tr").map(({ children }) =>
      children.map(({ text }) => text),
    );
    const [kept] = table.filter(
      ([id, time, deviation]) => id === "S2" && time === "80 s" && deviation === "8 s",
    );
    expect(kept!.slice(3, 6)).toEqual(["93.159 s", "100 s", "80 %"]);
    // Phi(2.5) = 0.99379.
    expect(kept![6]).toBe("99.4 %");
    const markdown = await run("--format", "markdown");
    expect(markdown).toContain("## Chance to keep the pace");
    expect(markdown).toContain("| S2 | 80 s | 8 s | 93.159 s | 100 s | 80 % |");
  });

  it("of 300 tasks takes less than a megabyte", async () => {
    const tasks = Array.from(
      { length: 300 },
      (_, at) => `  task-${at}: {time: ${20 + (at % 9)}, name: The task number ${at}}`,
    );
    const stations = Array.from(
      { length: 100 },
      (_, at) => `  - {id: S${at + 1}, tasks: [task-${3 * at}, task-${3 * at + 1}, task-${3 * at + 2}]}`,
    );
    const { stdout } = await runLinepoise({
      args: ["report", "a.line.yaml", "a.plan.yaml"],
      files: {
        "a.line.yaml": `unit: s\ndemand: 36 per hour\ntasks:\n${tasks.join("\n")}\n`,
        "a.plan.yaml": `format: linepoise-plan/1\nline: a.line.yaml\nstations:\n${stations.join("\n")}\n`,
      },
    });
    expect(stdout.length).toBeGreaterThan(50_000);
    expect(stdout.length).toBeLessThan(1_000_000);
  });

  it("has the status and the findings of a plan that does not hold", async () => {
    const args = ["report", "bike.line.yaml", "bike.plan.yaml", "--demand", "300 per day"];
    const { status, stdout } = await runLinepoise({ args, files });
    expect(status).toBe(1);
    expect(stdout).toContain("What to do about it");
    expect(stdout).toContain("error: ");
  });

  it("refuses to watch without a file to write", async () => {
    const { status, stdout, stderr } = await report("--watch");
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toContain("--out");
  });
});

describe("A report that is watched", () => {
  it("is written again when the plan changes, and stays where that cannot be read, until Ctrl-C", async () => {
    const folder = mkdtempSync(join(tmpdir(), "linepoise-"));
    try {
      for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
      const args = ["report", "bike.line.yaml", "bike.plan.yaml", "--watch", "--out", "page.html"];
      const child = spawn(process.execPath, [`${root}bin/linepoise.js`, ...args], { cwd: folder });
      const ended = new Promise<number | null>((resolve) => {
        child.once("exit", resolve);
      });
      let told = "";
      child.stderr.on("data", (data: Buffer) => {
        told += data.toString();
      });
      const page = async (words: string): Promise<string> => {
        for (;;) {
          const text = readIfThere(join(folder, "page.html"));
          if (text.includes(words)) return text;
          await new Promise((resolve) => setTimeout(resolve, 50));
        }
      };
      await page("12 stations");
      // The plan of last season takes its place.
      writeFileSync(join(folder, "bike.plan.yaml"), files["old.plan.yaml"]);
      const before = await page("10 stations");
      // What is wrong with a file is told, and the page stays.
      writeFileSync(join(folder, "bike.plan.yaml"), "stations: 5\n");
      await vi.waitUntil(() => told.includes("page.html stays as it was"), { timeout: 60_000 });
      expect(told).toContain("bike.plan.yaml:1:");
      expect(readIfThere(join(folder, "page.html"))).toBe(before);
      writeFileSync(join(folder, "bike.plan.yaml"), files["bike.plan.yaml"]);
      await page("12 stations");
      // Until that is told the report is still being made, and Ctrl-C would break it off.
      await vi.waitUntil(() => told.endsWith("page.html is written again\n"), { timeout: 60_000 });
      child.kill("SIGINT");
      expect(await ended).toBe(0);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

function readIfThere(path: string): string {
  try {
    return readFileSync(path, "utf8");
  } catch {
    return "";
  }
}
