import { z } from "zod";
import { readSurplus } from "../../time/share.js";
import { readModelAmount } from "../model-values.js";
import { named, text, textOrNumber } from "../read/leaf.js";

/** What a line that builds several models says of them. */
export const modelKeys = () => ({
  models: z
    .record(
      named("The name of the model."),
      textOrNumber("model-amount", "Its share, such as 60 %, or units of it, such as 120.", readModelAmount),
    )
    .meta({
      description:
        "The models by name, each with its share of the good units, or all with quantities such as 120.",
    })
    .optional(),
  sequence: z
    .array(named("A model."))
    .meta({ description: "The models in the order in which units enter the line, again and again." })
    .optional(),
  "model-overload": text(
    "share",
    "No model takes a station more than this share above its working time; held on average only when left out.",
    readSurplus,
  ).optional(),
});
