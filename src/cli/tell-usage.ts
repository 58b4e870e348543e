import type { CommanderError } from "commander";
import { visibleText } from "../findings/visible-text.js";

/** What to do about a fault of the command line, by the code that the parser gives it. */
const ADVICE: Readonly<Record<string, string>> = {
  "commander.excessArguments": "Put a value that has spaces in quotes.",
  "commander.unknownCommand": "linepoise --help lists the commands.",
  "commander.missingArgument": "linepoise help and the name of the command show what it takes.",
  "commander.unknownOption": "linepoise help and the name of the command show its options.",
};

/** A fault of the command line for stderr: what was found, what is near, where to read on. Empty when help was shown. */
export function tellUsage(error: CommanderError): string {
  if (error.code === "commander.help") return "";
  const lines = error.message.split("\n").map(visibleText);
  const advice = ADVICE[error.code];
  const suggested = lines.length > 1;
  return [...lines, ...(advice === undefined || suggested ? [] : [advice])]
    .map((line) => `${line}\n`)
    .join("");
}
