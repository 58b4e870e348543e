import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const tool = fileURLToPath(new URL("../tools/same-bytes.mjs", import.meta.url));
const compare = (only: string, env: Record<string, string> = {}) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [tool, "--only", only], {
    env: { ...process.env, ...env },
    encoding: "utf8",
  });
  return { status, stdout, stderr };
};

// The whole list, on several Nodes, is `npm run same-bytes`.
it("commands give the same bytes in every time zone and language, on one core and on all, from any folder", () => {
  const few = "takt,--format csv,report.xlsx,sheets,*.plan.yaml,faulty.line.yaml --json,export";
  expect(compare(few)).toEqual({
    status: 0,
    stdout: "12 commands on 3 machines: the same bytes\n",
    stderr: "",
  });
});

it("a time zone or a language that came through would be told, with the place", () => {
  const planted = encodeURIComponent(
    `const real = JSON.stringify;
     JSON.stringify = (value, ...rest) =>
       value?.command === "takt" ? process.env.TZ + new Intl.NumberFormat().format(0.5) : real(value, ...rest);`,
  );
  const { status, stdout } = compare("two-models.line.yaml --json", {
    NODE_OPTIONS: `--import data:text/javascript,${planted}`,
  });
  expect(status).toBe(1);
  expect(stdout).toContain("stdout, line 1\n  - UTC0.5");
  expect(stdout).toContain("\n  + Asia/Kathmandu0,5");
  expect(stdout).toContain("1 commands on 3 machines: 2 differences\n");
});
