import type { EventEmitter } from "node:events";
import type { Command, Option } from "commander";

/** Makes a command refuse an option that is given twice, and an option that was taken for the value of another. */
export function refuseDoubledOptions(command: Command): void {
  // A command tells of every option it meets as an event, which its published types leave out in part.
  const events = command as unknown as EventEmitter;
  for (const option of command.options) {
    let seen = 0;
    // Before the listener that reads the value: what is said here explains more than "not a number".
    events.prependListener(`option:${option.name()}`, (value: string | undefined) => {
      seen += 1;
      if (seen > 1)
        command.error(`error: option '${option.flags}' is given twice`, { code: "linepoise.twice" });
      if (isOption(command, value)) command.error(swallowed(option, value!), { code: "linepoise.swallowed" });
    });
  }
}

function isOption(command: Command, value: string | undefined): boolean {
  return command.options.some(
    (option) => value !== undefined && (value === option.long || value === option.short),
  );
}

function swallowed(option: Option, value: string): string {
  const flag = option.long ?? option.flags;
  return `error: option '${option.flags}' needs its value before ${value} (for a value of that name, write ${flag}=${value})`;
}
