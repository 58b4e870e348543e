import { fileURLToPath } from "node:url";
import { benchmarkLeast } from "../benchmark/least-benchmark-command.js";
import { THIS_PROCESS } from "./benchmark-world.js";

const shared = (name: string) => fileURLToPath(new URL(`../../shared/${name}`, import.meta.url));

process.exitCode = await benchmarkLeast(
  process.argv.slice(2),
  { cases: shared("classic-least-cycles.csv"), lines: shared("classic-lines.json") },
  THIS_PROCESS,
);
