import type { Place } from "../findings/finding.js";
import type { Calendar } from "../time/calendar.js";
import type { Demand } from "../time/demand.js";
import type { Micros, TimeUnit } from "../time/duration.js";
import type { Ratio } from "../time/ratio.js";

/** One task of the line; indivisible. */
export interface Task {
  /** As typed in the file; unique after trimming and Unicode NFC. */
  readonly id: string;
  readonly name: string | null;
  /** Pieces per unit, a whole number from 1; those of the model with the most. */
  readonly quantity: number;
  /** By model in the order of `times`, where models differ; 0 where a model does not have the task. */
  readonly quantityByModel?: readonly number[];
  /**
   * Task time, the time of one piece x quantity, by model in the order of `Line.models`: null where a model does not have the
   * task. One entry on a line without models.
   */
  readonly times: readonly (Micros | null)[];
  /** Walking to the place of the work and back, per unit. */
  readonly walking: Micros;
  /** What a machine runs by itself once the hand work is done, per unit; no person waits for it, the unit does. */
  readonly machineTime: Micros;
  /** Done on every so many units only; 1 is every unit. */
  readonly every: number;
  /**
   * How often the task is done for one good unit of each model, in the order of `times`: failures sent back, units scrapped later and
   * work of every so many units included; 0 where a model does not have the task.
   */
  readonly visits: readonly Ratio[];
  /** Parts of benches that are taken over at the task; left out where there are none. */
  readonly takenOver?: readonly TakeOver[];
  /**
   * What the task adds to its station per good unit, in microseconds: the share-weighted mean over the models of (task time +
   * walking) x visits, and of the time to take parts over. On a plain line this is the task time.
   */
  readonly load: Ratio;
  /** People together at the task; on the model that takes the most. */
  readonly people: number;
  /** By model in the order of `times`, where models differ; 0 where a model does not have the task. */
  readonly peopleByModel?: readonly number[];
  /** The side of a wide product; null on a line without sides. */
  readonly side: Side | null;
  readonly skills: readonly string[];
  readonly equipment: readonly string[];
  readonly zone: string | null;
  /** Numbers in `Line.floor` of the stations that may hold the task; null: any. */
  readonly stations: readonly number[] | null;
  /** First and last number in `Line.floor` that may hold the task; null: no such limit. */
  readonly notBefore: number | null;
  readonly notAfter: number | null;
  /** What it costs to move the task, a whole number from 1; null: what its skills say. */
  readonly moveCost: number | null;
  /** How long one person is trained for it; null: what its skills say. */
  readonly training: Micros | null;
  /** How its time falls as units are built; null: it does not. */
  readonly learning: Learning | null;
  /** How its time varies from unit to unit; null: it does not. */
  readonly variation: Variation | null;
  readonly test: Test | null;
  readonly kind: KindOfWork | null;
  /** Said to work on the base unit (`on-base: true`). */
  readonly onBase: boolean;
  /** What it takes of limits, by their names in natural order. */
  readonly uses: readonly Use[];
  /** What it builds in, in natural order of part numbers. */
  readonly parts: readonly TaskPart[];
  /** Quality points, printed on the sheet of the station. */
  readonly checks: readonly string[];
  /** Words of caution, printed wherever the task is handed to people. */
  readonly caution: string | null;
  /** Mass to be lifted, by hand or by a hoist as the caution says, as typed ("27 kg"); shown, never judged. */
  readonly lift: string | null;
  /** Where the hands are in that lift; null where the file is silent. */
  readonly lifting: Lifting | null;
  readonly place: Place;
}

/** Taking over what one bench builds, at a task where it joins. */
export interface TakeOver {
  readonly time: Micros;
  /** How often for one good unit of each model, in the order of `Task.times`: units sent back keep the parts that they have. */
  readonly often: readonly Ratio[];
}

export const LEARNED_BY = ["unit", "average"] as const;

