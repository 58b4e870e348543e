#!/usr/bin/env node
// Nothing newer than modules in here: an old Node must get as far as the message.
import { fileURLToPath } from "node:url";
import { setFlagsFromString } from "node:v8";

const [major, minor] = process.versions.node.split(".").map(Number);
const folder = fileURLToPath(new URL("..", import.meta.url));

function stop(message) {
  process.stderr.write(`linepoise: ${message}\n`);
  process.exitCode = 3;
}

function start(program) {
  return program.main(program.processIo()).then((status) => {
    process.exitCode = status;
  });
}

function explain(error) {
  if (error.code !== "ERR_MODULE_NOT_FOUND") stop(`cannot start: ${error.message}`);
  else stop(`not built; run \`npm ci\` (or \`npm run build\`) in ${folder}`);
}

if (major < 20 || (major === 20 && minor < 12)) {
  stop(`Node 20.12 or later is needed; this is Node ${process.versions.node}`);
} else {
  // Most runs are short, and to compile code that is soon done with takes longer than to run it as it is. Later Nodes have no such flag.
  if (major === 20) setFlagsFromString("--interrupt-budget=528000");
  // Maps are read with the files that they belong to, so this comes before them.
  if (process.env.LINEPOISE_DEBUG) process.setSourceMapsEnabled(true);
  import("../dist/program/main.js").then(start).catch(explain);
}
