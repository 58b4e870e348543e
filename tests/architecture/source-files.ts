import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { projectFolder } from "./cruise.js";

/** The source files, sorted, as paths from the project folder with forward slashes. */
export const sourceFiles: readonly string[] = readdirSync(join(projectFolder, "src"), {
  recursive: true,
  encoding: "utf8",
})
  .filter((path) => path.endsWith(".ts"))
  .map((path) => `src/${path.replaceAll("\\", "/")}`)
  .sort();

export const textOf = (file: string): string => readFileSync(join(projectFolder, file), "utf8");

/** A way of writing code that is refused, with code that does and code that does not. */
export interface RefusedWay {
  readonly what: string;
  readonly pattern: RegExp;
  readonly planted: readonly string[];
  readonly fine: readonly string[];
  /** Files that may, each with why. */
  readonly may: Readonly<Record<string, string>>;
}