/** How the time of a task falls as people build units; units are those of the line, whoever builds them. */
export interface Learning {
  /** Share of the time that remains at each doubling of the units, above 1/2 to 1. */
  readonly share: Ratio;
  /** What falls so: the time of each unit (Crawford), or the mean time of all units so far (Wright). */
  readonly by: (typeof LEARNED_BY)[number];
  /** The unit that takes the time that the file states, a whole number from 1. */
  readonly timeAt: number;
  /** The least time that is ever reached, as a share of that time. */
  readonly least: Ratio;
  /** Units built before. */
  readonly built: number;
}

export const SPREADS = ["exponential", "normal", "lognormal", "triangular"] as const;

/** How a time varies around what the file states, which is its mean. */
export interface Variation {
  readonly shape: (typeof SPREADS)[number] | "measured";
  /** Standard deviation / mean, above 0. */
  readonly cv: Ratio;
  /** Of measured times: each / their mean; drawn with the same chance. */
  readonly factors?: readonly number[];
}

/** With what chance a station stays within its working time where times vary. */
export interface KeepPace {
  /** From 1/2 to below 1. */
  readonly chance: Ratio;
  /** z: so many standard deviations above its mean a normal time stays below with that chance; to 10 decimals. */
  readonly score: Ratio;
}

export const PACINGS = ["unpaced", "moving", "indexing"] as const;

/** How units move along the line and what stops a station. */
export interface Flow {
  readonly pacing: (typeof PACINGS)[number];
  /** Units that find room between two stations, where `buffers` says nothing of the first of them. */
  readonly buffer: number;
  /** In the order of the file; stations as they are called there. */
  readonly buffers: readonly { readonly station: string; readonly size: number; readonly place: Place }[];
  readonly breakdowns: readonly (Breakdowns & { readonly station: string; readonly place: Place })[];
}

/** Whose time breakdowns count: that in which the workplace works, or that of the line. */
export const TIMES_OF_BREAKDOWNS = ["work", "clock"] as const;

/** Breakdowns of a workplace; both times are means of exponential ones. */
export interface Breakdowns {
  readonly of: (typeof TIMES_OF_BREAKDOWNS)[number];
  /** From the end of one to the start of the next, of that time. */
  readonly every: Micros;
  readonly lasts: Micros;
}

export const SIDES = ["left", "right", "either"] as const;
export type Side = (typeof SIDES)[number];

export const KINDS_OF_WORK = ["value-adding", "necessary", "waste"] as const;
export type KindOfWork = (typeof KINDS_OF_WORK)[number];

export const GRIPS = ["good", "fair", "poor"] as const;
export const LIFT_TIMES = ["1 h", "2 h", "8 h"] as const;
/** How long lifting lasts at the most. */
export type LiftTime = (typeof LIFT_TIMES)[number];

/** A lift by one person with both hands, as the revised NIOSH lifting equation asks for it; distances in cm. */
export interface Lifting {
  /** In kg. */
  readonly mass: Ratio;
  /** From the middle between the ankles to the hands. */
  readonly reach: Ratio;
  /** Heights of the hands above the floor, at the start and at the end. */
  readonly from: Ratio;
  readonly to: Ratio;
  /** In degrees. */
  readonly turn: Ratio;
  readonly grip: (typeof GRIPS)[number];
  /** Lifts a minute; null: as often as the task is performed at the pace. */
  readonly perMinute: Ratio | null;
  readonly lasts: LiftTime;
}

export const RETESTS = ["until-good", "once", "scrap"] as const;
/** What becomes of a repaired unit: tested until it is good, good for certain, or scrapped when it fails again. */
export type Retest = (typeof RETESTS)[number];

/** A test: either failures go to repair and come back, or they are scrapped. */
export type Test =
  | {
      readonly failures: "repaired";
      /** Share of the units tested that fail; of the model of which the most do. */
      readonly fail: Ratio;
      /** By model in the order of `Line.models`, where they differ. */
      readonly failByModel?: readonly Ratio[];
      /** Time of one repair, off the line. */
      readonly repair: Micros;
      /** The task that a repaired unit starts again from; before the test, or the test itself. */
      readonly returnTo: number;
      readonly retest: Retest;
    }
  | { readonly failures: "scrapped"; readonly scrap: Ratio };

export const LIMITED = ["station", "person", "station-and-shift", "person-and-shift"] as const;
/** Whom a limit is for. */
export type Limited = (typeof LIMITED)[number];

