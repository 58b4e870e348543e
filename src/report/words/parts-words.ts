import type { Batch, Kit, PartsAnswer, PartsAtPost } from "../../answer/parts/answer-parts.js";
import type { MovedPart, QuantityAt } from "../../answer/parts/moved-parts.js";
import { countOf, countPeople, thousands } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import type { RoundedUp } from "../../plan/figures/parts.js";
import type { Ratio } from "../../time/ratio.js";
import { difference, isOne } from "../../time/show-numbers.js";
import { beforeRounding, decimal, downToMinutes, longTime, percent } from "../../time/show-values.js";

/** How long a pack lasts, in whole minutes down: nobody comes too late by it. */
export function lastsWords(time: Ratio): string {
  const minutes = downToMinutes(time);
  return minutes === "0 min" ? longTime(time) : minutes;
}

/** A whole number, beside what it was rounded up from, to some decimals: "183 (182.25)". */
export function roundedWords({ exact, whole }: RoundedUp): string {
  const shown = thousands(whole);
  return exact.den === 1n ? shown : `${shown} (${beforeRounding(exact)})`;
}

/** "165 good units in shift early". */
export function batchWords({ models }: Line, { goodUnits, shift, model }: Batch): string {
  const units = `${decimal(goodUnits, 3)} good ${isOne(goodUnits) ? "unit" : "units"}`;
  const of = model === null ? "" : ` of ${models[model]!.id}`;
  return `${units}${of}${shift === null ? "" : ` in shift ${shift}`}`;
}

/** The answer in one line. */
export function partsSummary(answer: PartsAnswer): string {
  const { line, batch, posts, totals, handler } = answer;
  if (totals.length === 0) return "No task of this plan has `parts`; there is nothing to bring.";
  const places = (["station", "bench", "tables"] as const).flatMap((kind) => {
    const count = posts.filter((post) => post.kind === kind && post.parts.length > 0).length;
    return count === 0 ? [] : [`${count} ${PLACES[kind][count === 1 ? 0 : 1]}`];
  });
  const packs =
    handler.packs === null ? [] : [`${thousands(handler.packs)} ${handler.packs === 1n ? "pack" : "packs"}`];
  const trips =
    handler.trips === null
      ? []
      : [`${thousands(handler.trips.whole)} ${handler.trips.whole === 1n ? "trip" : "trips"}`];
  const people = handler.people === null ? [] : [countPeople(Number(handler.people.whole))];
  const work = [...packs, ...trips, ...people].join(", ");
  return `${batchWords(line, batch)}: ${countOf(totals.length, "part number")} at ${listOf(places)}${work === "" ? "" : `; ${work}`}.`;
}

const PLACES = {
  station: ["station", "stations"],
  bench: ["bench", "benches"],
  tables: ["place of whole units", "places of whole units"],
} as const;

/** How the quantities are counted, in short sentences. */
export function countingWords(answer: PartsAnswer): string[] {
  const { line, batch, handler, totals } = answer;
  if (totals.length === 0) return [];
  const { goodUnits, started, time } = batch;
  const begun = isOne(line.yield)
    ? []
    : [
        `${decimal(goodUnits, 3)} good units / ${percent(line.yield, 4)} yield = ${decimal(started, 3)} units started.`,
      ];
  const again = line.tasks.some(({ test }) => test !== null);
  return [
    ...begun,
    line.models.length > 0 && batch.model === null
      ? "A quantity is that of the model mix."
      : "A quantity is units started x pieces per unit.",
    ...(again
      ? [
          "Parts count as often as their task is performed per good unit: again after a repair, and for units scrapped later.",
        ]
      : []),
    ...(isAnyRounded(answer)
      ? ["Each list is rounded up by itself; the figure before that stands in brackets."]
      : []),
    ...(time === null ? ["How long a pack lasts is not known: no demand gives the pace."] : []),
    ...handlerWords(line, batch, handler),
    ...toRunWords(answer),
  ];
}

/** Whose containers `simulate` follows although they are not stated, the first few of them. */
const MOST_TO_RUN = 3;

/**
 * What `simulate` takes for terms of containers that the file leaves out, that its hours are those in which the line runs, and how many come of
 * it; empty where it has as many as are stated.
 */
function toRunWords({ line: { delivery, uptime }, posts }: PartsAnswer): string[] {
  const all = posts.flatMap(({ id, parts }) => parts.map((part) => ({ ...part, station: id })));
  const taken = all.filter((each) => each.containersToRun !== null);
  if (taken.length === 0) return [];
  const { every } = delivery;
  const withoutTime = taken.some(({ part }) => part.replenish === null);
  const withoutSafety = taken.some(({ part }) => part.safety === null);
  const named = taken
    .slice(0, MOST_TO_RUN)
    .map(
      ({ part, station, containersToRun: count }) =>
        `${thousands(count!)} of ${visibleText(part.id)} at ${station}`,
    );
  const more = taken.length - named.length;
  const others = more > 0 ? [`those of ${countOf(more, "more row")}`] : [];
  return [
    ...(withoutSafety ? ["`simulate` takes 0 % where `safety` is missing."] : []),
    ...(withoutTime
      ? [
          `\`simulate\` takes two intervals of the handler, ${longTime(2 * every!)}, where \`replenish\` is missing.`,
        ]
      : []),
    ...(isOne(uptime)
      ? []
      : [
          `\`simulate\` counts the hours in which the line runs, ${percent(uptime, 4)} of the available time: parts are used faster there.`,
        ]),
    `So it has these full containers: ${listOf([...named, ...others])}.`,
  ];
}

