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
        "The highest load of a station, as a share of its working time. Default: 100 %.",
        readShare,
      ).optional(),
      "min-efficiency": text(
        "share",
        "The lowest efficiency of a plan at the pace, over all people, also those at benches.",
        readShare,
      ).optional(),
      "max-stations": textOrNumber(
        "count",
        "The most stations of a plan. Benches are not counted.",
        readLimit,
      ).optional(),
      "max-people": textOrNumber(
        "count",
        "The most people of a plan at the same time, also those at benches.",
        readLimit,
      ).optional(),
      "max-above-least": textOrNumber(
        "count",
        "How many stations more than the proved least a plan may have; 0 or more.",
        readAboveLeast,
      ).optional(),
    })
    .meta({ description: "What `check` holds every plan of the line to." });
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