/** What a station or a person may be given at the most; the unit is the one that the user names. */
export interface Limit {
  readonly name: string;
  readonly per: Limited;
  readonly most: Ratio;
  readonly unit: string;
}

/** What a task takes of a limit, in its unit. */
export interface Use {
  readonly limit: string;
  readonly amount: Ratio;
}

/** A station as it stands on the floor. */
export interface FloorStation {
  readonly id: string;
  readonly zone: string | null;
  readonly equipment: readonly string[];
  /** null where the file does not say, [] where it says none. */
  readonly skills: readonly string[] | null;
  /** The most parallel places here; null: as many as the line allows. */
  readonly maxPlaces: number | null;
  /** Units that may stand at one place at a time; null: as many as the line allows. */
  readonly holds: number | null;
  /** The most people of a place who share the work of one unit; null: as many as the line allows. */
  readonly maxCrew: number | null;
  /** The share of this station's working time that is loaded; null: that of the line. */
  readonly planTo: Ratio | null;
  /** With what chance it stays within its working time, as the line asks or else it; null where a plan-to says how far it is loaded. */
  readonly keepPace: KeepPace | null;
  /** Its own limits, in natural order of names, each in place of that of the line with the same name. */
  readonly limits: readonly Limit[];
  /** How far work may run past its end, in microseconds of work; null: as far as the line allows. */
  readonly driftRoom: Micros | null;
}

export interface Model {
  readonly id: string;
  /** Share of the good units; all shares together are 1. */
  readonly share: Ratio;
}

/** A part that a task builds in. */
export interface TaskPart {
  /** Its number, spelt as in the part list, else as where it stands first. */
  readonly id: string;
  /** Pieces each time that the task is done on a unit of each model; 0 where a model has none. */
  readonly byModel: readonly bigint[];
}

/** What the part list says of a part; null where it is silent. */
export interface ListedPart {
  readonly id: string;
  readonly name: string | null;
  /** What one of it is, such as piece or m. */
  readonly unit: string | null;
  /** How many are in one pack or container. */
  readonly pack: number | null;
  /** Where it is fetched from. */
  readonly from: string | null;
  /** From an empty container to a full one at the line. */
  readonly replenish: Micros | null;
  /** On top of the demand in that time, as a share of it. */
  readonly safety: Ratio | null;
}

/** How the material handler comes to the line; null where the file is silent. */
export interface Delivery {
  readonly every: Micros | null;
  /** Time of one trip. */
  readonly trip: Micros | null;
  /** Packs of one trip. */
  readonly packs: number | null;
  readonly replenish: Micros | null;
  readonly safety: Ratio | null;
}

/** What units use of a part. */
export interface PartUse {
  readonly name: string;
  /** Pieces for a unit of each model on average. */
  readonly byModel: readonly Ratio[];
}

/** Of so many units in a row at most so many are of these models. */
export interface Spacing {
  /** A model, or a task or a part that only some models have, as the file calls it there. */
  readonly name: string;
  /** Numbers of models. */
  readonly models: readonly number[];
  readonly most: number;
  readonly of: number;
}

/** One of the people with what they can do. */
export interface Person {
  readonly id: string;
  readonly skills: readonly string[];
}

/** What must lie between two tasks of an arrow: time in which a unit only waits (glue, cure, dry), stations, or both. */
export interface Wait {
  readonly from: number;
  readonly to: number;
  /** The longest of all models. */
  readonly wait: Micros;
  /** How long units of each model wait, where the models differ; null where all wait alike. */
  readonly byModel: readonly Micros[] | null;
  /** The task waited for stands at least so many stations after the other; 1 where only a time is given. */
  readonly stations: number;
  readonly place: Place;
}

/** What a plan of the line is held against besides its pace and rules; null where the file is silent. */
export interface Policy {
  /** The most that a station may be loaded, as a share of its working time; 1 when the file is silent. */
  readonly maxLoad: Ratio;
  /** The least efficiency at the pace, over all people. */
  readonly minEfficiency: Ratio | null;
  readonly maxStations: number | null;
  readonly maxPeople: number | null;
  /** How many stations more than the proved least are allowed. */
  readonly maxAboveLeast: number | null;
}

