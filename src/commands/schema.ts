import { lineFileJsonSchema } from "../line/schema/line-file-json-schema.js";
import type { Register } from "./context.js";
import { emit, type OutputOptions } from "./emit.js";
import { EXIT_STATUS } from "./exit-status.js";

export const registerSchema: Register = (program, act) => {
  program
    .command("schema")
    .description("the JSON Schema of the line file, for editors")
    .option("--out <file>", "write it to a file instead of standard output")
    .option("--force", "replace a file that exists")
    .option("--json", "the schema is JSON anyway; accepted for the sake of scripts")
    .action((options: OutputOptions) =>
      act(async (context) => {
        await emit(context, lineFileJsonSchema(), options);
        return EXIT_STATUS.fine;
      }),
    );
};
