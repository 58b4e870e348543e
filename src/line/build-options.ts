import { ONE, ZERO } from "../time/ratio.js";
import { draftCalendar } from "./draft-calendar.js";
import type { OffLineDraft, OptionDraft } from "./draft-options.js";
import { idKey } from "./ids.js";
import type { Bench } from "./line.js";
import type { LineDraft } from "./line-draft.js";
import type { LineKeys } from "./line-keys.js";
import type { LineOption, Rates, Tables } from "./line-option.js";

/** The options of a draft without errors; `benches` are those of the line. */
export function buildOptions({ options }: LineDraft, benches: readonly Bench[]): LineOption[] {
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

/** What hours cost; null where the file is silent. */
export function buildRates({ rates }: LineKeys): Rates | null {
  if (rates === undefined) return null;
  const { at } = rates;
  return {
    personHour: at["person-hour"]!.value,
    benchHour: at["bench-hour"]?.value ?? ZERO,
    overtime: at.overtime?.value ?? ONE,
    currency: at.currency?.value ?? null,
  };
}