/** For how many units of the product a bench or a supplier delivers in a period. */
export interface Supply extends Demand {
  readonly name: string;
  readonly place: Place;
}

/** A bench beside the line, where parts of the unit may be built; times in microseconds. */
export interface Bench {
  readonly id: string;
  /** Task numbers, ascending; one or more, each at this bench only. */
  readonly tasks: readonly number[];
  /** Shifts of a day that it works; null: those of the line. */
  readonly shifts: number | null;
  /** Its stations one after another; at 1 each place builds the whole. */
  readonly stations: number;
  /** Share of the units that carry what is built there. */
  readonly share: Ratio;
  /** Pieces for one unit; null where the file is silent. */
  readonly pieces: number | null;
  /** Units' parts that may stand at one place at a time. */
  readonly holds: number;
  /** Per unit, worked at the bench. */
  readonly handOver: Micros;
  /** Per unit, worked at each task where the parts join. */
  readonly takeOver: Micros;
  /** Units' parts that find room between bench and line; null where the file is silent. */
  readonly space: number | null;
  /** The longest stop of the bench that the line is to ride through; 0 for none. */
  readonly stop: Micros;
  /** Units with these parts that may follow each other without a gap; 1 for none. */
  readonly bunch: number;
  readonly place: Place;
}

/** A named change of the line, to be compared with it; what is null or empty stays as the line has it. */
export interface LineOption {
  readonly name: string;
  /** What is built at benches instead of on the line; no task is at two of them. */
  readonly offLine: readonly Bench[];
  readonly demand: Demand | null;
  readonly calendar: Calendar | null;
  readonly uptime: Ratio | null;
  readonly yield: Ratio | null;
  readonly handling: Micros | null;
  readonly planTo: Ratio | null;
  readonly maxPlaces: number | null;
  /** A fixed number of stations; their shortest cycle then sets the pace. */
  readonly stations: number | null;
  /** Times of one piece by task number, for every model that has the task. */
  readonly times: ReadonlyMap<number, Micros>;
  readonly tables: Tables | null;
  /** What it costs once, at its start; null where the file is silent. */
  readonly once: OnceCost | null;
  /** Free words, shown beside the figures. */
  readonly note: string | null;
  readonly place: Place;
}

/** Whole units built by single people in place of a line. */
export interface Tables {
  readonly people: number;
  /** Walking of one person for one unit, beside that of the tasks. */
  readonly walking: Micros;
}

/** A cost that comes once, above 0. */
export interface OnceCost {
  readonly amount: Ratio;
  /** As typed, or that of the rates; null where neither names one. */
  readonly currency: string | null;
}

/** What hours cost, in one currency. */
export interface Rates {
  readonly personHour: Ratio;
  /** An hour of one bench place or table; 0 when the file is silent. */
  readonly benchHour: Ratio;
  /** Pay of an hour of overtime as a share of that of any other hour, 1 or more. */
  readonly overtime: Ratio;
  /** As typed; null where the file does not name it. */
  readonly currency: string | null;
}

/** The name under which a line is compared as its file has it; no option may bear it. */
export const AS_IT_IS = "as it is";

