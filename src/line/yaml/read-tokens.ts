import { type CST, Lexer, type LineCounter, Parser } from "yaml";
import type { TextFault } from "./text-fault.js";

/** A line file nests about six deep; what nests far deeper was written to break something. */
const DEEPEST = 40;

/**
 * The tokens of the text as trees, one a document or directive. Reading stops where the trees grow so deep that
 * whoever walks them might run out of stack, and `tooDeep` says where.
 */
export function readTokens(
  source: string,
  lines: LineCounter,
): { tokens: CST.Token[]; tooDeep: TextFault | null } {
  const parser = new Parser(lines.addNewLine);
  const tokens: CST.Token[] = [];
  lines.addNewLine(0);
  for (const lexeme of new Lexer().lex(source)) {
    tokens.push(...parser.next(lexeme));
    if (parser.stack.length > DEEPEST) return { tokens, tooDeep: refuseDepth(parser.offset) };
  }
  tokens.push(...parser.end());
  return { tokens, tooDeep: null };
}

function refuseDepth(offset: number): TextFault {
  const message = `lists and maps nest ${DEEPEST} deep here; a line file needs about six`;
  return { rule: "yaml-too-deep", message, from: offset - 1, to: offset };
}
