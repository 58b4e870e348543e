import type { Shortage } from "../../benches/people-at-benches.js";
import type { Finding } from "../../findings/finding.js";
import type { MachineNeed } from "../../plan/figures/machines.js";
import type { Reason } from "../../solve/explain/explain-infeasible.js";
import type { Ratio } from "../../time/ratio.js";
import type { NamedShortage } from "./name-shortage.js";

/** Why there is no plan; tasks by their ids, as lines are cut and numbered anew; times in microseconds. */
export type Obstacle =
  /** A thing that the line file asks for, or what times run into. */
  | {
      readonly kind: "rule";
      readonly reason: Reason;
      /** The earliest station, by the times of the work before it, of a task that it holds to sooner ones; null where that is no reason. */
      readonly earliest: string | null;
    }
  | { readonly kind: "shortage"; readonly shortage: NamedShortage }
  | { readonly kind: "machines"; readonly need: MachineNeed }
  /** Not every reason could be tried without: some of the others may not be needed. */
  | { readonly kind: "not-smallest" }
  /** Benches need more of counted equipment than exists. */
  | {
      readonly kind: "short-at-benches";
      readonly equipment: string;
      readonly needed: number;
      readonly count: number;
      /** Where one for each place does not keep up: how long it is busy for a unit, and how often one is due. */
      readonly slow: readonly { readonly busy: Ratio; readonly due: Ratio }[];
    }
  /** Benches keep all of the equipment that tasks on the line need. */
  | {
      readonly kind: "none-left";
      readonly equipment: string;
      readonly tasks: readonly string[];
      readonly count: number;
    }
  | { readonly kind: "too-long"; readonly tasks: readonly string[] }
  | ({ readonly kind: "unstaffed-benches" } & Shortage)
  /** Whoever stands at the benches, those who are left have too few skills for the line. */
  | { readonly kind: "unstaffed-line" }
  /** Nobody was found for both line and benches; there may be. */
  | { readonly kind: "staffing-open" }
  /** The verifier refuses line and benches together. */
  | { readonly kind: "fault"; readonly fault: Finding };
