import {
  type Alias,
  Composer,
  type CST,
  type Document,
  isAlias,
  isNode,
  isScalar,
  Lexer,
  LineCounter,
  type Node,
  Parser,
  Scalar,
} from "yaml";
import { thousands } from "../../findings/count-of.js";
import { type Finding, finding, type Place } from "../../findings/finding.js";
import { linkAliases } from "./link-aliases.js";
import { findSyntaxFaults, findTokenFaults, type TextFault } from "./yaml-faults.js";

/** Nodes of YAML whose values are all text, with the place of everything in them. */
export interface YamlNodes {
  readonly file: string;
  readonly root: Node;
  /** The node itself, or what it stands for where it is an alias; null for nothing and for an alias that was refused. */
  resolve(node: unknown): Node | null;
  /** The stretch of the first line of a node; of the place given where a node has no length (a blank value). */
  whereIs(node: unknown, otherwise: Place): Place;
  /** The comment behind a plain value on its line, from its # to the end; null where there is none. */
  commentAfter(node: Node | null): { readonly text: string; readonly place: Place } | null;
  /** Where a node begins, or null where that is not known. */
  pointOf(node: unknown): Place | null;
}

/** One YAML document of a text. */
export interface YamlTree extends YamlNodes {
  readonly document: Document;
}

export interface ParsedYaml {
  /** Null where nothing sensible can be read from the file; the findings say why. */
  readonly tree: YamlTree | null;
  readonly findings: readonly Finding[];
}

