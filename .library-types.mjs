// Writes dist/types/library.d.ts, one file: what src/library.ts exports, as the compiler knows it. Types of ours that are not public are
// written out in full, so that no reader needs the rest of the source, and comments stay.
import { mkdir, writeFile } from "node:fs/promises";
import { dirname } from "node:path";
import ts from "typescript";

const outfile = process.argv[2] ?? "dist/types/library.d.ts";
const entry = "src/library.ts";

const settings = ts.getParsedCommandLineOfConfigFile(
  "tsconfig.json",
  {},
  { ...ts.sys, onUnRecoverableConfigFileDiagnostic: fail },
);
const program = ts.createProgram([entry], {
  ...settings.options,
  incremental: false,
  tsBuildInfoFile: undefined,
});
const checker = program.getTypeChecker();
const source = program.getSourceFile(entry);
const exports = checker.getExportsOfModule(checker.getSymbolAtLocation(source));
const exported = exports.map(meant);
/** The names of what is public, by symbol, and of aliases by type, which may be the type of something that is not. */
const names = new Map(exports.map((symbol) => [meant(symbol), symbol.name]));
const aliases = new Map(
  exported
    .filter(({ flags }) => flags & ts.SymbolFlags.TypeAlias)
    .map((symbol) => [checker.getDeclaredTypeOfSymbol(symbol), symbol]),
);

const text = [headOf(source), ...exported.map(declaration)].join("\n");
await mkdir(dirname(outfile), { recursive: true });
await writeFile(outfile, text);

function fail(diagnostic) {
  throw new Error(ts.flattenDiagnosticMessageText(diagnostic.messageText, "\n"));
}

/** The symbol that an export stands for. */
function meant(symbol) {
  return symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
}

/** The comment at the top of the file. */
function headOf(file) {
  const [range] = ts.getLeadingCommentRanges(file.text, 0) ?? [];
  return range === undefined ? "" : `${file.text.slice(range.pos, range.end)}\n`;
}

/** What an exported symbol is, as a declaration with its comment. */
function declaration(symbol) {
  const [node] = symbol.declarations;
  const comment = commentOf(symbol, "");
  const name = names.get(symbol);
  if (ts.isClassDeclaration(node)) {
    const base = node.heritageClauses?.[0]?.types[0]?.expression.getText() ?? "Object";
    const own = node.members.map((member) => member.symbol).map((member) => `  ${property(member, "  ")}\n`);
    return `${comment}export declare class ${name} extends ${base} {\n${own.join("")}}\n`;
  }
  if (symbol.flags & ts.SymbolFlags.Interface) {
    const type = checker.getDeclaredTypeOfSymbol(symbol);
    return `${comment}export interface ${name} ${members(type, "")}\n`;
  }
  if (symbol.flags & ts.SymbolFlags.TypeAlias)
    return `${comment}export type ${name} = ${written(checker.getDeclaredTypeOfSymbol(symbol), "", symbol)};\n`;
  const type = checker.getTypeOfSymbol(symbol);
  const [signature] = type.getCallSignatures();
  if (signature === undefined) throw new Error(`${name}: only functions, classes and types are public`);
  return `${comment}export declare function ${name}${call(signature, "", ": ")};\n`;
}

/** The comment of a symbol as it stands in the source, moved to an indentation. */
function commentOf(symbol, indent) {
  const node = symbol.declarations?.[0];
  if (node === undefined) return "";
  const holder = ts.isVariableDeclaration(node) ? node.parent.parent : node;
  const file = holder.getSourceFile();
  const ranges = ts.getLeadingCommentRanges(file.text, holder.getFullStart()) ?? [];
  const last = ranges
    .map(({ pos, end }) => file.text.slice(pos, end))
    .findLast((each) => each.startsWith("/**"));
  return last === undefined ? "" : `${last.replace(/\n\s*\*/g, `\n${indent} *`)}\n${indent}`;
}

