import type { Hold } from "../../benches/held-on-line.js";
import type { Demand } from "../../time/demand.js";
import type { Ratio } from "../../time/ratio.js";
import type { Obstacle } from "../balance/obstacle.js";

/** One answer to a task over a limit; tasks and stations by their ids, times in microseconds. */
export type LongAnswer =
  | PlacesAnswer
  /** So many places that the line was not balanced with them. */
  | (Joint & { readonly kind: "no-places" } & Pick<PlacesAnswer, "places">)
  | (Joint & {
      /** Counted equipment alone is too little. */
      readonly kind: "equipment";
      readonly equipment: readonly MoreEquipment[];
      readonly result: ChangedResult;
    })
  /** More units at a place at a time, while machines run by themselves. */
  | (Joint & {
      readonly kind: "holds";
      readonly holds: readonly { readonly task: string; readonly holds: number }[];
      readonly equipment: readonly MoreEquipment[];
      readonly result: ChangedResult;
    })
  | (Own & { readonly kind: "split" } & SplitTerms)
  /** So many parts that the line was not balanced with them. */
  | (Own & { readonly kind: "too-many-parts" } & Pick<SplitTerms, "parts" | "most" | "isOfModel">)
  /** Its machine is loaded and runs in one go. */
  | (Own & { readonly kind: "no-split" })
  | (Own & { readonly kind: "bench" } & BenchTerms)
  /** It cannot be built away from the line; `holds` where that is for rules of the line. */
  | (Own & { readonly kind: "no-bench"; readonly holds: readonly Hold[] })
  /** Nobody knows, as no task says what is built on the base unit. */
  | (Own & { readonly kind: "unknown-bench" })
  | (Joint & {
      readonly kind: "overload";
      readonly overload: Ratio;
      readonly result: ChangedResult;
    })
  | SlowerAnswer;

/** It helps all such tasks of the line at once, and is the same for each. */
interface Joint {
  readonly isJoint: true;
}

interface Own {
  readonly isJoint: false;
}

/** Units taken in turn at parallel places. */
export interface PlacesAnswer extends Joint {
  readonly kind: "places";
  readonly places: readonly { readonly task: string; readonly places: number }[];
  readonly equipment: readonly MoreEquipment[];
  readonly result: ChangedResult;
  /** So many places at stations that do without for these tasks as well; null where only theirs have more. */
  readonly everywhere: { readonly maxPlaces: number; readonly at: "every station" | "their stations" } | null;
  /** With places at every station as many people need fewer stations; null where they do not. */
  readonly shorter: { readonly stations: number; readonly maxPlaces: number } | null;
}

/** Counted equipment of which there must be more. */
export interface MoreEquipment {
  readonly name: string;
  readonly needed: number;
  readonly count: number;
}

export interface SplitTerms {
  readonly parts: number;
  /** What a part takes at the most. */
  readonly most: Ratio;
  /** That is what one model may take. */
  readonly isOfModel: boolean;
  /** Stations that every part is fixed to; null where it is to none. */
  readonly fixedTo: readonly string[] | null;
  readonly equipment: readonly MoreEquipment[];
  /** Null where the line was not balanced with it. */
  readonly result: ChangedResult | null;
}

export interface BenchTerms {
  readonly tasks: readonly string[];
  readonly joinsAt: string;
  readonly places: number;
  readonly isGuess: boolean;
  /** Null where the rest was not balanced. */
  readonly result:
    | { readonly kind: "plan"; readonly stations: number; readonly people: number }
    | { readonly kind: "no-plan"; readonly obstacles: readonly Obstacle[] }
    | OthersTooLong
    | null;
}

export interface SlowerAnswer extends Joint {
  readonly kind: "slower";
  readonly lineCycle: Ratio;
  /** "found": less may do; "open": it may take more; "none": no pace helps. */
  readonly outcome: "proved" | "found" | "open" | "none";
  /** Of several tasks the one that needs the slowest pace; of one, where the rules of the line need more than it does; else null. */
  readonly neededBy: { readonly task: string; readonly lineCycle: Ratio; readonly isEnough: boolean } | null;
  readonly rate: SlowerRate;
  /** Null where the line was not balanced at that pace. */
  readonly result: ChangedResult | null;
}

/** What the line makes at a slower pace: good units of its demand, whole ones but of an hour, rounded down, or units an hour where only a line cycle was given. */
export type SlowerRate =
  | { readonly kind: "demand"; readonly units: Ratio; readonly demand: Demand }
  | { readonly kind: "hour"; readonly units: Ratio };

interface OthersTooLong {
  readonly kind: "others-too-long";
}

/** What a line is balanced to once it is changed. */
export type ChangedResult = ChangedPlan | ChangedWithoutPlan | OthersTooLong;

export interface ChangedPlan {
  readonly kind: "plan";
  readonly stations: number;
  /** In all, at a time. */
  readonly people: number;
  readonly isProved: boolean;
  /** At the pace; null where that is not known. */
  readonly efficiency: Ratio | null;
}

export interface ChangedWithoutPlan {
  readonly kind: "no-plan";
  /** Null where the search was stopped before it found one. */
  readonly obstacles: readonly Obstacle[] | null;
  /** Another answer that was looked at before has none for the same reasons. */
  readonly isToldBefore: boolean;
}
