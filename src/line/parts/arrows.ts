import * as z from "zod";
import { addTo } from "../../findings/add-to.js";
import type { Place } from "../../findings/finding.js";
import type { Micros } from "../../time/duration.js";
import type { NumberOf } from "../ids.js";
import type { Wait } from "../line.js";
import type { Draft, TextDraft } from "../read/draft.js";
import { named, type TimeLeaf, textOrNumber } from "../read/leaf.js";
import { readStationsBetween } from "../whole-numbers.js";
import type { ModelsDraft } from "./models.js";

/** What a task names before it. */
export function afterSchema(time: TimeLeaf) {
  return z
    .union([
      named("The task that must be done before."),
      arrowSchema(time),
      z.array(z.union([named("A task that must be done before."), arrowSchema(time)])),
    ])
    .meta({
      description:
        "The task, or the list of tasks, that must be done before. Each may be a map that says what lies between.",
    });
}

/** An arrow with what lies between its tasks. */
function arrowSchema(time: TimeLeaf) {
  return z
    .strictObject({
      task: named("The task that must be done before."),
      wait: time(
        "other-time",
        "Time in which a unit only waits, such as for glue. The two tasks then never share a station.",
      ).optional(),
      model: named("The only model that asks for this precedence. One order serves all models.").optional(),
      stations: textOrNumber(
        "count",
        "At least so many stations from that task to this one, a whole number from 1. Default: 1 where it waits.",
        readStationsBetween,
      ).optional(),
    })
    .meta({ description: "A task that must be done before, with what lies between." });
}

/** A task named in `after`, with what lies between. */
export interface AfterDraft {
  readonly named: TextDraft<string>;
  readonly wait: TextDraft<number> | undefined;
  readonly stations: TextDraft<number> | undefined;
  readonly model: TextDraft<string> | undefined;
}

type AfterGiven = Draft<ReturnType<typeof afterSchema>>;
/** One entry of `after`: a task, or a map that names one. */
type AfterValue =
  | Exclude<AfterGiven, { kind: "list" }>
  | Extract<AfterGiven, { kind: "list" }>["items"][number];

export function draftAfters(given: AfterGiven | undefined): AfterDraft[] {
  const list = given === undefined ? [] : given.kind === "list" ? given.items : [given];
  return list.flatMap(draftAfter);
}

function draftAfter(entry: AfterValue): AfterDraft[] {
  if (entry.kind === "text") {
    return [{ named: entry, wait: undefined, stations: undefined, model: undefined }];
  }
  const { task, wait, stations, model } = entry.at;
  return task === undefined ? [] : [{ named: task, wait, stations, model }];
}

/** Work on `from` comes before work on `to`; `place` is where the file says so. */
export interface Arrow {
  readonly from: number;
  readonly to: number;
  readonly place: Place;
  readonly key: "after" | "chains";
  /** Time in which a unit only waits, 0 where it does not. */
  readonly wait: number;
  /** Stations from one to the other at least; 0 where they may share one. */
  readonly stations: number;
  /** The only model that asks for it, as typed; null: all do. */
  readonly model: string | null;
}

/** Every arrow whose two tasks exist and differ, in the order of the file: first from `after`, then from `chains`. */
export function draftArrows(
  tasks: readonly { readonly after: readonly AfterDraft[] }[],
  chains: readonly (readonly TextDraft<string>[])[],
  numberOf: NumberOf,
): Arrow[] {
  const inTasks = tasks.flatMap(({ after }, to) =>
    after.flatMap(({ named, wait, stations, model }) => {
      return arrow(numberOf(named.value), to, {
        place: named.place,
        key: "after",
        wait: wait?.value ?? 0,
        stations: stations?.value ?? (wait?.value ? 1 : 0),
        model: model?.value ?? null,
      });
    }),
  );
  const inChains = chains.flatMap((chain) =>
    chain.slice(1).flatMap((next, at) => {
      const plain = { place: next.place, key: "chains", wait: 0, stations: 0, model: null } as const;
      return arrow(numberOf(chain[at]!.value), numberOf(next.value), plain);
    }),
  );
  return [...inTasks, ...inChains];
}

function arrow(from: number | undefined, to: number | undefined, rest: Omit<Arrow, "from" | "to">): Arrow[] {
  return from === undefined || to === undefined || from === to ? [] : [{ from, to, ...rest }];
}

/** The arrows with something between their tasks, by task waited for and waiting; of several between two tasks the most. */
export function buildWaits(arrows: readonly Arrow[], models: ModelsDraft): Wait[] {
  const groups = new Map<string, Arrow[]>();
  for (const arrow of arrows) {
    if (arrow.stations === 0) continue;
    const key = `${arrow.from} ${arrow.to}`;
    addTo(groups, key, arrow);
  }
  return [...groups.values()]
    .map((group) => waitOf(group, models))
    .sort((one, two) => one.from - two.from || one.to - two.to);
}

function waitOf(group: readonly Arrow[], { models, numberOf }: ModelsDraft): Wait {
  const [{ from, to, place }] = group as [Arrow];
  const longest = (asked: readonly Arrow[]): Micros =>
    asked.reduce((most, { wait }) => Math.max(most, wait), 0);
  const byModel = models.map((_, number) =>
    longest(group.filter(({ model }) => model === null || numberOf(model) === number)),
  );
  const wait = longest(group);
  return {
    from,
    to,
    wait,
    byModel: byModel.every((each) => each === wait) ? null : byModel,
    stations: group.reduce((most, { stations }) => Math.max(most, stations), 0),
    place,
  };
}
