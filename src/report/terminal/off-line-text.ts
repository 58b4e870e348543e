import { visibleText } from "../../findings/visible-text.js";
import type { BalanceAnswer } from "../../off-line/balance-answer.js";
import { type LongAnswer, type OffLineFlag, reasonOf } from "../../off-line/off-line-flag.js";
import { paragraph } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { formatTable } from "./table.js";

/** Blocks shown to a person; the JSON has them all. */
const SHOWN = 5;

/** Tasks over a limit with the answers that exist, then blocks worth building at a bench, the most useful first. */
export function offLineText({ offLine, balance, rates }: BalanceAnswer, look: Look): string {
  const long = offLine.filter((flag) => flag.kind === "over-limit");
  const blocks = offLine.filter((flag) => flag.kind === "block");
  const worthShowing = blocks.filter((flag) => flag.freed === null || flag.freed >= 0).slice(0, SHOWN);
  const rows = [...longRows(long), ...worthShowing.flatMap((flag) => flagRows(flag))];
  const paint = paintFor(look);
  const table = formatTable([{ head: "" }, { head: "", wraps: true }], rows, look.width, (text, _, column) =>
    column === 0 ? paint.strong(text) : text,
  );
  if (rates !== null) return "";
  const searched = balance === null || balance.search !== null;
  const rest = searched ? countOthers(blocks.length - worthShowing.length) : NOT_COMPARED;
  return `${table}${paragraph(rest, look)}`;
}

const NOT_COMPARED = "Blocks are compared by the exact search only: --method best or exact.";

function countOthers(more: number): string {
  const what = more === 1 ? "1 more block shortens" : `${more} more blocks shorten`;
  return more === 0 ? "" : `${what} the line; --json lists them all.`;
}

/** Each task over a limit with its own answers; those that all of them have in common stand once, below. */
function longRows(long: readonly OffLineFlag[]): [string, string][] {
  const isShared = ({ isJoint }: LongAnswer) => isJoint && long.length > 1;
  const own = long.map(({ tasks, answers = [], stationsBefore }): [string, string] => {
    const words = reasonOf(answers.filter((each) => !isShared(each)));
    const heading = stationsBefore === null ? "too long" : "tight";
    return [heading, visibleText(`${tasks.join(", ")}: ${words}`)];
  });
  const shared = reasonOf((long[0]?.answers ?? []).filter(isShared));
  const who = long.length === 2 ? "both of them" : "all of them";
  return shared === "" ? own : [...own, ["", visibleText(`${who}: ${shared}`)]];
}

function flagRows(flag: OffLineFlag): [string, string][] {
  const tasks = visibleText(flag.tasks.join(", "));
  const stations = `stations ${flag.stationsBefore ?? "-"} -> ${flag.stationsAfter}`;
  const people = `people in all ${flag.peopleBefore ?? "-"} -> ${flag.peopleAfter}`;
  return [
    [heading(flag), `${tasks}; joins at ${visibleText(flag.joinsAt ?? "-")}`],
    ["", `${stations}, ${people} (${flag.outcome}); ${visibleText(flag.details)}`],
  ];
}

function heading({ freed }: OffLineFlag): string {
  if (freed === null) return "possible";
  if (freed === 0) return "no gain";
  return freed > 0 ? `frees ${freed}` : `costs ${-freed}`;
}
