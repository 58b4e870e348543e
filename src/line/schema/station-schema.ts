import { z } from "zod";
import { readShare } from "../../time/share.js";
import { named, namedOneOrMore, text, textOrNumber } from "../read/leaf.js";
import { readPlaces } from "../whole-numbers.js";

/** The stations on the floor, in order of flow. */
export function stationsSchema() {
  return z
    .array(
      z
        .strictObject({
          id: named("What the station is called."),
          zone: named(
            "The zone it stands in; where any station has one, tasks of a zone stand only there.",
          ).optional(),
          equipment: namedOneOrMore(
            "What stands there: one equipment, or a list; tasks that need equipment listed at any station stand only where it is.",
          ).optional(),
          skills: namedOneOrMore(
            "The skills of its people: one, or a list; where any station states them, tasks that need a skill stand only there.",
          ).optional(),
          "max-places": textOrNumber(
            "count",
            "The most parallel places there; as many as the line allows when left out.",
            readPlaces,
          ).optional(),
          "plan-to": text(
            "share",
            "Share of the working time of this station that planners load; that of the line when left out.",
            readShare,
          ).optional(),
        })
        .meta({ description: "A station on the floor." }),
    )
    .meta({ description: "The stations on the floor, in order of flow; a plan may need more after them." });
}
