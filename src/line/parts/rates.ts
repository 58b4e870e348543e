import * as z from "zod";
import { readNumber } from "../../time/exact-number.js";
import { explainNumberSlip } from "../../time/number-slips.js";
import { quoted } from "../../time/quoted.js";
import { compare, ONE, type Ratio, ZERO } from "../../time/ratio.js";
import { accept, type Reading, refuse } from "../../time/reading.js";
import { readSurplus } from "../../time/share.js";
import type { OnceCost, Rates } from "../line.js";
import type { Draft } from "../read/draft.js";
import { text, textOrNumber } from "../read/leaf.js";
import { readWords } from "../text-values.js";

/** What hours cost, for the cost of a unit in `compare`. */
export function ratesSchema() {
  const money = (description: string) => textOrNumber("money", description, readMoney);
  return z
    .strictObject({
      "person-hour": money("The cost of one hour of one person."),
      "bench-hour": money(
        "The cost of one hour of a bench workplace or table, without its people. Default: 0.",
      ).optional(),
      overtime: text(
        "overtime-pay",
        "The pay of an hour of overtime, as a share of a normal hour, such as 150 %. Default: 100 %.",
        readOvertimePay,
      ).optional(),
      currency: text("blank", "The currency, shown as typed.", readWords).optional(),
    })
    .meta({ description: "What hours cost, for the cost per unit in `compare`." });
}

/** An amount of money as a plain number, 0 or more; the currency has a key of its own. */
function readMoney(text: string): Reading<Ratio> {
  const trimmed = text.trim();
  const expected = "a plain number such as 32.50 is expected; `currency` names the currency";
  if (trimmed === "") return refuse(`an amount is missing (blank is never 0): ${expected}`);
  const amount = readNumber(trimmed);
  if (amount !== null) return accept(amount);
  return refuse(`${quoted(trimmed)} is no amount of money: ${explainNumberSlip(trimmed) ?? expected}`);
}

/** A cost that comes once: an amount, and behind it the currency, where it has one. */
export function readOnceCost(text: string): Reading<OnceCost> {
  const trimmed = text.trim();
  const expected = "an amount and its currency are expected, such as 12000 EUR";
  if (trimmed === "") return refuse(`an amount is missing (blank is never 0): ${expected}`);
  const [, typed, currency] = /^([^\p{L}\p{Sc}]*)(.*)$/su.exec(trimmed)!;
  const amount = readNumber(typed!);
  if (amount === null || /\p{N}/u.test(currency!)) {
    return refuse(`${quoted(trimmed)} is no one-off cost: ${explainNumberSlip(trimmed) ?? expected}`);
  }
  if (compare(amount, ZERO) > 0) return accept({ amount, currency: currency === "" ? null : currency! });
  return refuse(`${quoted(trimmed)} costs nothing; leave the key out`);
}

/** What an hour of overtime is paid, as a share of any other hour: from 100 %. */
function readOvertimePay(text: string): Reading<Ratio> {
  const share = readSurplus(text);
  if (!share.ok || compare(share.value, ONE) >= 0) return share;
  const expected =
    "the whole hour counts, so 100 % or more is expected, such as 150 % for half as much again";
  return refuse(`${quoted(text.trim())} is too small: ${expected}`);
}

/** What hours cost; null where the file is silent. */
export function buildRates(rates: Draft<ReturnType<typeof ratesSchema>> | undefined): Rates | null {
  if (rates === undefined) return null;
  const { at } = rates;
  return {
    personHour: at["person-hour"]!.value,
    benchHour: at["bench-hour"]?.value ?? ZERO,
    overtime: at.overtime?.value ?? ONE,
    currency: at.currency?.value ?? null,
  };
}
