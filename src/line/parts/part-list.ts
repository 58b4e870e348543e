import * as z from "zod";
import { compareNaturally } from "../../findings/natural-order.js";
import { quoted } from "../../time/quoted.js";
import { readHours } from "../../time/read-calendar.js";
import { type Reading, refuse } from "../../time/reading.js";
import { readSurplus } from "../../time/share.js";
import type { Micros } from "../../time/units.js";
import { idKey } from "../ids.js";
import type { Delivery, Line, ListedPart } from "../line.js";
import type { ObjectDraft } from "../read/draft.js";
import { named, text, textOrNumber } from "../read/leaf.js";
import { readWords } from "../text-values.js";
import { readPack, readPacksOfTrip } from "../whole-numbers.js";

/** What is known of the parts, and how they come to the line. */
export const partListKeys = () => ({
  "part-list": z
    .record(
      named("The number of the part, as tasks name it."),
      z
        .strictObject({
          name: textOrNumber("blank", "What the part is called.", readWords).optional(),
          unit: textOrNumber("blank", "What one of it is, such as piece or m.", readWords).optional(),
          pack: textOrNumber("count", "How many are in one pack or container.", readPack).optional(),
          from: textOrNumber("blank", "Where it is fetched from.", readWords).optional(),
          ...replenishKeys("Default: that of `delivery`."),
        })
        .meta({ description: "What is known of the part." }),
    )
    .meta({
      description:
        "The parts by number, for `parts` and `sheets`. Where it exists, tasks name no other part.",
    })
    .optional(),
  delivery: z
    .strictObject({
      every: textOrNumber(
        "delivery",
        "How often the material handler comes, such as 1 h. Default: as often as a trip is full.",
        readDelivery,
      ).optional(),
      trip: textOrNumber("delivery", "How long one trip takes, such as 8 min.", readDelivery).optional(),
      packs: textOrNumber("count", "How many packs one trip brings.", readPacksOfTrip).optional(),
      ...replenishKeys("Default: not stated."),
    })
    .meta({
      description: "How the material handler brings parts to the stations, for `parts` and `simulate`.",
    })
    .optional(),
});

/** What the containers at the line are counted by. */
const replenishKeys = (otherwise: string) => ({
  replenish: textOrNumber(
    "delivery",
    `Time from the moment that a container is empty until a full one is there, such as 90 min. ${otherwise}`,
    readDelivery,
  ).optional(),
  safety: text(
    "share",
    `What is kept on top of the demand in that time, as a share of it, such as 10 %. ${otherwise}`,
    readSurplus,
  ).optional(),
});

function readDelivery(typed: string): Reading<Micros> {
  const read = readHours(typed);
  if (read.ok && read.value <= 0)
    return refuse(`${quoted(typed.trim())} is not a time above 0; write one such as 90 min`);
  return read;
}

type ListKeys = ObjectDraft<ReturnType<typeof partListKeys>>["at"];

/** The parts that the file knows and how they come, of a draft without errors. */
export function buildPartList(keys: ListKeys): Pick<Line, "partList" | "delivery"> {
  const { every, trip, packs, replenish, safety } = keys.delivery?.at ?? {};
  const delivery: Delivery = {
    every: every?.value ?? null,
    trip: trip?.value ?? null,
    packs: packs?.value ?? null,
    replenish: replenish?.value ?? null,
    safety: safety?.value ?? null,
  };
  const parts = (keys["part-list"]?.entries ?? []).map(({ id, value }): ListedPart => {
    const { name, unit, pack, from, ...own } = value?.at ?? {};
    return {
      id,
      name: name?.value ?? null,
      unit: unit?.value ?? null,
      pack: pack?.value ?? null,
      from: from?.value ?? null,
      replenish: own.replenish?.value ?? delivery.replenish,
      safety: own.safety?.value ?? delivery.safety,
    };
  });
  return { partList: parts.sort((one, two) => compareNaturally(one.id, two.id)), delivery };
}

/** What the file knows of a part; of one that stands in no list, only its number. */
export function listedPart(
  { partList, delivery }: Pick<Line, "partList" | "delivery">,
  id: string,
): ListedPart {
  const { replenish, safety } = delivery;
  return (
    partList.find((each) => idKey(each.id) === idKey(id)) ?? {
      id,
      name: null,
      unit: null,
      pack: null,
      from: null,
      replenish,
      safety,
    }
  );
}