/** A line file, read and checked: everything below may rely on it being sound. */
export interface Line {
  /** The path the line was read from, as the user gave it. */
  readonly file: string;
  readonly name: string;
  /** What a bare number means in task times, handling and `--cycle`; null when the file gives no unit. */
  readonly unit: TimeUnit | null;
  readonly demand: Demand | null;
  readonly calendar: Calendar | null;
  /** Shares from above 0 to 1; 1 when the file is silent. */
  readonly uptime: Ratio;
  readonly yield: Ratio;
  readonly planTo: Ratio;
  /** With what chance stations stay within their working time; null where a plan-to says how far they are loaded. */
  readonly keepPace: KeepPace | null;
  /** Time per unit and station lost to moving and positioning. */
  readonly handling: Micros;
  /** The pace keys that the file spells out, in the order of the table of keys. */
  readonly given: readonly PaceKey[];
  /** In natural order of ids; every number of a task is its index here. */
  readonly tasks: readonly Task[];
  /** For each task the tasks directly before it, from `after` and `chains`, ascending, without doubles; no loops. */
  readonly before: readonly (readonly number[])[];
  /** Arrows with something between their tasks; each of them is in `before` too. */
  readonly waits: readonly Wait[];
  /** What stands on the floor, in order of flow; empty where the file is silent. A plan may need stations after these. */
  readonly floor: readonly FloorStation[];
  /** The file lists the floor. Otherwise it is as much of S1, S2 and so on as tasks name, and goes on as far as a plan does. */
  readonly isFloorListed: boolean;
  /** How many of each equipment exist, by name; equipment that is not listed is not counted. */
  readonly equipment: ReadonlyMap<string, number>;
  /** Tasks that share a station, whichever it is. */
  readonly together: readonly (readonly number[])[];
  /** Tasks of which no two share a station. */
  readonly apart: readonly (readonly number[])[];
  /** What the move of a task costs by skill; skills that are not listed say nothing. */
  readonly moveCosts: ReadonlyMap<string, number>;
  /** How long one person is trained, by skill; nothing for those that are not named. */
  readonly trainings: ReadonlyMap<string, Micros>;
  /** Limits of every station, in natural order of names; empty where the file is silent. */
  readonly limits: readonly Limit[];
  /** The most parallel places of a station; 1 when the file is silent. */
  readonly maxPlaces: number;
  /** Units that may stand at one place of a station at a time; 1 when the file is silent. */
  readonly holds: number;
  /**
   * The most people of a place who share the work of one unit, each on tasks of their own; 1 when the file is silent: the people of a
   * place work together.
   */
  readonly maxCrew: number;
  /** The people with skills; empty where the file is silent. */
  readonly people: readonly Person[];
  /** The models; empty where the line builds one. */
  readonly models: readonly Model[];
  /** The models in the order in which units enter the line, as numbers of models; null where the file is silent. */
  readonly sequence: readonly number[] | null;
  /** Parts that the sequence is to use evenly, in natural order of names; empty where the file is silent. */
  readonly levelled: readonly PartUse[];
  /** The parts that the file knows, in natural order of their numbers; empty where it has no list. */
  readonly partList: readonly ListedPart[];
  readonly delivery: Delivery;
  /** How close units may follow each other, in natural order of names; empty where the file is silent. */
  readonly spacings: readonly Spacing[];
  /** No model may take a station more than this share above its working time; null: models are held on average only. */
  readonly modelOverload: Ratio | null;
  /** How far work may run past the end of a station, in microseconds of work; null: that is not judged. */
  readonly driftRoom: Micros | null;
  /** In natural order of names; empty where the file is silent. A balance of the line keeps their tasks on the line. */
  readonly benches: readonly Bench[];
  readonly flow: Flow;
  /** Tasks of benches that build for some of the units only count on these in every load; as the file is read they count on each unit. */
  readonly countsShares?: true;
  /** Share of the people hired who are there on a day, above 0 to 1; 1 when the file is silent. */
  readonly attendance: Ratio;
  /** Share of the time in which somebody else stands in, on top of the people of the line, 0 to 1; 0 when the file is silent. */
  readonly relief: Ratio;
  readonly policy: Policy;
  /** In natural order of names; empty where the file is silent. */
  readonly supplies: readonly Supply[];
  /** Named changes to compare the line with, in natural order of names; empty where the file is silent. */
  readonly options: readonly LineOption[];
  /** What hours cost; null where the file is silent. */
  readonly rates: Rates | null;
}

/** Whether some station may have parallel places. */
export const mayDouble = ({ maxPlaces, floor }: Line): boolean =>
  maxPlaces > 1 || floor.some((station) => (station.maxPlaces ?? 1) > 1);

/** Keys that set the pace and that `--cycle` sets aside. */
export const PACE_KEYS = ["demand", "calendar", "uptime", "yield", "handling", "plan-to"] as const;
export type PaceKey = (typeof PACE_KEYS)[number];

/** The line with no share of the working time kept free at any station of its floor, for paces that set that aside. */
export function withoutPlanTo(line: Line): Line {
  return { ...line, floor: line.floor.map((station) => ({ ...station, planTo: null })) };
}
