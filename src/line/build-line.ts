import { ONE } from "../time/ratio.js";
import { draftCalendar } from "./draft-calendar.js";
import { type Line, PACE_KEYS, type Task } from "./line.js";
import { beforeOf, type DraftTask, type LineDraft } from "./line-draft.js";

/** The line that a draft without errors describes. */
export function buildLine(draft: LineDraft): Line {
  const { keys } = draft;
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
    tasks: draft.tasks.map(buildTask),
    before: beforeOf(draft),
  };
}

function buildTask({ id, place, pieceTime, keys }: DraftTask): Task {
  const [each, quantity] = [pieceTime!.value, keys.quantity?.value ?? 1];
  return {
    id,
    name: keys.name?.value ?? null,
    pieceTime: each,
    quantity,
    time: each * quantity,
    onBase: keys["on-base"]?.value ?? false,
    caution: keys.caution?.value ?? null,
    lift: keys.lift?.value ?? null,
    place,
  };
}

/** The file's name without its folders and endings: `lines/cargo-bike.line.yaml` is `cargo-bike`. */
function baseName(file: string): string {
  const last = file.split(/[/\\]/u).at(-1)!;
  return last.replace(/(?:\.line)?\.ya?ml$/u, "") || last;
}
