import * as z from "zod";
import type { Place } from "../../findings/finding.js";
import { compareNaturally } from "../../findings/natural-order.js";
import { readDemand } from "../../time/demand.js";
import { readDuration, type TimeUnit } from "../../time/duration.js";
import { ONE } from "../../time/ratio.js";
import { readShare } from "../../time/share.js";
import { idKey, type NumberOf } from "../ids.js";
import type { Bench, LineOption, Rates, Tables } from "../line.js";
import type { Draft, TextDraft } from "../read/draft.js";
import { named, text, textOrNumber } from "../read/leaf.js";
import { readWords } from "../text-values.js";
import { readPlaces, readStationCount, readTablePeople } from "../whole-numbers.js";
import { calendarSchema, draftCalendar } from "./calendar.js";
import { readOnceCost } from "./rates.js";

/** Named changes of the line, for `compare`; a bare time is in `unit`, and refused where that is null. */
export function optionsSchema(unit: TimeUnit | null) {
  return z.record(named("The name of the option."), optionSchema(unit)).meta({
    description: "Named changes of the line, for `compare`. What an option leaves out stays as it is.",
  });
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
      demand: textOrNumber("demand", "Another demand, with its period.", readDemand).optional(),
      calendar: calendarSchema().optional(),
      uptime: share("Another uptime."),
      yield: share("Another yield."),
      handling: textOrNumber("handling", "Another handling time.", (typed) =>
        readDuration(typed, unit),
      ).optional(),
      "plan-to": share("Another plan-to of the line. Stations with their own keep it."),
      "max-places": textOrNumber(
        "count",
        "The most parallel workplaces of a station, in this option.",
        readPlaces,
      ).optional(),
      stations: textOrNumber(
        "count",
        "A fixed number of stations. Their pace is the shortest cycle that they can keep.",
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
                "Walking of one person for one unit, on top of that of the tasks.",
                (typed) => readDuration(typed, unit),
              ).optional(),
            })
            .meta({ description: "The people, with the walking that tables cause." }),
        ])
        .meta({
          description: "Whole units built at tables, in place of a line: the number of people, or a map.",
        })
        .optional(),
      once: textOrNumber(
        "money",
        "What it costs once, such as 12000 EUR; `compare` shows when that is paid back. Say in `note` what it is for.",
        readOnceCost,
      ).optional(),
      note: textOrNumber("blank", "Free text, shown beside the figures.", readWords).optional(),
    })
    .meta({ description: "One option: what it changes." });
}

type OptionsDraft = Draft<ReturnType<typeof optionsSchema>>;
type OptionKeys = NonNullable<OptionsDraft["entries"][number]["value"]>["at"];

/** A block of `off-line`: its tasks as they are named, or the name of a bench. */
export type OffLineDraft =
  | { readonly kind: "bench"; readonly named: TextDraft<string>; readonly place: Place }
  | {
      readonly kind: "tasks";
      readonly named: readonly TextDraft<string>[];
      /** How many tasks are written, faulty ones among them. */
      readonly count: number;
      /** Those that exist, in the order of the file, doubles among them. */
      readonly tasks: readonly { readonly task: number; readonly place: Place }[];
      readonly place: Place;
    };

export interface OptionDraft {
  /** As typed. */
  readonly name: string;
  readonly place: Place;
  readonly keys: OptionKeys;
  readonly offLine: readonly OffLineDraft[];
  /** Other times as they are named; the task is left out where there is none of that name. */
  readonly times: readonly {
    readonly named: TextDraft<string>;
    readonly task: number | undefined;
    readonly given: TextDraft<number> | undefined;
  }[];
}

/** In natural order of names. */
export function draftOptions(given: OptionsDraft | undefined, numberOf: NumberOf): OptionDraft[] {
  const entries = [...(given?.entries ?? [])].sort((one, two) => compareNaturally(one.id, two.id));
  return entries.map(({ id, place, value }) => {
    const keys: OptionKeys = value?.at ?? {};
    return {
      name: id,
      place,
      keys,
      offLine: (keys["off-line"]?.items ?? []).map((item) => draftOffLine(item, numberOf)),
      times: (keys.times?.entries ?? []).map((each) => ({
        named: { kind: "text", text: each.id, value: each.id, place: each.place },
        task: numberOf(each.id),
        given: each.value,
      })),
    };
  });
}

type OffLineItem = NonNullable<OptionKeys["off-line"]>["items"][number];

function draftOffLine(item: OffLineItem, numberOf: NumberOf): OffLineDraft {
  if (item.kind === "text") return { kind: "bench", named: item, place: item.place };
  const { items, count, place } = item;
  const tasks = items.flatMap((each) => {
    const task = numberOf(each.value);
    return task === undefined ? [] : [{ task, place: each.place }];
  });
  return { kind: "tasks", named: items, count, tasks, place };
}

/** The options of a draft without errors; `benches` and `rates` are those of the line. */
export function buildOptions(
  options: readonly OptionDraft[],
  benches: readonly Bench[],
  rates: Rates | null,
): LineOption[] {
  return options.map((option) => {
    const { name, place, keys, times } = option;
    return {
      name,
      offLine: buildOffLine(option, benches),
      demand: keys.demand?.value ?? null,
      calendar: keys.calendar === undefined ? null : draftCalendar({ calendar: keys.calendar }),
      uptime: keys.uptime?.value ?? null,
      yield: keys.yield?.value ?? null,
      handling: keys.handling?.value ?? null,
      planTo: keys["plan-to"]?.value ?? null,
      maxPlaces: keys["max-places"]?.value ?? null,
      stations: keys.stations?.value ?? null,
      times: new Map(times.map(({ task, given }) => [task!, given!.value])),
      tables: buildTables(keys.tables),
      once:
        keys.once === undefined
          ? null
          : { ...keys.once.value, currency: keys.once.value.currency ?? rates?.currency ?? null },
      note: keys.note?.value ?? null,
      place,
    };
  });
}

/** Benches of the option: those that it names, and B1, B2, ... for its blocks. */
function buildOffLine({ offLine }: OptionDraft, benches: readonly Bench[]): Bench[] {
  const taken = new Set(benches.map(({ id }) => idKey(id)));
  let next = 1;
  const newId = () => {
    while (taken.has(`B${next}`)) next++;
    return `B${next++}`;
  };
  return offLine.map((block) =>
    block.kind === "bench"
      ? benches.find(({ id }) => idKey(id) === idKey(block.named.value))!
      : benchOf(newId(), block),
  );
}

/** A bench that works as long as the line, with as many places as it needs. */
function benchOf(id: string, { tasks, place }: Extract<OffLineDraft, { kind: "tasks" }>): Bench {
  return {
    id,
    tasks: [...new Set(tasks.map(({ task }) => task))].sort((one, two) => one - two),
    shifts: null,
    stations: 1,
    share: ONE,
    pieces: null,
    holds: 1,
    handOver: 0,
    takeOver: 0,
    space: null,
    stop: 0,
    bunch: 1,
    place,
  };
}

function buildTables(given: OptionDraft["keys"]["tables"]): Tables | null {
  if (given === undefined) return null;
  if (given.kind === "text") return { people: given.value, walking: 0 };
  return { people: given.at.people!.value, walking: given.at.walking?.value ?? 0 };
}
