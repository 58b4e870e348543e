import { benchmark } from "../benchmark/benchmark-command.js";
import { THIS_PROCESS } from "./benchmark-world.js";

process.exitCode = await benchmark(process.argv.slice(2), THIS_PROCESS);
