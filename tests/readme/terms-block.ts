import { RUNS, type SeenTerm, TERMS } from "./terms.js";

/** The terms of one group, a heading and a list each. */
export function termList(group: string): string {
  const terms = TERMS[group];
  if (terms === undefined) throw new Error(`no group of terms is called ${group}`);
  return terms.map(entry).join("\n\n");
}

function entry({ term, also, meaning, formula, symbol, unit, printed, json, source }: SeenTerm): string {
  const where = [
    printed && `\`${commandOf(printed[0])}\` prints "${printed[1]}"`,
    json && `JSON of \`${commandOf(json[0]).split(" ")[0]}\`: \`${json[1]}\``,
  ].filter((each) => each !== undefined);
  const rows = [
    ["also", also?.join(", ")],
    ["formula", formula && `\`${formula}\``],
    ["symbol", symbol],
    ["unit", unit],
    ["where", where.length > 0 ? where.join("; ") : undefined],
    ["source", source],
  ].filter(([, text]) => text !== undefined);
  return [`### ${term}`, "", meaning, "", ...rows.map(([name, text]) => `- ${name}: ${text}`)].join("\n");
}

/** The command of a run with its options, without the files. */
const commandOf = (run: keyof typeof RUNS) =>
  RUNS[run]
    .split(" ")
    .filter((word, at) => at === 0 || word.startsWith("--"))
    .join(" ");
