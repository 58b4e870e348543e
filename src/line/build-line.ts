import { ONE, ratio } from "../time/ratio.js";
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
    waits: [],
    floor: [],
    equipment: new Map(),
    together: [],
    apart: [],
    maxPlaces: 1,
    people: [],
    models: [],
    sequence: null,
    modelOverload: null,
  };
}

function buildTask({ id, place, pieceTime, keys }: DraftTask): Task {
  const [each, quantity] = [pieceTime!.value, keys.quantity?.value ?? 1];
  return {
    id,
    name: keys.name?.value ?? null,
    quantity,
    times: [each * quantity],
    walking: 0,
    machineTime: 0,
    every: 1,
    visits: ONE,
    load: ratio(each * quantity),
    people: 1,
    side: null,
    skills: [],
    equipment: [],
    zone: null,
    stations: null,
    notBefore: null,
    notAfter: null,
    test: null,
    kind: null,
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
