import { readNumber } from "../time/exact-number.js";
import { explainNumberSlip } from "../time/number-slips.js";
import { quoted } from "../time/quoted.js";
import { compare, ONE, type Ratio } from "../time/ratio.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import { readSurplus } from "../time/share.js";

/** An amount of money as a plain number, 0 or more; the currency has a key of its own. */
export function readMoney(text: string): Reading<Ratio> {
  const trimmed = text.trim();
  const expected = "a plain number such as 32.50 is expected; `currency` names the currency";
  if (trimmed === "") return refuse(`an amount is missing (blank is never 0): ${expected}`);
  const amount = readNumber(trimmed);
  if (amount !== null) return accept(amount);
  return refuse(`${quoted(trimmed)} is no amount of money: ${explainNumberSlip(trimmed) ?? expected}`);
}

/** What an hour of overtime is paid, as a share of any other hour: from 100 %. */
export function readOvertimePay(text: string): Reading<Ratio> {
  const share = readSurplus(text);
  if (!share.ok || compare(share.value, ONE) >= 0) return share;
  const expected =
    "the whole hour counts, so 100 % or more is expected, such as 150 % for half as much again";
  return refuse(`${quoted(text.trim())} is too small: ${expected}`);
}
