import { escapedInJson } from "../../findings/visible-text.js";

/** A result document: what every one begins with, then its own keys in their order. */
export const resultDocument = <Command extends string, Facts extends object>(
  command: Command,
  facts: Facts,
) => ({ format: "linepoise/1" as const, command, ...facts });

/** The text of a result document, as `--json` prints it: safe to print. */
export const documentText = (document: object): string =>
  `${escapedInJson(JSON.stringify(document, null, 2))}\n`;

/** The same of a function that makes one. */
export const asText =
  <Asked extends unknown[]>(documentOf: (...asked: Asked) => object) =>
  (...asked: Asked): string =>
    documentText(documentOf(...asked));
