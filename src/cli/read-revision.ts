import { execFile } from "node:child_process";
import { relative, resolve, sep } from "node:path";
import { UsageError } from "../commands/context.js";
import { decodeText } from "./decode-text.js";
import type { Io } from "./io.js";
import { quotedPath } from "./quoted-path.js";
import { systemCode } from "./system-reason.js";

/** The text of a file as it was at a revision; null where that revision does not have it. */
export type ReadAtRevision = (revision: string, path: string) => Promise<string | null>;

/** More than any file that a person writes. */
const MOST_BYTES = 64 * 1024 * 1024;

/**
 * Reads files as git keeps them in the repository around the folder of this run. Throws a UsageError without git, without a
 * repository, and for a revision that it does not know.
 */
export function openRevisions({ folder, env }: Pick<Io, "folder" | "env">): ReadAtRevision {
  const commits = new Map<string, Promise<string>>();
  const git = (...words: string[]) => runGit(folder, env, words);
  return async (revision, path) => {
    const known = commits.get(revision) ?? findCommit(git, revision);
    commits.set(revision, known);
    const commit = await known;
    const below = relative(folder, resolve(folder, path)).split(sep).join("/");
    const named = below.startsWith("../") ? below : `./${below}`;
    const bytes = await git("cat-file", "blob", `${commit}:${named}`);
    return bytes === null ? null : decodeText(bytes, `${quotedPath(path)} at ${quotedPath(revision)}`);
  };
}

type Git = (...words: string[]) => Promise<Buffer | null>;

async function findCommit(git: Git, revision: string): Promise<string> {
  const asked = quotedPath(revision);
  if ((await git("rev-parse", "--git-dir")) === null) {
    throw new UsageError(
      `${asked} is no file, and could be a revision in a git repository only; none is here`,
    );
  }
  // A word with a dash in front would be an option of git.
  const commit = revision.startsWith("-")
    ? null
    : await git("rev-parse", "--verify", "--quiet", `${revision}^{commit}`);
  if (commit === null)
    throw new UsageError(`${asked} is neither a file nor a revision of this git repository`);
  return commit.toString("utf8").trim();
}

/** What git prints, or null where it refuses; no shell reads the words. */
function runGit(folder: string, env: Io["env"], words: readonly string[]): Promise<Buffer | null> {
  return new Promise((done, fail) => {
    const options = { cwd: folder, env: { ...env }, encoding: "buffer", maxBuffer: MOST_BYTES } as const;
    execFile("git", words, options, (error, stdout) => {
      if (error === null) return done(stdout);
      if (systemCode(error) !== null || error.code === "ENOENT") {
        return fail(new UsageError("a revision needs git, and git cannot be started here"));
      }
      return done(null);
    });
  });
}
