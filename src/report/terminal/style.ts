import { Chalk } from "chalk";

/** How a text is to look: the columns it may take, endless in a pipe, and whether colour may be added. */
export interface Look {
  readonly width: number;
  readonly colour: boolean;
}

/** Colour by meaning; colour only adds to what can be read without it. */
export interface Paint {
  heading(text: string): string;
  strong(text: string): string;
  faint(text: string): string;
  good(text: string): string;
  bad(text: string): string;
}

export function paintFor(look: Look): Paint {
  const chalk = new Chalk({ level: look.colour ? 1 : 0 });
  return {
    heading: chalk.bold.cyan,
    strong: chalk.bold,
    faint: chalk.dim,
    good: chalk.green,
    bad: chalk.red,
  };
}
