import * as z from "zod";
import { ONE } from "../../time/ratio.js";
import { readShare } from "../../time/share.js";
import type { Policy } from "../line.js";
import type { Draft } from "../read/draft.js";
import { text, textOrNumber } from "../read/leaf.js";
import { readAboveLeast, readLimit } from "../whole-numbers.js";

/** What `check` holds plans against, beside pace and rules. */
export function policySchema() {
  return z
    .strictObject({
      "max-load": text(
        "share",
        "The most that a station may be loaded, as a share of its working time. Default: 100 %.",
        readShare,
      ).optional(),
      "min-efficiency": text(
        "share",
        "The least efficiency of a plan at the pace, over all people, those at benches among them.",
        readShare,
      ).optional(),
      "max-stations": textOrNumber(
        "count",
        "The most stations that a plan may have, benches not counted.",
        readLimit,
      ).optional(),
      "max-people": textOrNumber(
        "count",
        "The most people that a plan may need at a time, those at benches among them.",
        readLimit,
      ).optional(),
      "max-above-least": textOrNumber(
        "count",
        "How many stations more than the proved least a plan may have, a whole number from 0.",
        readAboveLeast,
      ).optional(),
    })
    .meta({ description: "What every plan of the line is held against by `check`." });
}

/** What plans are held against, of a draft without errors. */
export function buildPolicy(policy: Draft<ReturnType<typeof policySchema>> | undefined): Policy {
  const given = policy?.at ?? {};
  return {
    maxLoad: given["max-load"]?.value ?? ONE,
    minEfficiency: given["min-efficiency"]?.value ?? null,
    maxStations: given["max-stations"]?.value ?? null,
    maxPeople: given["max-people"]?.value ?? null,
    maxAboveLeast: given["max-above-least"]?.value ?? null,
  };
}
