import { compareOptions, ONE_BY_ONE } from "../answer/compare/compare-options.js";
import { lineOfOption } from "../answer/compare/line-of-option.js";
import type { AskedOption } from "../answer/compare/option-answer.js";
import { faultAtOption, paceAskedOf } from "../answer/set-pace.js";
import { findCountedShares } from "../benches/count-shares.js";
import type { Finding } from "../findings/finding.js";
import { nearestWords } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import { AS_IT_IS, type LineOption } from "../line/line.js";
import { compareDocument } from "../report/json/compare-json.js";
import { type KnownLine, knownLine, type Line } from "./line.js";
import { type DemandOptions, PACE_OPTIONS, paceFor } from "./pace.js";
import { type Plan, planOfToday } from "./plan.js";
import { type Refused, refuse } from "./result.js";
import { limitsOf, SEARCH_OPTIONS, type SearchOptions } from "./search.js";
import { checkOptions, UsageError } from "./usage-error.js";

/** What is compared. An option with a demand of its own keeps it. */
export interface CompareOptions extends DemandOptions, SearchOptions {
  /** Names of options of the line, "as it is", or other lines, in the order of the columns. Left out: the line as it is and all its options; one alone is set beside the line as it is. */
  readonly options?: readonly (string | Line)[];
  /** Today's plan, for the moves that each option takes. */
  readonly from?: Plan;
}

/** Options side by side on equal terms, what each changes, which is best in what, and a verdict. */
export type CompareResult = ReturnType<typeof compareDocument>;

/** A column: the line as it is, an option of it, or another line. */
interface Column {
  readonly known: KnownLine;
  readonly option: LineOption | null;
  readonly name: string;
}

/**
 * Options side by side on equal terms: people, benches, stock, output and cost. Each is what `balance` gives for it alone.
 *
 * @returns the JSON of `linepoise compare`; refused with findings where a column has no pace, or `from` is no plan of it
 * @throws UsageError where there is nothing to compare, a name is no option or stands twice, and for options that cannot be read
 */
export async function compare(line: Line, options: CompareOptions = {}): Promise<CompareResult | Refused> {
  checkOptions(options, [...PACE_OPTIONS, ...SEARCH_OPTIONS, "options", "from"]);
  const known = knownLine(line);
  const columns = columnsOf(known, options.options ?? []);
  const { nodes, doublings, checkpoint } = limitsOf(options);
  const files = [...new Set(columns.map((column) => column.known))];
  const faults: Finding[] = [];
  const asked = columns.flatMap(({ known: { line: whole }, option, name }): AskedOption[] => {
    const found = paceFor(
      option === null ? whole : lineOfOption(whole, option),
      paceAskedOf(option, options),
    );
    if (!found.ok) {
      faults.push(faultAtOption(found.fault, option));
      return [];
    }
    const { pace, takt } = found;
    const today = options.from === undefined ? null : planOfToday(options.from, found.line);
    if (today !== null && "faults" in today) {
      faults.push(...today.faults);
      return [];
    }
    const plan = today?.plan ?? null;
    return [{ name, line: found.line, option, pace, takt, today: plan, nodes, doublings }];
  });
  if (faults.length > 0)
    return refuse(
      "compare",
      files.flatMap(({ findings }) => findings),
      faults,
    );
  const compared = await compareOptions(known.line, asked, { ...ONE_BY_ONE, watch: checkpoint });
  const ofFiles = files.flatMap(({ line: each, findings }) => [...findings, ...findCountedShares(each)]);
  return compareDocument({ ...compared, findings: [...ofFiles, ...compared.findings] });
}

function columnsOf(known: KnownLine, asked: readonly (string | Line)[]): Column[] {
  const itself = { known, option: null, name: AS_IT_IS };
  const ofOption = (option: LineOption) => ({ known, option, name: option.name });
  const { options } = known.line;
  if (asked.length === 0) {
    if (options.length > 0) return [itself, ...options.map(ofOption)];
    throw new UsageError(
      `options: ${known.line.file} has nothing to compare: give it \`options:\`, or another line to compare it with`,
    );
  }
  const columns = asked.map((each): Column => {
    if (typeof each !== "string") return { known: knownLine(each), option: null, name: each.file };
    if (idKey(each) === AS_IT_IS) return itself;
    const option = options.find(({ name }) => idKey(name) === idKey(each));
    if (option !== undefined) return ofOption(option);
    const near = nearestWords(each, [...options.map(({ name }) => name), AS_IT_IS]);
    throw new UsageError(`options: "${each}" is no option of ${known.line.file}${near}`);
  });
  const twice = columns.find(({ name }, at) => columns.findIndex((each) => each.name === name) < at);
  if (twice !== undefined) throw new UsageError(`options: "${twice.name}" is given twice; once is expected`);
  return columns.length === 1 && columns[0] !== itself ? [itself, ...columns] : columns;
}
