import { Argument, type Command } from "commander";
import { COMPLETION_SCRIPTS, type CompletedCommand } from "../report/completion-script.js";
import type { Register } from "./context.js";
import { EXIT_STATUS } from "./exit-status.js";

export const registerCompletion: Register = (program, act) => {
  program
    .command("completion")
    .description("a script that completes commands, options and files in a shell")
    .addArgument(new Argument("<shell>", "the shell").choices([...COMPLETION_SCRIPTS.keys()]))
    .action((shell: string) =>
      act(async (context) => {
        context.print(COMPLETION_SCRIPTS.get(shell)!(program.commands.map(completed)));
        return EXIT_STATUS.fine;
      }),
    );
};

function completed(command: Command, _: number, all: readonly Command[]): CompletedCommand {
  const options = command.options.map(({ long, flags, description }) => ({
    flag: long ?? flags,
    description,
  }));
  const [first] = command.registeredArguments;
  const words = command.name() === "help" ? all.map((each) => each.name()) : (first?.argChoices ?? []);
  const help = { flag: "--help", description: "print help for a command" };
  return {
    name: command.name(),
    description: command.description(),
    options: [...options, help],
    words,
  };
}
