import { type Finding, sortFindings } from "../findings/finding.js";
import { refusedDocument } from "../report/json/finding-json.js";
import { documentText } from "../report/json/result-document.js";

/** The answer to input that is wrong: its faults, and nothing else. */
export type Refused = ReturnType<typeof refusedDocument<string>>;

/** Refuses input for what is known of its line and these faults. */
export const refuse = (command: string, known: readonly Finding[], faults: readonly Finding[]): Refused =>
  refusedDocument(command, sortFindings([...known, ...faults]));

/** The text of a result, byte for byte as `--json` prints it: keys in a fixed order, two spaces, a line feed at the end. */
export const jsonText = (result: { readonly format: "linepoise/1" }): string => documentText(result);
