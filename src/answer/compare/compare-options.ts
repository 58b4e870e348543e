import { type Finding, sortFindings, tells } from "../../findings/finding.js";
import { AS_IT_IS, type Line } from "../../line/line.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Outcome } from "../balance/balance-answer.js";
import { answerOption } from "./answer-option.js";
import type { AskedOption, OptionAnswer } from "./option-answer.js";
import { type OptionFacts, optionFacts, shiftsDiffer, withShiftNotes } from "./option-facts.js";
import { type RowOfFigures, rowsOf } from "./rows.js";
import { currenciesOf, shiftsBeside } from "./terms.js";
import { type Verdict, verdictOf } from "./verdict.js";
import { whereLinePays } from "./where-line-pays.js";

/** Options side by side; reports read it and compute nothing. */
export interface Comparison {
  /** The line that the options are of. */
  readonly line: Line;
  /** In the order of the columns; the first is what the others are measured against. */
  readonly options: readonly OptionAnswer[];
  readonly rows: readonly RowOfFigures[];
  /** By option. */
  readonly facts: readonly OptionFacts[];
  /** Some option works other shifts than the first, or shifts of different length. */
  readonly hasOtherHours: boolean;
  /** Of the options that have rates, each once; null is one that is not named. */
  readonly currencies: readonly (string | null)[];
  /** The line as its file has it, by the name that it would have; null where it is among the options. */
  readonly absent: { readonly name: string; readonly file: string } | null;
  /** What each option gains over the first, and what that costs. */
  readonly verdict: Verdict;
  /** "proved" where every option is, "infeasible" where none has a plan. */
  readonly outcome: Outcome;
  readonly findings: readonly Finding[];
}

/** Works out one option; the answer is the same wherever it is done. */
export type SolveOption = (asked: AskedOption, watch: Watch) => Promise<OptionAnswer>;

export interface CompareWork {
  readonly watch: Watch;
  /** How many options may be worked out at a time. */
  readonly atATime: number;
  readonly solve: SolveOption;
}

/** One after another, on this thread. */
export const ONE_BY_ONE: Pick<CompareWork, "atATime" | "solve"> = { atATime: 1, solve: answerOption };

/** Compares options on equal terms. After an interruption options that are not worked out have no figures. */
export async function compareOptions(
  line: Line,
  asked: readonly AskedOption[],
  work: CompareWork,
): Promise<Comparison> {
  const answers = await withTables(await solveAll(asked, work), work.watch);
  const options = answers.map(withShiftNotes);
  const rows = rowsOf(options);
  const isShown = options.some((each) => each.asked.option === null && each.asked.line.file === line.file);
  return {
    line,
    options,
    rows,
    facts: optionFacts(options),
    hasOtherHours: options.some((option) => shiftsDiffer(option) || shiftsBeside(option, options[0]!) !== 0),
    currencies: currenciesOf(options),
    absent: isShown ? null : { name: AS_IT_IS, file: line.file },
    verdict: verdictOf(options, rows),
    outcome: outcomeOf(options),
    findings: sortFindings(options.flatMap(({ findings }) => findings)),
  };
}

/** So many at a time, the answers in the order of the options. */
async function solveAll(
  asked: readonly AskedOption[],
  { watch, atATime, solve }: CompareWork,
): Promise<OptionAnswer[]> {
  const answers: OptionAnswer[] = [];
  let next = 0;
  const work = async () => {
    for (let at = next++; at < asked.length; at = next++) {
      const option = { name: asked[at]!.name, turn: { at: at + 1, of: asked.length } };
      const told: Watch = (progress) => watch({ ...progress, option });
      const ended = await told({ nodes: 0, best: null, bound: null });
      answers[at] = ended === null ? await solve(asked[at]!, told) : notBegun(asked[at]!);
    }
  };
  await Promise.all(Array.from({ length: Math.min(atATime, asked.length) }, work));
  return answers;
}

function notBegun(asked: AskedOption): OptionAnswer {
  const nothing = {
    balance: null,
    plan: null,
    posts: [],
    benches: [],
    repairPeople: 0,
    pays: null,
    moves: null,
    findings: [],
  };
  return { asked, outcome: "stopped", ...nothing, isCut: true };
}

/** Tables are set against the first option that is a line. */
async function withTables(answers: readonly OptionAnswer[], watch: Watch): Promise<OptionAnswer[]> {
  const line = answers.find(
    ({ balance, findings }) => balance !== null && !findings.some((each) => tells(each, "cannot-go")),
  );
  const whole: OptionAnswer[] = [];
  for (const answer of answers) {
    const [tables] = answer.posts;
    const pays =
      tables?.kind === "tables" && line !== undefined && !answers.some(({ isCut }) => isCut)
        ? await whereLinePays(tables, line.asked, (progress) =>
            watch({ ...progress, what: "where-line-pays", option: { name: answer.asked.name, turn: null } }),
          )
        : null;
    whole.push({ ...answer, pays });
  }
  return whole;
}

function outcomeOf(options: readonly OptionAnswer[]): Outcome {
  const outcomes = options.map(({ outcome }) => outcome);
  if (options.every(({ posts }) => posts.length === 0))
    return outcomes.includes("stopped") ? "stopped" : "infeasible";
  return outcomes.every((each) => each === "proved") ? "proved" : "found";
}
