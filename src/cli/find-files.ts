import type { Dirent } from "node:fs";
import { readdir, stat } from "node:fs/promises";
import { resolve } from "node:path";
import { UsageError } from "../commands/context.js";
import { quotedPath } from "./quoted-path.js";
import { existingText } from "./write-files.js";

/**
 * The files that a path stands for: itself, or where it holds * or ? every file that it fits, in order of code units. `**` stands
 * for any number of folders; hidden ones need their dot. Links to folders are not followed. Throws a UsageError where nothing fits.
 */
export async function findFiles(folder: string, pattern: string): Promise<string[]> {
  if (!/[*?]/u.test(pattern) || (await existingText(folder, pattern)) !== null) return [pattern];
  const parts = pattern.split("/").filter((part, at) => part !== "" || at === 0);
  const [start, rest] = parts[0] === "" ? ["/", parts.slice(1)] : ["", parts];
  const found = [...new Set(await walk(folder, start, rest))].sort();
  if (found.length === 0) throw new UsageError(`no file fits ${quotedPath(pattern)}`);
  return found;
}

async function walk(folder: string, below: string, parts: readonly string[]): Promise<string[]> {
  const [part, ...rest] = parts;
  if (part === undefined) return [];
  if (part === "**") {
    const deeper = rest.length === 0 ? ["*"] : rest;
    const here = await walk(folder, below, deeper);
    const folders = (await entriesOf(folder, below)).filter(
      (each) => each.isDirectory() && !isHidden(each.name),
    );
    const inside = await Promise.all(folders.map(({ name }) => walk(folder, `${below}${name}/`, parts)));
    return [...here, ...inside.flat()];
  }
  const isLast = rest.length === 0;
  if (!/[*?]/u.test(part) && !isLast) return walk(folder, `${below}${part}/`, rest);
  const fits = matcherOf(part);
  const entries = (await entriesOf(folder, below)).filter(({ name }) => fits(name));
  if (isLast) {
    const files = await Promise.all(entries.map((each) => isFile(each, resolve(folder, below, each.name))));
    return entries.filter((_, at) => files[at]).map(({ name }) => below + name);
  }
  const folders = entries.filter((each) => each.isDirectory());
  return (await Promise.all(folders.map(({ name }) => walk(folder, `${below}${name}/`, rest)))).flat();
}

async function entriesOf(folder: string, below: string) {
  try {
    return await readdir(resolve(folder, below), { withFileTypes: true });
  } catch {
    return [];
  }
}

async function isFile(entry: Dirent, path: string): Promise<boolean> {
  if (!entry.isSymbolicLink()) return entry.isFile();
  try {
    return (await stat(path)).isFile();
  } catch {
    return false;
  }
}

const isHidden = (name: string): boolean => name.startsWith(".");

/** `*` is any stretch of a name, `?` one character; neither is the dot in front of a hidden one. */
function matcherOf(part: string): (name: string) => boolean {
  const pieces = part.split("*");
  const takesHidden = isHidden(part);
  return (name) =>
    (takesHidden || !isHidden(name)) &&
    fitsPieces(
      [...name],
      pieces.map((each) => [...each]),
    );
}

/** Whether the name is the pieces in this order, the first at its start, the last at its end, anything between. */
function fitsPieces(name: readonly string[], pieces: readonly (readonly string[])[]): boolean {
  const [first = [], ...others] = pieces;
  if (!isAt(name, 0, first)) return false;
  if (others.length === 0) return name.length === first.length;
  let at = first.length;
  const last = others.pop()!;
  for (const piece of others) {
    while (at + piece.length <= name.length && !isAt(name, at, piece)) at++;
    if (at + piece.length > name.length) return false;
    at += piece.length;
  }
  return name.length - last.length >= at && isAt(name, name.length - last.length, last);
}

function isAt(name: readonly string[], at: number, piece: readonly string[]): boolean {
  return (
    at + piece.length <= name.length &&
    piece.every((letter, index) => letter === "?" || letter === name[at + index])
  );
}
