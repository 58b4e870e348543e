import { writeSync } from "node:fs";

// Preloaded into a process that is measured: tells what it used (kilobytes, microseconds) on a stream of its own.
process.on("exit", () => writeSync(3, JSON.stringify(process.resourceUsage())));
