import type { NoSaving, Payback } from "../../answer/compare/payback.js";
import type { Ratio } from "../../time/ratio.js";
import { numberShown, quotientShown, signOf } from "../../time/show-numbers.js";
import { decimal, money } from "../../time/show-values.js";

/** What each reason says behind "payback not stated". */
const WHY: Readonly<Record<NoSaving, string>> = {
  "it is the first": "nothing stands beside it",
  "no plan": "it or the first option has no plan",
  "no rates": "the file states no `rates`",
  "no demand": "a demand and a calendar are needed",
  "other currency": "the currencies differ",
  "other demand": "it is for another demand than the first option",
  "misses its demand": "it or the first option misses its demand",
  "first costs once too": "the first option has a one-off cost too",
};

/** "12,000.00 EUR once (paid back in 121.3 working days)". */
export function onceWords(payback: Payback): string {
  return `${money(payback.once, payback.currency)} once (${backWords(payback)})`;
}

function backWords(payback: Payback): string {
  switch (payback.outcome) {
    case "pays back":
      return `paid back in ${daysShown(payback.workingDays)} working days`;
    case "never":
      return "never paid back, as it saves nothing";
    case "not stated":
      return notStatedWords(payback.why);
  }
}

/** "payback not stated: the file states no `rates`". */
export const notStatedWords = (why: NoSaving): string => `payback not stated: ${WHY[why]}`;

/** Days with a decimal, or more where they are fewer than one shows. */
export function daysShown(days: Ratio): string {
  let decimals = 1;
  while (decimal(days, decimals) === "0") decimals++;
  return decimal(days, decimals);
}

/** The saving with as many decimals as give the days shown when the one-off cost is divided by it. */
export function savingShown(payback: Extract<Payback, { readonly savingPerDay: Ratio }>): string {
  const { once, currency, savingPerDay } = payback;
  for (let decimals = 2; ; decimals++) {
    const shown = money(savingPerDay, currency, decimals);
    const number = numberShown(shown);
    if (signOf(number) !== signOf(savingPerDay)) continue;
    if (payback.outcome === "never") return shown;
    if (daysShown(quotientShown(once, number)) === daysShown(payback.workingDays)) return shown;
  }
}
