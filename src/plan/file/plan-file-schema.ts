import * as z from "zod";
import { choice, named, text, textOrNumber } from "../../line/read/leaf.js";
import { readChoice, readWords } from "../../line/text-values.js";
import { readPeople, readPlaces } from "../../line/whole-numbers.js";
import { readDuration } from "../../time/duration.js";
import { type Reading, refuse } from "../../time/reading.js";
import { STATION_SIDES } from "../plan.js";

/** The one description of a plan file: its keys, what each means, how its text is read. Lists, never maps: they keep their order. */
export const planFileSchema = z
  .strictObject({
    format: text("blank", "What the file is: linepoise-plan/1.", readWords),
    line: text(
      "blank",
      "The line file that the plan is for, as seen from the plan file.",
      readWords,
    ).optional(),
    "made-for": z
      .strictObject({
        "line-cycle": text(
          "other-time",
          "The line cycle that the plan was made for, such as 136.418 s.",
          readLineCycle,
        ).optional(),
        fingerprint: textOrNumber(
          "blank",
          "Stands for the times, precedences and rules that the plan was made from.",
          readWords,
        ).optional(),
      })
      .meta({ description: "What the plan was made for; left out where it was written by hand." })
      .optional(),
    stations: z
      .array(
        stationSchema("S1, S2, ... by its turn, or the id on the floor").extend({
          ...sidesKey(),
          ...personsKey(),
        }),
      )
      .meta({ description: "The stations in order of flow." }),
    benches: z
      .array(stationSchema("B1, B2, ... by its turn"))
      .meta({ description: "Benches beside the line." })
      .optional(),
  })
  .meta({ title: "linepoise plan file", description: "Which task of a line is done where." });

export type PlanFileSchema = typeof planFileSchema;

/** A plan has no unit of its own. */
function readLineCycle(typed: string): Reading<number> {
  const read = readDuration(typed, null);
  return read.ok ? read : refuse(read.problem.replace(", or give `unit:`", ""));
}

function stationSchema(otherwise: string) {
  return z
    .strictObject({
      id: named(`What it is called; when left out, ${otherwise}.`).optional(),
      places: textOrNumber(
        "count",
        "Parallel places that take units in turn; 1 when left out.",
        readPlaces,
      ).optional(),
      tasks: z.array(named("A task of the line.")).meta({ description: "Its tasks in order of work." }),
    })
    .meta({ description: "One of them with its tasks." });
}

function sidesKey() {
  const words = STATION_SIDES.join(", ");
  return {
    sides: z
      .record(
        named("A task of this station."),
        choice(
          "choice",
          `Where it is worked: ${words}.`,
          STATION_SIDES,
          readChoice("a side of a station", STATION_SIDES),
        ),
      )
      .meta({ description: "The side of each task that may be worked from either side of a wide product." })
      .optional(),
  };
}

function personsKey() {
  const person = (description: string) => textOrNumber("count", description, readPeople);
  return {
    persons: z
      .record(
        named("A task of this station."),
        z
          .union([person("One person, by number."), z.array(person("One of them, by number."))])
          .meta({ description: "The person who does it, or the list of those who do it together." }),
      )
      .meta({
        description:
          "Who does each task where the people of a place share the work of a unit, numbered from 1; they work together when left out.",
      })
      .optional(),
  };
}

/** The JSON Schema of a plan file as text, for editors, from the one description that plan files are read with. */
export function planFileJsonSchema(): string {
  const schema = z.toJSONSchema(planFileSchema, { io: "input", target: "draft-2020-12" });
  return `${JSON.stringify(schema, null, 2)}\n`;
}
