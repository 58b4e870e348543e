import { visibleText } from "../findings/visible-text.js";

/** A path in double quotes for a message, with nothing in it that would act on a terminal. */
export function quotedPath(path: string): string {
  return `"${visibleText(path)}"`;
}
