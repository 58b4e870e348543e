import { isMap } from "yaml";
import { nearestWords } from "../../findings/nearest.js";
import { readDemand } from "../../time/demand.js";
import { readDuration, TIME_UNITS, type TimeUnit } from "../../time/duration.js";
import { quoted } from "../../time/quoted.js";
import { ONE } from "../../time/ratio.js";
import { accept, type Reading, refuse } from "../../time/reading.js";
import { readShare } from "../../time/share.js";
import { unitNamed } from "../../time/units.js";
import { type Line, PACE_KEYS } from "../line.js";
import type { ObjectDraft } from "../read/draft.js";
import { choice, text, textOrNumber } from "../read/leaf.js";
import type { YamlNodes } from "../read/parse-yaml.js";
import { textOf } from "../read/read-shape.js";
import { readWords } from "../text-values.js";
import { calendarSchema, draftCalendar } from "./calendar.js";
import { buildKeepPace, keepPaceKeys } from "./keep-pace.js";

/** What the line is called and what sets its pace; a bare time is in `unit`. */
export const paceKeys = (unit: TimeUnit | null) => ({
  line: textOrNumber("blank", "The name of the line. Default: the name of the file.", readWords).optional(),
  unit: unitSchema.optional(),
  demand: textOrNumber(
    "demand",
    "Good units wanted per hour (of available time), shift, day, week, month or year, such as 176 per day.",
    readDemand,
  ).optional(),
  calendar: calendarSchema().optional(),
  uptime: share("Share of the available time in which the line runs. Default: 100 %."),
  yield: share("Good units leaving / units started, after repair. Default: 100 %."),
  handling: textOrNumber(
    "handling",
    "Time lost to moving and positioning, each time a unit passes through a station. Default: 0.",
    (typed) => readDuration(typed, unit),
  ).optional(),
  "plan-to": share("Share of the working time that may be loaded with work. Default: 100 %."),
  ...keepPaceKeys(
    "In place of plan-to: the chance with which stations stay within their working time where times vary. A station fits while mean + z x standard deviation is no more, such as z = 1.645 for 95 %. Times count as normal and independent. Default: not asked.",
  ),
});

/** On its own, because a file's unit must be known before its times are read. */
const unitSchema = choice(
  "unit",
  "What a bare number means in task times and handling.",
  TIME_UNITS,
  readUnit,
);

function share(description: string) {
  return text("share", description, readShare).optional();
}

/** The unit of bare numbers, in any case of letters. */
function readUnit(text: string): Reading<TimeUnit> {
  const unit = unitNamed(text.trim());
  if (unit !== null) return accept(unit);
  const expected = `units are ${TIME_UNITS.join(", ")}`;
  if (text.trim() === "") return refuse(`a unit is missing: ${expected}`);
  return refuse(`${quoted(text.trim())} is no unit: ${expected}${nearestWords(text, TIME_UNITS)}`);
}

/** The unit of the file, looked at before anything else since times are read with it; null where there is none to use. */
export function readFileUnit(tree: YamlNodes): TimeUnit | null {
  const root = tree.resolve(tree.root);
  if (!isMap(root)) return null;
  const pair = root.items.find((each) => textOf(tree.resolve(each.key))?.trim() === "unit");
  const typed = textOf(tree.resolve(pair?.value));
  const unit = typed === null ? null : readUnit(typed);
  return unit?.ok ? unit.value : null;
}

type PaceDraft = ObjectDraft<ReturnType<typeof paceKeys>>;

/** What sets the pace, of a draft without errors; `places` are those of the keys given. */
export function buildPace(
  keys: PaceDraft["at"],
  places: PaceDraft["keys"],
): Pick<
  Line,
  "unit" | "demand" | "calendar" | "uptime" | "yield" | "planTo" | "keepPace" | "handling" | "given"
> {
  return {
    unit: keys.unit?.value ?? null,
    demand: keys.demand?.value ?? null,
    calendar: draftCalendar(keys),
    uptime: keys.uptime?.value ?? ONE,
    yield: keys.yield?.value ?? ONE,
    planTo: keys["plan-to"]?.value ?? ONE,
    keepPace: buildKeepPace(keys),
    handling: keys.handling?.value ?? 0,
    given: PACE_KEYS.filter((key) => places[key] !== undefined),
  };
}
