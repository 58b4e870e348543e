import { z } from "zod";
import { named, textOrNumber } from "../read/leaf.js";
import { readSupply } from "../text-values.js";

/** What others deliver to the line. */
export function supplySchema() {
  return z
    .record(
      named("The name of a bench, of a part or of who delivers it."),
      textOrNumber(
        "supply",
        "Units of the product that it is enough for, per hour (of available time), shift, day, week, month or year, such as 150 per shift.",
        readSupply,
      ),
    )
    .meta({
      description:
        "For how many units benches and suppliers deliver, by name; `check` tells what stays below the demand.",
    });
}
