import { escapedInJson } from "../../findings/visible-text.js";

/** A result document as text that is safe to print. */
export const jsonText = (document: object): string => `${escapedInJson(JSON.stringify(document, null, 2))}\n`;
