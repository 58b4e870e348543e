import { z } from "zod";
import { readDemand } from "../../time/demand.js";
import { readDuration, type TimeUnit } from "../../time/duration.js";
import { readShare } from "../../time/share.js";
import { readMoney, readOvertimePay } from "../rate-values.js";
import { named, text, textOrNumber } from "../read/leaf.js";
import { readWords } from "../text-values.js";
import { readPlaces, readStationCount, readTablePeople } from "../whole-numbers.js";
import { calendarSchema } from "./calendar-schema.js";

/** Named changes of the line, for `compare`; a bare time is in `unit`, and refused where that is null. */
export function optionsSchema(unit: TimeUnit | null) {
  return z
    .record(named("The name of the option."), optionSchema(unit))
    .meta({ description: "Named changes of the line, for `compare`; what an option leaves out stays." });
}

function optionSchema(unit: TimeUnit | null) {
  const share = (description: string) => text("share", description, readShare).optional();
  const people = (description: string) => textOrNumber("count", description, readTablePeople);
  return z
    .strictObject({
      "off-line": z
        .array(z.union([named("A bench of `benches`."), z.array(named("A task of the block."))]))
        .meta({
          description:
            "What is built at benches beside the line: blocks, each a list of tasks, or names of `benches`.",
        })
        .optional(),
      demand: textOrNumber("demand", "Good units wanted instead, with their period.", readDemand).optional(),
      calendar: calendarSchema().optional(),
      uptime: share("Uptime instead."),
      yield: share("Yield instead."),
      handling: textOrNumber("handling", "Handling instead.", (typed) =>
        readDuration(typed, unit),
      ).optional(),
      "plan-to": share("Plan-to of the line instead; stations with their own keep it."),
      "max-places": textOrNumber(
        "count",
        "The most parallel places of a station instead.",
        readPlaces,
      ).optional(),
      stations: textOrNumber(
        "count",
        "A fixed number of stations; the shortest cycle they can keep is their pace.",
        readStationCount,
      ).optional(),
      times: z
        .record(
          named("A task."),
          textOrNumber("task-time", "Its time of one piece instead, for every model that has it.", (typed) =>
            readDuration(typed, unit),
          ),
        )
        .meta({ description: "Other times of one piece, by task." })
        .optional(),
      tables: z
        .union([
          people("So many people, each of whom builds whole units at a table of their own."),
          z
            .strictObject({
              people: people("How many people build whole units."),
              walking: textOrNumber(
                "other-time",
                "Walking of one person for one unit, beside that of the tasks.",
                (typed) => readDuration(typed, unit),
              ).optional(),
            })
            .meta({ description: "The people, with the walking that tables cause." }),
        ])
        .meta({ description: "Whole units at tables in place of a line: how many people build them." })
        .optional(),
      note: textOrNumber("blank", "Free words, shown beside the figures.", readWords).optional(),
    })
    .meta({ description: "One option: what it changes." });
}

/** What hours cost, for the cost of a unit in `compare`. */
export function ratesSchema() {
  const money = (description: string) => textOrNumber("money", description, readMoney);
  return z
    .strictObject({
      "person-hour": money("What an hour of one person costs."),
      "bench-hour": money(
        "What an hour of one bench place or table costs beside its people; 0 when left out.",
      ).optional(),
      overtime: text(
        "overtime-pay",
        "An hour of overtime as a share of any other hour, such as 150 %; 100 % when left out.",
        readOvertimePay,
      ).optional(),
      currency: text("blank", "The currency, shown as typed.", readWords).optional(),
    })
    .meta({ description: "What hours cost, for the cost per unit in `compare`." });
}
