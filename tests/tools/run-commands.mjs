// Runs command lines in the folder of this process, one after the other, each with the input and output of its own, and prints what each
// gave: the folder of the program and the command lines, as JSON, are its arguments.
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Readable, Writable } from "node:stream";
import { pathToFileURL } from "node:url";

const [program, lines] = process.argv.slice(2);
const { main, processIo } = await import(pathToFileURL(join(program, "dist/program/main.js")).href);

const given = [];
for (const line of JSON.parse(lines)) {
  const [stdout, stderr] = [collect(), collect()];
  const args = line.match(/"[^"]*"|\S+/gu).map((word) => word.replaceAll('"', ""));
  const io = { ...processIo(), args, stdin: Readable.from([]), stdout: stdout.stream, stderr: stderr.stream };
  const status = await main(io);
  given.push({ line, status, stdout: stdout.text(), stderr: stderr.text() });
}
const files = readdirSync(".", { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile())
  .map(({ parentPath, path = parentPath, name }) => join(path, name))
  .sort()
  .map((path) => ({ path, hash: createHash("sha256").update(readFileSync(path)).digest("hex") }));
process.stdout.write(JSON.stringify({ given, files }));

function collect() {
  const chunks = [];
  const stream = new Writable({
    write(chunk, _, done) {
      chunks.push(Buffer.from(chunk));
      done();
    },
  });
  return { stream, text: () => Buffer.concat(chunks).toString("utf8") };
}
