import * as z from "zod";
import { compareNaturally } from "../../findings/natural-order.js";
import { type Demand, readDemand } from "../../time/demand.js";
import { type Reading, refuse } from "../../time/reading.js";
import type { Supply } from "../line.js";
import type { Draft } from "../read/draft.js";
import { named, textOrNumber } from "../read/leaf.js";

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
        "How many units the benches and suppliers deliver for, by name. `check` reports what is below the demand.",
    });
}

/** For how many units somebody delivers in a period; written as a demand is. */
function readSupply(text: string): Reading<Demand> {
  const read = readDemand(text);
  return read.ok ? read : refuse(read.problem.replace(/(?<=\b(?:a|no) )demand\b/u, "supply"));
}

/** What others deliver, of a draft without errors. */
export function buildSupplies(supply: Draft<ReturnType<typeof supplySchema>> | undefined): Supply[] {
  const supplies = (supply?.entries ?? []).map(({ id, value }) => ({
    name: id,
    ...value!.value,
    place: value!.place,
  }));
  return supplies.sort((one, two) => compareNaturally(one.name, two.name));
}
