import { Command } from "commander";
import { loadCommands } from "../../src/cli/program.js";
import { RULES } from "../../src/solve/rules/register.js";

/** Every command with its arguments and options, as help knows them. */
export const definitions: readonly Command[] = await (async () => {
  const program = new Command("linepoise");
  for (const register of await loadCommands([])) register(program, () => {});
  return program.commands;
})();

/** A command as its help describes it: what it answers, how it is called, and a row for each argument and option. */
export function commandTable(name: string): string {
  const command = definitions.find((each) => each.name() === name);
  if (command === undefined) throw new Error(`no command is called ${name}`);
  const rows = [
    ...command.registeredArguments.map((each) => [
      nameOf(each),
      meaningOf([each.description, each.argChoices?.join(", ") ?? []].flat().join(": "), each.defaultValue),
    ]),
    ...command.options.map((each) => [
      each.flags,
      meaningOf(each.description, each.negate ? undefined : each.defaultValue),
    ]),
  ].map(([flag, meaning]) => `| \`${flag}\` | ${meaning} |`);
  return [
    `\`linepoise ${name} ${command.usage()}\`: ${command.description()}`,
    "",
    "| argument or option | meaning |",
    "| --- | --- |",
    ...rows,
  ].join("\n");
}

const meaningOf = (description: string, otherwise: unknown) => {
  const text = otherwise === undefined ? description : `${description} (default: ${otherwise})`;
  return text.replaceAll("|", "\\|").replaceAll("<", "&lt;");
};

const nameOf = (argument: Command["registeredArguments"][number]) => {
  const words = `${argument.name()}${argument.variadic ? "..." : ""}`;
  return argument.required ? `<${words}>` : `[${words}]`;
};

/** The methods of the trade, in the order of help. */
export function methodTable(): string {
  const rows = RULES.map(({ name, ranks, source }) => `| \`${name}\` | ${ranks} | after ${source} |`);
  return ["| method | tasks are ranked by | source |", "| --- | --- | --- |", ...rows].join("\n");
}
