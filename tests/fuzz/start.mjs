import { spawn } from "node:child_process";
import { build } from "esbuild";

// Bundles the fuzzer with the sources as they are and starts it; traces name the lines of src/.

await build({
  entryPoints: ["tests/fuzz/fuzz-main.ts", "tests/fuzz/fuzz-thread.ts"],
  outdir: "dist/fuzz",
  bundle: true,
  splitting: true,
  format: "esm",
  platform: "node",
  target: "node20.12",
  sourcemap: true,
  logLevel: "error",
  define: { __filename: "import.meta.filename" },
  banner: {
    js: 'import { createRequire as makeRequireOfBundle } from "node:module"; const require = makeRequireOfBundle(import.meta.url);',
  },
});
const child = spawn(
  process.execPath,
  ["--enable-source-maps", "dist/fuzz/fuzz-main.js", ...process.argv.slice(2)],
  {
    stdio: "inherit",
  },
);
// Ctrl-C reaches the fuzzer too, which ends with its totals.
process.on("SIGINT", () => {});
child.on("exit", (status) => {
  process.exitCode = status ?? 1;
});
