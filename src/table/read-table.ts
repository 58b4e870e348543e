import { thousands } from "../findings/count-of.js";
import { finding } from "../findings/finding.js";
import { LARGEST_FILE, type TableOptions, type TableReading } from "./table.js";

/**
 * The cells of a CSV file or a workbook (.xlsx), told apart by what is in them, never by their names. What cannot be read is a finding;
 * nothing in the bytes makes this throw. The libraries are loaded when a table is read, not before.
 */
export async function readTable(
  file: string,
  bytes: Uint8Array,
  options: TableOptions = {},
): Promise<TableReading> {
  const message = refuseBytes(bytes);
  if (message !== null) {
    return { table: null, findings: [finding({ rule: "not-a-table", severity: "error", message, file })] };
  }
  if (startsWith(bytes, ZIP)) {
    const { readWorkbook } = await import("./read-workbook.js");
    return readWorkbook(file, bytes, options);
  }
  const { readCsv } = await import("./read-csv.js");
  return readCsv(file, bytes, options);
}

const ZIP = [0x50, 0x4b];
const OLD_WORKBOOK = [0xd0, 0xcf, 0x11, 0xe0];
const PDF = [0x25, 0x50, 0x44, 0x46];

function refuseBytes(bytes: Uint8Array): string | null {
  if (bytes.length > LARGEST_FILE)
    return `the file has ${thousands(bytes.length)} bytes; at most ${thousands(LARGEST_FILE)} are read`;
  const yaml = yamlIn(bytes);
  if (yaml !== null)
    return `this is a ${yaml}; a table is expected here, as CSV or a workbook (.xlsx)${yaml === "line file" ? "; `linepoise export` makes one of it" : ""}`;
  if (startsWith(bytes, OLD_WORKBOOK))
    return "this is an old or a protected workbook (.xls); save it as .xlsx without a password, or as CSV";
  return startsWith(bytes, PDF) ? "this is a PDF; a CSV file or a workbook (.xlsx) is expected" : null;
}

/** Of our own files, the one that the bytes are. */
function yamlIn(bytes: Uint8Array): "line file" | "plan file" | null {
  const text = new TextDecoder("latin1").decode(bytes.subarray(0, 100_000));
  if (/^(?:format:[ \t]*["']?linepoise-plan\/|made-for:[ \t]*(?:\{|\r?\n))/mu.test(text)) return "plan file";
  return /^tasks:[ \t]*(?:\{|(?:#.*)?\r?\n(?:[ \t]*(?:#.*)?\r?\n)*[ \t]+[^\s,;]+:)/mu.test(text)
    ? "line file"
    : null;
}

const startsWith = (bytes: Uint8Array, signs: readonly number[]): boolean =>
  signs.every((sign, at) => bytes[at] === sign);
