import { Readable, Writable } from "node:stream";
import { main } from "../../../dist/program/main.js";

/**
 * One run of the program inside this process, so that its processor time holds no start: the words of the command line, seen from a
 * folder. Gives the exit status, both outputs, and seconds of processor time.
 */
export async function runInProcess(folder, args) {
  const [stdout, stderr] = [collect(), collect()];
  const before = process.cpuUsage();
  const status = await main({
    args,
    env: {},
    folder,
    stdin: Readable.from([]),
    stdout: stdout.stream,
    stderr: stderr.stream,
    onInterrupt: () => () => {},
    now: () => performance.now(),
  });
  const { user, system } = process.cpuUsage(before);
  return { status, stdout: stdout.text(), stderr: stderr.text(), cpuSeconds: (user + system) / 1e6 };
}

function collect() {
  const chunks = [];
  const stream = new Writable({
    write(chunk, _, done) {
      chunks.push(chunk);
      done();
    },
  });
  return { stream, text: () => Buffer.concat(chunks.map((chunk) => Buffer.from(chunk))).toString("utf8") };
}
