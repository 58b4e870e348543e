import { InvalidArgumentError } from "commander";
import { nearestWordsAmong } from "../findings/nearest.js";
import { lineFileJsonSchema } from "../line/line-file.js";
import { planFileJsonSchema } from "../plan/file/plan-file-schema.js";
import type { Register } from "./context.js";
import { emit, type OutputOptions } from "./emit.js";
import { EXIT_STATUS } from "./exit-status.js";

/** The schemas by the kind of file that they describe; the first is printed where none is named. */
const SCHEMAS: ReadonlyMap<string, () => string> = new Map([
  ["line", lineFileJsonSchema],
  ["plan", planFileJsonSchema],
]);
const [DEFAULT_KIND] = SCHEMAS.keys();

export const registerSchema: Register = (program, act) => {
  program
    .command("schema")
    .description("the JSON Schema of the line file, or of the plan file, for editors")
    .argument("[kind]", [...SCHEMAS.keys()].join(" or "), kindOfFile, DEFAULT_KIND)
    .option("--out <file>", "write it to a file, not to the screen")
    .option("--force", "replace a file that exists")
    .option("--json", "changes nothing: the schema is JSON; accepted for scripts")
    .action((kind: string, options: OutputOptions) =>
      act(async (context) => {
        await emit(context, SCHEMAS.get(kind)!(), options);
        return EXIT_STATUS.fine;
      }),
    );
};

function kindOfFile(text: string): string {
  if (SCHEMAS.has(text)) return text;
  const kinds = [...SCHEMAS.keys()];
  throw new InvalidArgumentError(`${kinds.join(" or ")} is expected${nearestWordsAmong(kinds)(text)}.`);
}
