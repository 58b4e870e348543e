import { ONE, ZERO } from "../time/ratio.js";
import { buildBenches } from "./build-benches.js";
import { buildFloor } from "./build-floor.js";
import { buildOptions, buildRates } from "./build-options.js";
import { buildPolicy } from "./build-policy.js";
import { buildTask } from "./build-task.js";
import { buildWaits } from "./build-waits.js";
import { draftCalendar } from "./draft-calendar.js";
import { sharesOf } from "./draft-models.js";
import { type Line, PACE_KEYS } from "./line.js";
import { beforeOf, type LineDraft } from "./line-draft.js";
import { spellingsOf } from "./spellings.js";

/** The line that a draft without errors describes. */
export function buildLine(draft: LineDraft): Line {
  const { keys } = draft;
  const spell = spellingsOf(draft);
  const shares = sharesOf(draft.models);
  const benches = buildBenches(draft);
  return {
    file: draft.file,
    name: keys.line?.value ?? baseName(draft.file),
    unit: keys.unit?.value ?? null,
    demand: keys.demand?.value ?? null,
    calendar: draftCalendar(keys),
    uptime: keys.uptime?.value ?? ONE,
    yield: keys.yield?.value ?? ONE,
    planTo: keys["plan-to"]?.value ?? ONE,
    handling: keys.handling?.value ?? 0,
    given: PACE_KEYS.filter((key) => draft.places[key] !== undefined),
    tasks: draft.tasks.map((_, number) => buildTask(draft, number, spell, shares)),
    before: beforeOf(draft),
    waits: buildWaits(draft.arrows, draft.models),
    ...buildFloor(draft, spell),
    models: draft.models.models.map(({ id }, model) => ({ id, share: shares[model]! })),
    sequence: keys.sequence?.items.map(({ value }) => draft.models.numberOf(value)!) ?? null,
    modelOverload: keys["model-overload"]?.value ?? null,
    benches,
    options: buildOptions(draft, benches),
    rates: buildRates(keys),
    attendance: keys.attendance?.value ?? ONE,
    relief: keys.relief?.value ?? ZERO,
    ...buildPolicy(keys),
  };
}

/** The file's name without its folders and endings: `lines/cargo-bike.line.yaml` is `cargo-bike`. */
function baseName(file: string): string {
  const last = file.split(/[/\\]/u).at(-1)!;
  return last.replace(/(?:\.line)?\.ya?ml$/u, "") || last;
}
