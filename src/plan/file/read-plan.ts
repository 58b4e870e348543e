import type { Document } from "yaml";
import { addTo } from "../../findings/add-to.js";
import { type Finding, finding, hasErrors, type Place, sortFindings } from "../../findings/finding.js";
import { otherText } from "../../findings/other-text.js";
import { idKey } from "../../line/ids.js";
import type { Line } from "../../line/line.js";
import { parseYaml } from "../../line/read/parse-yaml.js";
import { readShape } from "../../line/read/read-shape.js";
import type { Micros } from "../../time/duration.js";
import type { Plan, Station } from "../plan.js";
import { findTaskFaults } from "./find-task-faults.js";
import { lookAtPlanFile } from "./look-at-plan-file.js";
import { type PlacedStation, placeTasks } from "./place-tasks.js";
import { draftStations, findDraftFaults, type PlanKeys, type PlanRoot } from "./plan-draft.js";
import { planFileSchema } from "./plan-file-schema.js";
import { asWritten, type PlanInPart, planInPart, planOfPlaced, tellApart } from "./plan-in-part.js";

/** What a plan says that it was made for; null where it does not say. */
export interface MadeFor {
  /** In microseconds, rounded as in the file. */
  readonly lineCycle: Micros | null;
  readonly fingerprint: string | null;
  readonly place: Place;
}

/** Where a plan file says what. */
export interface PlanPlaces {
  /** The key of the list of stations. */
  readonly stations: Place | null;
  readonly line: Place | null;
  /** The station or bench of that id. */
  station(id: string): Place | null;
  /** Every place where the task of that number is written, with the station it is written at. */
  task(number: number): readonly { readonly station: string; readonly place: Place }[];
}

export interface PlanReading {
  readonly file: string;
  /** Null where the file cannot be read as a plan; the findings say why. */
  readonly plan: Plan | null;
  /** What can be judged of a file that is no plan; null for a plan, and where nothing can be. */
  readonly inPart: PlanInPart | null;
  /** The benches of the plan. */
  readonly benches: readonly Station[];
  /** Null where the plan does not say. */
  readonly madeFor: MadeFor | null;
  /** The line file that the plan names, as written. */
  readonly lineFile: string | null;
  /** Why the file is no plan, or what a plan that could be read says of tasks and sides that the line does not have; sorted. */
  readonly findings: readonly Finding[];
  readonly places: PlanPlaces;
  /** The document with its comments, or null where the text is no YAML. */
  readonly document: Document | null;
}

/** Reads the text of a plan of the line; `file` is what findings call it. Never throws for anything in the text. */
export function readPlan(file: string, text: string, line: Line): PlanReading {
  const other = otherText(text);
  if (other !== null) return refused(file, [notAPlan(file, other)], null);
  const { tree, findings } = parseYaml(file, text);
  const syntax = findings.map(inWordsOfPlans);
  if (tree === null) return refused(file, syntax, null);
  const look = lookAtPlanFile(tree);
  if (look.isOther) return refused(file, [...syntax, ...look.findings], tree.document);
  const shape = readShape(planFileSchema, tree);
  const root = shape.draft as PlanRoot | undefined;
  const keys: PlanKeys = root?.at ?? {};
  const drafts = draftStations(line, keys);
  const faults = [
    ...syntax,
    ...look.findings,
    // What the first look has told in more words.
    ...shape.findings.filter(({ place }) => !look.maps.some((map) => isSamePlace(map, place))),
    ...findDraftFaults(file, keys, drafts),
  ];
  const isRefused = hasErrors(faults);
  const apart = isRefused ? tellApart(drafts) : { drafts, written: new Map<string, string>() };
  const placed = placeTasks(file, line, apart.drafts);
  const places = placesOf(root, placed);
  const told = sortFindings([...faults, ...placed.flatMap((each) => each.findings)]);
  const plan = planOfPlaced(placed);
  const [madeFor, lineFile] = [madeForOf(keys), keys.line?.value ?? null];
  const said = { file, madeFor, lineFile, places, document: tree.document };
  if (!isRefused) return { ...said, plan, inPart: null, benches: plan.benches ?? [], findings: told };
  if (hasErrors(syntax) || plan.stations.length === 0) return refused(file, told, tree.document);
  // What else is wrong is told in the same run, as far as stations could be read.
  const inPart = planInPart(root!, apart, plan, told);
  const tasks = findTaskFaults(file, line, placed, inPart.isWhole, places.stations);
  const all = sortFindings([...told, ...tasks]).map((each) => asWritten(each, apart.written));
  return { ...said, plan: null, inPart, benches: [], findings: all };
}

function notAPlan(file: string, other: string): Finding {
  const message = `this seems to be ${other}; a plan file is expected, as \`linepoise balance LINE --write PLAN\` makes one`;
  return finding({ rule: "not-a-plan", severity: "error", message, file });
}

const NOWHERE: PlanPlaces = { stations: null, line: null, station: () => null, task: () => [] };

function refused(file: string, findings: readonly Finding[], document: Document | null): PlanReading {
  return {
    file,
    plan: null,
    inPart: null,
    benches: [],
    madeFor: null,
    lineFile: null,
    findings: sortFindings(findings),
    places: NOWHERE,
    document,
  };
}

/** Messages of the reading that speak of line files. */
const OTHER_WORDS: Readonly<Record<string, string>> = {
  "empty-file": "the file says nothing; a plan has `format:`, `line:` and `stations:`",
  "yaml-documents": "a second document starts here; one file holds one plan, so cut the file in two",
};

function inWordsOfPlans(found: Finding): Finding {
  return { ...found, message: OTHER_WORDS[found.rule] ?? found.message };
}

const isSamePlace = (one: Place, two: Place | null): boolean =>
  one.line === two?.line && one.column === two.column;

function madeForOf(keys: PlanKeys): MadeFor | null {
  const given = keys["made-for"];
  if (given === undefined) return null;
  const { at, place } = given;
  return {
    lineCycle: at["line-cycle"]?.value ?? null,
    fingerprint: at.fingerprint?.value ?? null,
    place,
  };
}

function placesOf(root: PlanRoot | undefined, placed: readonly PlacedStation[]): PlanPlaces {
  const stations = new Map(placed.map(({ station, place }) => [idKey(station.id), place]));
  const tasks = new Map<number, { station: string; place: Place }[]>();
  for (const { station, places } of placed) {
    for (const [at, task] of station.tasks.entries()) {
      addTo(tasks, task, { station: station.id, place: places[at]! });
    }
  }
  return {
    stations: root?.keys.stations ?? null,
    line: root?.at.line?.place ?? null,
    station: (id) => stations.get(idKey(id)) ?? null,
    task: (number) => tasks.get(number) ?? [],
  };
}
