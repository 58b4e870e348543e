import { z } from "zod";
import { readShareOfSome } from "../../time/share.js";
import { RETESTS } from "../line.js";
import { choice, named, type TimeLeaf, text } from "../read/leaf.js";
import { readChoice } from "../text-values.js";

/** What becomes of the units that a test finds faulty. */
export function testSchema(time: TimeLeaf) {
  return z
    .strictObject({
      fail: text(
        "share",
        "Share of the units tested that fail and are repaired, above 0 % and below 100 %.",
        readShareOfSome,
      ).optional(),
      repair: time("other-time", "Time of one repair, off the line; with `fail`.").optional(),
      "return-to": named(
        "The task from which a repaired unit does its work again, before the test or the test itself; with `fail`.",
      ).optional(),
      retest: choice(
        "choice",
        "How repaired units are tested: until-good, once (good for certain) or scrap (scrapped when they fail again); until-good when left out.",
        RETESTS,
        readChoice("a retest", RETESTS),
      ).optional(),
      scrap: text(
        "share",
        "Share of the units tested that are scrapped, in place of `fail`.",
        readShareOfSome,
      ).optional(),
    })
    .meta({
      description:
        "What the task finds faulty: {fail: 3 %, repair: 6 min, return-to: TASK}, or {scrap: 10 %}.",
    });
}
