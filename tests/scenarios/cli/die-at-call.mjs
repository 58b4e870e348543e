// Loaded before a program: kills the process at the call of the file system that DIE_AT numbers, from 1, or at the first one whose name that
// is. Content is written by half first. Calls that open no file for writing do not count.
import fs, { constants, writeSync } from "node:fs";
import { syncBuiltinESMExports } from "node:module";

const { DIE_AT } = process.env;
let calls = 0;

function count(name, beforeDying = () => {}) {
  calls += 1;
  if (String(calls) !== DIE_AT && name !== DIE_AT) return;
  beforeDying();
  process.kill(process.pid, "SIGKILL");
  // The signal takes effect before any more is done.
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0);
}

const { open } = fs.promises;
for (const name of ["rename", "unlink", "readdir"]) watch(fs.promises, name);
const handle = await open("/dev/null");
const prototype = Object.getPrototypeOf(handle);
await handle.close();
for (const name of ["chown", "chmod", "sync"]) watch(prototype, name);
const { writeFile } = prototype;
prototype.writeFile = function (content, ...rest) {
  count("writeFile", () => writeSync(this.fd, content, 0, content.length >> 1));
  return writeFile.call(this, content, ...rest);
};
fs.promises.open = async (path, flags, ...rest) => {
  if (flags !== constants.O_RDONLY) count("open");
  const opened = await open(path, flags, ...rest);
  watch(opened, "close");
  return opened;
};
syncBuiltinESMExports();

function watch(object, name) {
  const real = object[name];
  object[name] = function (...args) {
    count(name);
    return real.apply(this, args);
  };
}
