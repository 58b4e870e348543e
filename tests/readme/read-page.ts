import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** The folder of the project. */
export const root = fileURLToPath(new URL("../../", import.meta.url));

/** The text of a file of the project, by its path from there. */
export const readPage = (path: string) => readFileSync(`${root}${path}`, "utf8");