function call(signature, indent, arrow) {
  const given = signature.parameters.map((parameter) => {
    const node = parameter.valueDeclaration;
    const isOptional = node.initializer !== undefined || node.questionToken !== undefined;
    const type = written(checker.getTypeOfSymbol(parameter), indent);
    return `${parameter.name}${isOptional ? "?" : ""}: ${isOptional ? withoutUndefined(type) : type}`;
  });
  return `(${given.join(", ")})${arrow}${written(signature.getReturnType(), indent)}`;
}

function withoutUndefined(type) {
  return type.replace(/ \| undefined$/, "");
}

/** The members of an object type, between braces. */
function members(type, indent) {
  const inner = `${indent}  `;
  const lines = checker.getPropertiesOfType(type).map((each) => `${inner}${property(each, inner)}\n`);
  const index = checker
    .getIndexInfosOfType(type)
    .map(
      (each) =>
        `${inner}${each.isReadonly ? "readonly " : ""}[key: ${written(each.keyType, inner)}]: ${written(each.type, inner)};\n`,
    );
  return lines.length + index.length === 0 ? "{}" : `{\n${lines.join("")}${index.join("")}${indent}}`;
}

function property(symbol, indent) {
  const type = checker.getTypeOfSymbol(symbol);
  const isOptional = (symbol.flags & ts.SymbolFlags.Optional) !== 0;
  const words = written(type, indent);
  const name = /^[\w$]+$/.test(symbol.name) ? symbol.name : JSON.stringify(symbol.name);
  return `${commentOf(symbol, indent)}readonly ${name}${isOptional ? "?" : ""}: ${isOptional ? withoutUndefined(words) : words};`;
}

/**
 * A type in words: by name where it is public or of the language, else in full.
 *
 * @param self the symbol that is being declared, which must not stand for itself
 */
function written(type, indent, self = null) {
  const alias = aliases.get(type);
  if (alias !== undefined && alias !== self) return names.get(alias);
  if (type.isUnion()) return union(type, indent);
  if (type.flags & (ts.TypeFlags.Object | ts.TypeFlags.Intersection)) return object(type, indent, self);
  return checker.typeToString(type, undefined, ts.TypeFormatFlags.NoTruncation);
}

/** Members in the order of the source; those that are no type by themselves last. */
function union(type, indent) {
  const isLast = ({ flags }) => (flags & (ts.TypeFlags.Null | ts.TypeFlags.Undefined)) !== 0;
  const all = [...type.types.filter((each) => !isLast(each)), ...type.types.filter(isLast)];
  const words = new Set(all.map((each) => written(each, indent)));
  const isBoolean = words.has("true") && words.has("false");
  return [...words]
    .flatMap((word) =>
      isBoolean && word === "true" ? [] : isBoolean && word === "false" ? ["boolean"] : [word],
    )
    .join(" | ");
}

function object(type, indent, self) {
  if (checker.isArrayType(type)) {
    const [item] = checker.getTypeArguments(type);
    const words = written(item, indent);
    return `readonly ${item.isUnion() || checker.isArrayType(item) ? `(${words})` : words}[]`;
  }
  if (checker.isTupleType(type))
    return `readonly [${checker
      .getTypeArguments(type)
      .map((each) => written(each, indent))
      .join(", ")}]`;
  const symbol = type.getSymbol();
  if (symbol && symbol !== self && names.has(symbol)) return names.get(symbol);
  // Of the language: Promise, Uint8Array.
  if (
    symbol &&
    !symbol.name.startsWith("__") &&
    symbol.declarations?.some((each) => program.isSourceFileDefaultLibrary(each.getSourceFile()))
  ) {
    const given = checker.getTypeArguments(type).map((each) => written(each, indent));
    if (symbol.name === "Promise") return `Promise<${given.join(", ")}>`;
    return symbol.name;
  }
  const [signature] = type.getCallSignatures();
  return signature === undefined ? members(type, indent) : call(signature, indent, " => ");
}
