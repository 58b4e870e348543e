import { nearestWords } from "../findings/nearest.js";
import { type LineFileKey, lineFileKeys } from "../line/line-file.js";
import { keysOfTrade, tradeAdvice } from "../line/read/trade-words.js";
import { keyText, termText } from "../report/terminal/help-text.js";
import { TERMS, type Term } from "../report/terms.js";
import { quoted } from "../time/quoted.js";
import { type Context, type Register, UsageError } from "./context.js";
import { EXIT_STATUS } from "./exit-status.js";

export const registerHelp: Register = (program, act) => {
  program
    .command("help")
    .description("print help for a command, or what a key of the line file or a term means")
    .argument(
      "[name]",
      "a command, a key such as after, or a term such as idle; a word of the trade leads to its key",
    )
    .action((name: string | undefined) => {
      if (name === undefined) program.help();
      const command = program.commands.find((each) => each.name() === name);
      command?.outputHelp();
      const commands = program.commands.map((each) => each.name());
      act(async (context) => {
        const text = explain(name!, commands, context);
        if (text !== null) context.print(command === undefined ? text : `\n${text}`);
        return EXIT_STATUS.fine;
      });
    });
};

/**
 * What a key or a term means, by its own name, or by a word of the trade that leads to a key; null for a command that is neither. Throws a
 * UsageError where it is nothing at all.
 */
function explain(name: string, commands: readonly string[], { width }: Context): string | null {
  const keys = lineFileKeys();
  const asked = name.trim().toLowerCase();
  const own = keys.filter(({ key }) => isCalled(key, asked));
  if (own.length > 0) return keyText(once(own), keys, null, width);
  const meant = keysOfTrade(name);
  const terms = Object.values(TERMS).flat();
  const called = terms.filter((each) => namesOf(each).includes(asked.replaceAll(/[\s_-]+/gu, " ")));
  if (called.length > 0)
    return termText(called, terms, { keys: meant, advice: tradeAdvice(name, meant) }, width);
  if (commands.includes(name)) return null;
  const found = keys.filter(({ key }) => meant.includes(lastOf(key)) && !key.startsWith("options."));
  if (found.length > 0)
    return keyText(once(found), keys, { word: name, advice: tradeAdvice(name, meant) }, width);
  const known = new Set([...commands, ...keys.map(({ key }) => lastOf(key)), ...terms.flatMap(namesOf)]);
  throw new UsageError(
    `no command, no key of the line file and no term is called ${quoted(name)}${nearestWords(name, known)}`,
  );
}

/** By its own name, or by some of the path to it, such as `test.fail` or `tasks.NAME.test.fail`. */
const isCalled = (key: string, asked: string): boolean =>
  [key, key.replaceAll("NAME.", "")].some((path) => `.${path.toLowerCase()}`.endsWith(`.${asked}`));

const namesOf = ({ term, also = [] }: Term): string[] =>
  [term, ...also].map((each) => each.toLowerCase().replaceAll("-", " "));

const lastOf = (key: string): string => key.split(".").at(-1)!.toLowerCase();

/** A key that stands at several places with one meaning is told at the first. */
function once(keys: readonly LineFileKey[]): LineFileKey[] {
  return keys.filter(
    ({ key, meaning }, at) =>
      keys.findIndex((each) => lastOf(each.key) === lastOf(key) && each.meaning === meaning) === at,
  );
}
