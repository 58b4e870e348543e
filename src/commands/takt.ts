import { shownTakt } from "../answer/balance/shown-takt.js";
import { taktJson } from "../report/json/takt-json.js";
import { taktText } from "../report/terminal/takt-text.js";
import type { Context, Register } from "./context.js";
import { addOutputOptions, checkOutput, type FormatOptions, withFormat } from "./emit.js";
import { addFormatOptions, emitResult } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { findTakt } from "./find-pace.js";
import { loadLine } from "./load-line.js";

interface TaktOptions extends FormatOptions {
  readonly demand?: string;
}

export const registerTakt: Register = (program, act) => {
  const command = program
    .command("takt")
    .description("takt, line cycle and station limit, with every term of the sum")
    .argument("<line>", "line file; - for standard input")
    .option("--demand <text>", 'good units wanted instead of the file\'s, such as "176 per day"');
  addFormatOptions(addOutputOptions(command)).action((path: string, options: TaktOptions) =>
    act((context) => showTakt(context, path, withFormat(options))),
  );
};

async function showTakt(context: Context, path: string, options: TaktOptions): Promise<ExitStatus> {
  await checkOutput(context, path, options);
  const loaded = await loadLine(context, "takt", path, options);
  if (loaded === null) return EXIT_STATUS.wrongInput;
  const found = findTakt(loaded.line, options.demand);
  if (!found.ok) {
    await loaded.refuse([...loaded.findings, found.fault]);
    return EXIT_STATUS.wrongInput;
  }
  const answer = shownTakt(found.line, found.takt);
  if (!options.json) loaded.tell(loaded.findings, true);
  const json = () => taktJson(answer, loaded.findings);
  await emitResult(context, { json, text: () => taktText(answer, context), list: [] }, options);
  return EXIT_STATUS.fine;
}