const COMMENT = /([ \t]+)(#[^\r\n]*)/uy;
const START: Place = { line: 1, column: 1, endColumn: 2 };

/** Reads one YAML document with text values only; every trap of the format is a finding, and none throws. */
export function parseYaml(file: string, text: string): ParsedYaml {
  const source = text.replace(/^\ufeff/, "");
  const lines = new LineCounter();
  const { tokens, tooMuch } = readTokens(source, lines);
  const place = locator(source, lines);
  const report = (faults: readonly TextFault[]) =>
    faults.map(({ rule, message, from, to }) =>
      finding({ rule, severity: "error", message, file, place: place(from, to) }),
    );
  if (tooMuch !== null) return { tree: null, findings: report([tooMuch]) };
  const [document] = composeDocuments(tokens);
  const syntax = findSyntaxFaults(document?.errors ?? [], (offset) => lines.linePos(offset).line);
  const faults = [...findTokenFaults(source, tokens), ...syntax.faults];
  if (document === undefined || isEmpty(document)) {
    return { tree: null, findings: faults.length > 0 ? report(faults) : [refuseEmpty(file)] };
  }
  // Without a * in it nothing stands for anything else.
  const links = source.includes("*") ? linkAliases(document.contents!) : NO_LINKS;
  faults.push(...links.faults);
  if (links.bomb || syntax.misread) return { tree: null, findings: report(faults) };
  const tree = createTree(file, source, document, links.targets, place);
  return { tree, findings: report(faults) };
}

/** The failsafe schema leaves every value the text it is; doubled keys are judged later, by our own sense of equal. */
function composeDocuments(tokens: readonly CST.Token[]): Document[] {
  const composer = new Composer({ schema: "failsafe", uniqueKeys: false, logLevel: "silent" });
  // Every fault is an error of the library that nobody throws; tracing each takes most of the time.
  const { stackTraceLimit } = Error;
  Error.stackTraceLimit = 0;
  try {
    return [...composer.compose(tokens)] as unknown as Document[];
  } finally {
    Error.stackTraceLimit = stackTraceLimit;
  }
}

function isEmpty(document: Document): boolean {
  const { contents } = document;
  return contents === null || (isNode(contents) && !isAlias(contents) && isNothing(contents));
}

function isNothing(node: Node): boolean {
  return node.range !== undefined && node.range !== null && node.range[0] === node.range[1];
}

function refuseEmpty(file: string): Finding {
  const message = "the file says nothing; a line file has `tasks:`, `linepoise new` prints one to start from";
  return finding({ rule: "empty-file", severity: "error", message, file, place: START });
}

function createTree(
  file: string,
  source: string,
  document: Document,
  targets: ReadonlyMap<Alias, Node>,
  place: (from: number, to: number) => Place,
): YamlTree {
  return {
    file,
    document,
    root: document.contents!,
    resolve: (node) => (isAlias(node) ? (targets.get(node) ?? null) : isNode(node) ? node : null),
    whereIs(node, otherwise) {
      const range = isNode(node) ? node.range : null;
      return range && range[1] > range[0] ? place(range[0], range[1]) : otherwise;
    },
    commentAfter(node) {
      const end = isScalar(node) && node.type === Scalar.PLAIN ? node.range?.[1] : undefined;
      if (end === undefined) return null;
      COMMENT.lastIndex = end;
      const [, blanks = "", text] = COMMENT.exec(source) ?? [];
      if (text === undefined) return null;
      const from = end + blanks.length;
      return { text: text.trimEnd(), place: place(from, from + text.length) };
    },
    pointOf(node) {
      const range = isNode(node) ? node.range : null;
      return range ? place(range[0], range[0]) : null;
    },
  };
}

/** A line file nests about six deep; what nests far deeper was written to break something. */
const DEEPEST = 40;
/** Lines, entries of one map or list, and words and signs in all: what is beyond takes time and memory that no line needs. */
const [MOST_LINES, MOST_ENTRIES, MOST_TOKENS] = [500_000, 20_000, 1_000_000];

/**
 * The tokens of the text as trees, one a document or directive. Reading stops where the trees grow so deep that
 * whoever walks them might run out of stack, or so large that they fill the memory, and `tooMuch` says where.
 */
function readTokens(source: string, lines: LineCounter): { tokens: CST.Token[]; tooMuch: TextFault | null } {
  const parser = new Parser(lines.addNewLine);
  const tokens: CST.Token[] = [];
  lines.addNewLine(0);
  const tooLong = refuseLength(source);
  if (tooLong !== null) return { tokens, tooMuch: tooLong };
  let [read, outside] = [0, 0];
  for (const lexeme of new Lexer().lex(source)) {
    for (const token of parser.next(lexeme)) {
      tokens.push(token);
      if (!BLANK_TOKENS.has(token.type)) outside += 1;
    }
    const tooMuch = refuseTooMuch(parser, outside, ++read);
    if (tooMuch !== null) return { tokens, tooMuch };
  }
  tokens.push(...parser.end());
  return { tokens, tooMuch: null };
}

const BLANK_TOKENS: ReadonlySet<string> = new Set(["comment", "newline", "space"]);

/** `outside` is how many pieces stand in no map or list: directives, documents, signs that belong to nothing. */
function refuseTooMuch({ stack, offset }: Parser, outside: number, tokens: number): TextFault | null {
  const at = { from: offset - 1, to: offset };
  if (stack.length > DEEPEST) {
    const message = `lists and maps nest ${DEEPEST} deep here; a line file needs about six`;
    return { rule: "yaml-too-deep", message, ...at };
  }
  const innermost = stack.at(-1);
  const entries = innermost !== undefined && "items" in innermost ? innermost.items.length : 0;
  const what =
    entries > MOST_ENTRIES
      ? `${thousands(MOST_ENTRIES)} entries of a map or list`
      : outside > MOST_ENTRIES
        ? `${thousands(MOST_ENTRIES)} signs that belong to no map or list`
        : tokens > MOST_TOKENS
          ? `${thousands(MOST_TOKENS)} words and signs`
          : null;
  if (what === null) return null;
  return { rule: "too-large", message: `more than ${what} stand up to here; no more are read`, ...at };
}

/** Lines are counted first, as each takes as long as a word. */
function refuseLength(source: string): TextFault | null {
  let end = -1;
  for (let lines = 0; lines < MOST_LINES; lines++) {
    end = source.indexOf("\n", end + 1);
    if (end < 0) return null;
  }
  const message = `the file has more than ${thousands(MOST_LINES)} lines; no more are read`;
  return { rule: "too-large", message, from: 0, to: 1 };
}

const NO_LINKS: ReturnType<typeof linkAliases> = { targets: new Map(), faults: [], bomb: false };

/**
 * Finds the place of a stretch of text by offsets; what runs over several lines is placed on its first, without blanks at the end. The line
 * that was asked for last is kept, as most of what is asked for stands on it again.
 */
function locator(source: string, lines: LineCounter): (from: number, to: number) => Place {
  let [start, end, line] = [0, -1, 1];
  return (begin, to) => {
    const from = Math.min(begin, source.length);
    if (from < start || from > end) {
      const found = lines.linePos(from);
      const next = source.indexOf("\n", from);
      end = next < 0 ? source.length : next;
      [start, line] = [from - found.col + 1, Math.max(1, found.line)];
    }
    const column = Math.max(1, from - start + 1);
    const text = source.slice(from, Math.min(end, to)).trimEnd();
    return { line, column, endColumn: column + Math.max(1, text.length) };
  };
}