/** Which terms of containers no part has, or that none has both. */
function missingWords(partList: Line["partList"]): string {
  const missing = (["replenish", "safety"] as const).filter((key) =>
    partList.every((part) => part[key] === null),
  );
  if (missing.length === 0) return "no part has both `replenish` and `safety`";
  return `${listOf(missing.map((key) => `\`${key}\``))} ${missing.length === 1 ? "is" : "are"} missing`;
}

/** Whether any list shows a figure that was rounded up. */
const isAnyRounded = ({ posts, totals, handler }: PartsAnswer): boolean =>
  [
    ...totals.map(({ quantity }) => quantity),
    ...posts.flatMap(({ parts, kits }) => [
      ...parts.flatMap(({ quantity, packs, containers }) => [quantity, packs, containers]),
      ...kits.map(({ count }) => count),
    ]),
    handler.trips,
  ].some((each) => each !== null && each.exact.den !== 1n);

function handlerWords(
  { delivery, partList }: Line,
  { time: available }: Batch,
  { packs, withoutPack, trips, tripsBy, time, people }: PartsAnswer["handler"],
): string[] {
  const none = withoutPack === 0 ? [] : [`No pack is stated for ${countOf(withoutPack, "part number")}.`];
  if (packs === null && delivery.every === null) return none;
  const stated = partList.some(({ replenish, safety }) => replenish !== null && safety !== null);
  const containers = stated
    ? [
        "Containers at the line: demand in the replenishment time x (1 + safety) / pack, rounded up (common practice).",
      ]
    : [`Containers at the line are not stated: ${missingWords(partList)}.`];
  if (trips === null)
    return [...none, ...containers, "Trips are not stated: `delivery` has neither `packs` nor `every`."];
  const by =
    tripsBy === "packs"
      ? `${thousands(packs!)} packs / ${thousands(delivery.packs!)} a trip`
      : `${longTime(available!)} / one each ${longTime(delivery.every!)}`;
  const work =
    time === null
      ? "Their time is not stated: `delivery` has no `trip`."
      : `They take ${longTime(time)}${people === null ? "" : `: ${roundedWords(people)} ${people.whole === 1n ? "person" : "people"} for it`}.`;
  return [...none, ...containers, `Trips: ${by} = ${roundedWords(trips)}. ${work}`];
}

/** "S1", "B1, a bench". */
export const postWords = ({ id, kind, places }: PartsAtPost): string =>
  kind === "station"
    ? id
    : kind === "bench"
      ? `${id}, a bench`
      : `${id}: whole units at ${countOf(places, "table")}`;

/** "A kit for one city, 40 of them". */
export function kitWords({ models }: Line, { model, count, parts }: Kit): string {
  const of = model === null ? "one unit" : `one ${models[model]!.id}`;
  const isSeldom = parts.some(({ perUnit }) => perUnit.den !== 1n);
  const seldom = isSeldom ? " Work of every n-th unit stands in it with its share." : "";
  return `Kit for ${of}; ${roundedWords(count)} of it.${seldom}`;
}

/** "frame bolt: 6 at S1 (990), 6 at S2 -> S3". */
export function movedWords({ part, before, after, totalBefore, totalAfter, isAlike }: MovedPart): string {
  const total = isAlike
    ? `total ${decimal(totalAfter, 3)} as before`
    : `total ${decimal(totalBefore, 3)} before and ${decimal(totalAfter, 3)} now`;
  return `${part.id}: ${placesWords(before)} before, ${placesWords(after)} now; ${total}`;
}

const placesWords = (all: readonly QuantityAt[]): string =>
  all.length === 0
    ? "nowhere"
    : listOf(all.map(({ post, quantity }) => `${decimal(quantity, 3)} at ${post}`));

/** Whether what both plans need is the same, in a sentence. */
export function againstWords({ moved, isAlike, file }: NonNullable<PartsAnswer["against"]>): string {
  if (moved.length === 0) return `Every part goes where ${file} has it.`;
  const totals = isAlike
    ? "The totals of all part numbers are the same."
    : "Some totals differ: what is scrapped at a bench, or a task that one plan misses, changes them.";
  return `${countOf(moved.length, "part number")} of ${file} ${moved.length === 1 ? "goes" : "go"} elsewhere. ${totals}`;
}

/** The fill of a limit: "shelf 2.1 m of 2.4 m, too much". */
export function limitWords({
  name,
  used,
  most,
  unit,
}: {
  name: string;
  used: Ratio;
  most: Ratio;
  unit: string;
}): string {
  const amount = (value: Ratio) => `${decimal(value, 3)}${unit === "" ? "" : ` ${unit}`}`;
  return `${name} ${amount(used)} of ${amount(most)}${difference(used, most) > 0 ? ", too much" : ""}`;
}
