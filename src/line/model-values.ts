import { readDuration, type TimeUnit } from "../time/duration.js";
import { quoted } from "../time/quoted.js";
import { type Ratio, ratio } from "../time/ratio.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import { readPart } from "../time/share.js";

/** How much of a model is built: a share of the good units, or a number of units beside those of other models. */
export interface ModelAmount {
  readonly kind: "share" | "units";
  readonly value: Ratio;
}

/** `60 %`, or `120` units. */
export function readModelAmount(text: string): Reading<ModelAmount> {
  const trimmed = text.trim();
  const expected = "write a share with its %, such as 60 %, or a whole number of units, such as 120";
  if (trimmed === "") return refuse(`an amount is missing (blank is never 0): ${expected}`);
  if (trimmed.endsWith("%")) {
    const share = readPart(trimmed);
    return share.ok ? accept({ kind: "share", value: share.value }) : share;
  }
  if (!/^\d{1,15}$/u.test(trimmed)) return refuse(`${quoted(trimmed)} is no amount of a model: ${expected}`);
  return accept({ kind: "units", value: ratio(BigInt(trimmed)) });
}

/** The time of a task for one model, null for `-`: the model does not have the task. */
export function readModelTime(text: string, unit: TimeUnit | null): Reading<number | null> {
  if (text.trim() === "-") return accept(null);
  if (text.trim() === "")
    return refuse(
      'a time is missing (blank is never 0): write it, or say "-" where the model does not have the task',
    );
  return readDuration(text, unit);
}
