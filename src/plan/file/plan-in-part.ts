import type { Finding } from "../../findings/finding.js";
import { idKey } from "../../line/ids.js";
import type { Plan } from "../plan.js";
import type { PlacedStation } from "./place-tasks.js";
import type { DraftStation, PlanRoot } from "./plan-draft.js";

/** What can be judged of a file that is no plan: its stations as far as they could be read. */
export interface PlanInPart {
  /** Each station as it is written; the further ones of an id are told apart by their line: "C (line 7)". */
  readonly plan: Plan;
  /** The id that is written for each of those. */
  readonly written: ReadonlyMap<string, string>;
  /** Every station and every list of tasks could be read. */
  readonly isWhole: boolean;
  /** Stations, as called in the plan, not all of whose tasks could be read. */
  readonly unlisted: ReadonlySet<string>;
  /** Stations, as called in the plan, whose id, places, sides or persons could not be read. */
  readonly unsure: ReadonlySet<string>;
  /** What the file says wrong, without tasks that are nowhere or twice. */
  readonly findings: readonly Finding[];
}

/** The stations with every id once, and the id that is written for those that were called otherwise. */
export function tellApart(drafts: readonly DraftStation[]): {
  readonly drafts: readonly DraftStation[];
  readonly written: ReadonlyMap<string, string>;
} {
  const known = new Set<string>();
  const written = new Map<string, string>();
  const apart = drafts.map((draft) => {
    const isFirst = !known.has(idKey(draft.id));
    const id = isFirst ? draft.id : freeName(draft, known);
    known.add(idKey(id));
    if (!isFirst) written.set(id, draft.id);
    return { ...draft, id };
  });
  return { drafts: apart, written };
}

/** By line, and by column where a line has several. */
function freeName({ id, place }: DraftStation, known: ReadonlySet<string>): string {
  const byLine = `${id} (line ${place.line})`;
  return known.has(idKey(byLine)) ? `${id} (line ${place.line}, column ${place.column})` : byLine;
}

/** @param findings what the file says wrong, without tasks that are nowhere or twice */
export function planInPart(
  { at, keys }: PlanRoot,
  { drafts, written }: ReturnType<typeof tellApart>,
  plan: Plan,
  findings: readonly Finding[],
): PlanInPart {
  const lists = [at.stations, ...(keys.benches === undefined ? [] : [at.benches])];
  const isCounted = lists.every((list) => list !== undefined && list.items.length === list.count);
  const those = (of: (draft: DraftStation) => boolean) =>
    new Set(drafts.flatMap((draft) => (of(draft) ? [draft.id] : [])));
  const unlisted = those(({ isListed }) => !isListed);
  return {
    plan,
    written,
    isWhole: isCounted && unlisted.size === 0,
    unlisted,
    unsure: those(({ isSure }) => !isSure),
    findings,
  };
}

/** A finding with the id of its station as it is written. */
export function asWritten<Told extends Finding>(found: Told, written: PlanInPart["written"]): Told {
  return { ...found, station: written.get(found.station ?? "") ?? found.station };
}

/** The stations in order of flow and the benches. */
export function planOfPlaced(placed: readonly PlacedStation[]): Plan {
  const benches = placed.filter((each) => each.isBench).map((each) => each.station);
  const stations = placed.filter((each) => !each.isBench).map((each) => each.station);
  return { stations, ...(benches.length > 0 ? { benches } : {}) };
}
