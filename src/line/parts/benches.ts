import * as z from "zod";
import { compareNaturally } from "../../findings/natural-order.js";
import { readDuration, type TimeUnit } from "../../time/duration.js";
import { ONE } from "../../time/ratio.js";
import { readShare } from "../../time/share.js";
import type { NumberOf } from "../ids.js";
import type { Bench } from "../line.js";
import { type Draft, type TextDraft, valuesOf } from "../read/draft.js";
import { named, namedOneOrMore, text, textOrNumber } from "../read/leaf.js";
import {
  readBunch,
  readHolds,
  readPieces,
  readShifts,
  readSpace,
  readStationsOfBench,
} from "../whole-numbers.js";

/** Benches that parts may be built at; a bare time is in `unit`, and refused where that is null. */
export function benchesSchema(unit: TimeUnit | null) {
  const time = (description: string) =>
    textOrNumber("other-time", description, (typed) => readDuration(typed, unit)).optional();
  const bench = z
    .strictObject({
      tasks: namedOneOrMore(
        "What is built there: one task or a list. Parts that join the line at different tasks share the bench and its people.",
      ),
      shifts: textOrNumber(
        "count",
        "Shifts a day that the bench works. Default: as many as the line.",
        readShifts,
      ).optional(),
      stations: textOrNumber(
        "count",
        "Stations of the bench, one after another. With 1, each workplace builds the whole. Default: 1.",
        readStationsOfBench,
      ).optional(),
      share: text(
        "share",
        "Share of the units that carry what is built there, such as an option. `off-line` and `compare` count its tasks on that share of the units on the line as well. `balance` and `check` count every unit. Default: all.",
        readShare,
      ).optional(),
      pieces: textOrNumber(
        "count",
        "Pieces for one unit, such as 2 wheels. Default: what all its quantities have in common.",
        readPieces,
      ).optional(),
      holds: textOrNumber(
        "count",
        "Units whose parts may stand at one workplace at the same time, such as some on machines. Default: 1.",
        readHolds,
      ).optional(),
      "hand-over": time("Time per unit to hand the parts over to the line, worked at the bench."),
      "take-over": time("Time per unit to take the parts over, worked at the task where they join."),
      space: textOrNumber(
        "count",
        "Room between bench and line: the units whose parts fit there. In `simulate` the bench stops when it is full.",
        readSpace,
      ).optional(),
      stop: time("The longest stop of the bench that must not stop the line, such as 2 h."),
      bunch: textOrNumber(
        "count",
        "The most units with these parts that follow each other without a gap.",
        readBunch,
      ).optional(),
    })
    .meta({ description: "A bench: what is built there, and how it works." });
  return z.record(named("The name of the bench."), bench).meta({
    description:
      "Benches beside the line, by name, for the answers of `off-line`. `balance` keeps their tasks on the line. `simulate` runs those of the plan.",
  });
}

type BenchesDraft = Draft<ReturnType<typeof benchesSchema>>;
type BenchKeys = NonNullable<BenchesDraft["entries"][number]["value"]>["at"];

/** A bench as far as it could be read. */
export interface BenchDraft {
  /** As typed. */
  readonly id: string;
  readonly place: TextDraft<string>["place"];
  readonly keys: BenchKeys;
  /** The tasks as they are named, and those of them that exist, in the order of the file, doubles among them. */
  readonly named: readonly TextDraft<string>[];
  readonly tasks: readonly { readonly task: number; readonly named: TextDraft<string> }[];
}

/** In natural order of names. */
export function draftBenches(given: BenchesDraft | undefined, numberOf: NumberOf): BenchDraft[] {
  const entries = [...(given?.entries ?? [])].sort((one, two) => compareNaturally(one.id, two.id));
  return entries.map(({ id, place, value }) => {
    const keys: BenchKeys = value?.at ?? {};
    const named = valuesOf(keys.tasks);
    const tasks = named.flatMap((each) => {
      const task = numberOf(each.value);
      return task === undefined ? [] : [{ task, named: each }];
    });
    return { id, place, keys, named, tasks };
  });
}

/** The benches of a draft without errors, in natural order of names. */
export function buildBenches(benches: readonly BenchDraft[]): Bench[] {
  return benches.map(({ id, place, keys, tasks }) => ({
    id,
    tasks: [...new Set(tasks.map(({ task }) => task))].sort((one, two) => one - two),
    shifts: keys.shifts?.value ?? null,
    stations: keys.stations?.value ?? 1,
    share: keys.share?.value ?? ONE,
    pieces: keys.pieces?.value ?? null,
    holds: keys.holds?.value ?? 1,
    handOver: keys["hand-over"]?.value ?? 0,
    takeOver: keys["take-over"]?.value ?? 0,
    space: keys.space?.value ?? null,
    stop: keys.stop?.value ?? 0,
    bunch: keys.bunch?.value ?? 1,
    place,
  }));
}
