import { nearestWords } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import type { Line } from "../line/line.js";
import { AS_IT_IS, type LineOption } from "../line/line.js";
import { type Context, UsageError } from "./context.js";

/** What is compared: the line as its file has it, an option of it, or the line of another file. */
export type Chosen =
  | { readonly kind: "line" }
  | { readonly kind: "option"; readonly option: LineOption }
  | { readonly kind: "file"; readonly path: string };

/**
 * What the words of a command line mean. No word: the line as it is and all its options; one: the line as it is and that; more:
 * those, in that order. Throws a UsageError for a word that is both an option and a file or neither, and for one given twice.
 */
export async function chooseOptions(
  context: Context,
  line: Line,
  words: readonly string[],
): Promise<Chosen[]> {
  if (words.length === 0) {
    if (line.options.length === 0) {
      throw new UsageError(
        `${line.file} has nothing to compare: give it \`options:\`, or name another line file to compare it with`,
      );
    }
    return [{ kind: "line" }, ...line.options.map((option): Chosen => ({ kind: "option", option }))];
  }
  const seen = new Set<string>();
  const chosen: Chosen[] = [];
  for (const word of words) {
    if (seen.has(idKey(word))) throw new UsageError(`"${word}" is given twice; once is expected`);
    seen.add(idKey(word));
    chosen.push(await meaningOf(context, line, word));
  }
  return words.length === 1 && chosen[0]!.kind !== "line" ? [{ kind: "line" }, ...chosen] : chosen;
}

async function meaningOf(context: Context, line: Line, word: string): Promise<Chosen> {
  if (word === "-") return { kind: "file", path: word };
  if (idKey(word) === AS_IT_IS) return { kind: "line" };
  const option = line.options.find(({ name }) => idKey(name) === idKey(word));
  if (option === undefined) return { kind: "file", path: word };
  if ((await context.readExisting(word)) !== null) {
    throw new UsageError(
      `"${word}" is an option of ${line.file} and a file as well; write ./${word} for the file, or call the option something else`,
    );
  }
  return { kind: "option", option };
}

/** A word that was taken for a file and cannot be read as one may be a misspelt option. */
export function explainUnknown(line: Line, word: string, fault: UsageError): UsageError {
  const names = [...line.options.map(({ name }) => name), AS_IT_IS];
  const near = nearestWords(word, names);
  const options = near === "" && line.options.length > 0 ? `; options are ${names.join(", ")}` : near;
  return new UsageError(`"${word}" is no option of ${line.file}${options}; and ${fault.message}`);
}
