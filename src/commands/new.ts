import { visibleText } from "../findings/visible-text.js";
import { STARTER_LINE_FILE } from "../line/starter.js";
import type { Register } from "./context.js";
import { emit, type OutputOptions, refuseTogether } from "./emit.js";
import { EXIT_STATUS } from "./exit-status.js";

export const registerNew: Register = (program, act) => {
  program
    .command("new")
    .description("a starter line file to change into your own")
    .argument("[file]", "where to write it (default: the screen)")
    .option("--out <file>", "the same file, as an option")
    .option("--force", "replace a file that exists")
    .option("--json", "print the starter as one JSON object")
    .action((path: string | undefined, options: OutputOptions) =>
      act(async (context) => {
        refuseTogether(["a file", path], ["--out", options.out]);
        refuseTogether(["a file", path], ["--json", options.json]);
        const text = options.json ? starterJson() : STARTER_LINE_FILE;
        const out = path ?? options.out;
        await emit(context, text, { ...options, ...(out === undefined ? {} : { out }) });
        if (out !== undefined && out !== "-" && !options.json) {
          const file = visibleText(out);
          context.note(`${file} is written: change it into your own line. Next: linepoise takt ${file}\n`);
        }
        return EXIT_STATUS.fine;
      }),
    );
};

function starterJson(): string {
  return `${JSON.stringify({ format: "linepoise/1", command: "new", text: STARTER_LINE_FILE }, null, 2)}\n`;
}
